#pragma once

#include <string>
#include <vector>

#include "cli/context.hpp"
#include "content/outline.hpp"

namespace cli {

/// Every outline of the library, by id. Throws Failure (bad_data) after telling every fault.
[[nodiscard]] std::vector<content::Outline> load_outlines(const Context& context);

/// The outline of that id. Throws Failure (no_input), naming the nearest.
[[nodiscard]] const content::Outline& find_outline(const std::vector<content::Outline>& outlines,
                                                   const std::string& id);

}  // namespace cli
