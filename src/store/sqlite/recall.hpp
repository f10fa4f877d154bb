#pragma once

#include "store/answer_log.hpp"
#include "store/sqlite/db.hpp"
#include "store/store.hpp"

namespace store::sqlite {

/// The learner's states: what is written, with the answers since then folded in. Writes nothing.
[[nodiscard]] RecallStates states_of(Db& db, const base::Id128& learner, Advance advance);

/// Folds the answers since the last settling into the written states. Does nothing when there are none.
void settle(Db& db, Advance advance);

/// Folds the whole log into written states, whatever was written before. Gives the number of answers.
std::int64_t rebuild(Db& db, Advance advance);
/// The same inside a transaction of the caller's.
std::int64_t rebuild_within(Db& db, Advance advance);

/// SQLite's own integrity check, our invariants, and the written states against a fold of the log. Writes
/// nothing.
[[nodiscard]] Verification verify(Db& db, Advance advance);

}  // namespace store::sqlite
