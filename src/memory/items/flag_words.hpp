#pragma once

#include <string>

#include "memory/items/flags.hpp"

namespace memory {

/// The flag as a sentence with its figures, options by letter from a; no item is named.
[[nodiscard]] std::string in_words(const Flagged& flagged);

}  // namespace memory
