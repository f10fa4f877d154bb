#pragma once

#include <string_view>
#include <vector>

#include "base/located_json.hpp"
#include "content/deck.hpp"

namespace content {

inline constexpr std::string_view kReadingsFormat = "greentag-readings/1";

/// Readings over a whole document; every fault is noted through the reader.
[[nodiscard]] std::vector<Reading> read_readings(const base::Reader& document);

}  // namespace content
