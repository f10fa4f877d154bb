#pragma once

#include <vector>

#include "store/crew.hpp"
#include "store/sqlite/db.hpp"

namespace store::sqlite {

/// In order of name and id, the retired included.
[[nodiscard]] std::vector<Learner> learners(Db& db);
/// Under the id and with the day that the learner has.
void insert_learner(Db& db, const Learner& learner);
/// Everything but id and day added.
void update_learner(Db& db, const Learner& learner);

}  // namespace store::sqlite
