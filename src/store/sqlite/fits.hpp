#pragma once

#include <optional>
#include <vector>

#include "store/fit_record.hpp"
#include "store/sqlite/db.hpp"

namespace store::sqlite {

/// What Store says of the same names; save_fit wants a transaction round it.
void save_fit(Db& db, const FitRun& run, const std::vector<FittedValue>& values);
[[nodiscard]] std::optional<FitRun> latest_fit(Db& db);
[[nodiscard]] std::vector<FittedValue> fitted(Db& db, const base::Id128& learner);

}  // namespace store::sqlite
