#pragma once

#include <string>
#include <vector>

#include "base/fault.hpp"
#include "content/deck.hpp"

namespace content {

/// Readings that are kept in a file; none when there is no such file.
/// Errors: a file that cannot be read, or is no file of readings.
[[nodiscard]] base::Checked<std::vector<Reading>> load_readings(const std::string& path);

/// Readings as such a file has them, a line for each.
[[nodiscard]] std::string readings_text(const std::vector<Reading>& readings, const std::string& reader);

}  // namespace content
