#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "practice/coverage.hpp"

namespace report {

/// The map as a page in Markdown: by topic, by article, and by section of each exam outline with its holes.
[[nodiscard]] std::string coverage_page(const practice::Coverage& coverage);

/// {"ok", "topics", "articles", "sections"}, the same as numbers.
[[nodiscard]] nlohmann::ordered_json coverage_json(const practice::Coverage& coverage);

}  // namespace report
