#pragma once

#include <string>
#include <vector>

#include "report/style.hpp"

namespace report {

/// One row of a table: a name filled up to its width, and cells as they are. On a page too narrow for it the name, if
/// there is one, stands on a line of its own and the cells below.
void add_row(std::vector<std::string>& lines, const Page& page, const std::string& name, std::size_t width,
             const std::string& cells, Ink ink = Ink::plain);

/// Text with spaces before it, up to a width.
[[nodiscard]] std::string right_set(const std::string& text, std::size_t width);

/// A share in whole hundredths: "62 %".
[[nodiscard]] std::string percent(double share);

}  // namespace report
