#pragma once

#include <string>
#include <vector>

#include "cli/context.hpp"
#include "content/outline.hpp"
#include "trade/edition.hpp"

namespace cli {

/// Every outline of the library, by id. Throws Failure (bad_data) after telling every fault.
[[nodiscard]] std::vector<content::Outline> load_outlines(const Context& context);

/// The outline of that id. Throws Failure (no_input), naming the nearest.
[[nodiscard]] const content::Outline& find_outline(const std::vector<content::Outline>& outlines,
                                                   const std::string& id);

/// --edition, else that of the learner meant, else 2023.
[[nodiscard]] trade::Edition exam_edition(const Context& context);

}  // namespace cli
