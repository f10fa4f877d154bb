#pragma once

#include <string>

namespace cli {

/// A name for the store as it was on that day, beside its place: one that is not there yet.
[[nodiscard]] std::string place_aside(const std::string& path, const std::string& day);

}  // namespace cli
