#pragma once

#include <string>

#include "store/log_part.hpp"

namespace store {

/// Reads all of another store's log, crew and changed points; of this schema or an earlier one. That file is only read:
/// it is copied into memory as it stands at one moment, whoever may be writing to it, and an earlier schema is brought
/// up to date in the copy.
/// Throws Failure: no_input (no such file), bad_data (empty, cut short, damaged, no store, another program's database,
/// a newer schema, an answer of nobody in its crew), busy (held by another process too long), cannot_write (a
/// write-ahead log lies in a folder that cannot be written).
[[nodiscard]] LogPart read_other_store(const std::string& path);

}  // namespace store
