#pragma once

#include <string_view>
#include <vector>

#include "base/located_json.hpp"
#include "content/figure.hpp"

namespace content {

inline constexpr std::string_view kFiguresFormat = "greentag-figures/1";

/// Figures over a whole document; every fault is noted through the reader.
[[nodiscard]] std::vector<Figure> read_figures(const base::Reader& document);

}  // namespace content
