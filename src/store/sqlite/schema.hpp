#pragma once

#include "store/sqlite/db.hpp"

namespace store::sqlite {

/// "GTAG" in the file's header says whose file it is.
inline constexpr std::int64_t kApplicationId = 0x47544147;

/// The schema this version writes; every earlier one is brought up to it when a store is opened for writing.
[[nodiscard]] int newest_schema();

/// The statements that lead from schema `from` to `from + 1`.
[[nodiscard]] const char* migration(int from);

/// Makes a new file ours, or brings an earlier schema up to the newest, in one transaction.
/// Throws Failure (bad_data) for another program's database and for a newer schema; nothing is changed then.
void bring_up_to_date(Db& db, bool writes);

}  // namespace store::sqlite
