#pragma once

#include "base/fault.hpp"
#include "store/answer_log.hpp"
#include "store/log_part.hpp"
#include "store/sqlite/db.hpp"

namespace store::sqlite {

/// What Store says of the same names.
[[nodiscard]] base::Checked<TakenIn> would_take_in(Db& db, const LogPart& part);
[[nodiscard]] base::Checked<TakenIn> take_in(Db& db, const LogPart& part, Advance advance);

}  // namespace store::sqlite
