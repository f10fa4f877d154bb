#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/fault.hpp"

namespace base {

/// One record of a CSV text.
struct CsvRow {
    int line = 0;  ///< on which it begins, counted from 1
    std::vector<std::string> cells;
};

/// Reads CSV as RFC 4180 has it: cells in quotes may hold commas, line ends and doubled quotes. Line ends may be CRLF
/// or LF, a byte-order mark and empty lines are passed over. Errors   a quote that is never closed, or that stands
/// inside a cell without being one; each with its line.
[[nodiscard]] Checked<std::vector<CsvRow>> parse_csv(std::string_view text, const std::string& file);

/// A cell as CSV, in quotes where it has to be. A text that a spreadsheet would take for a formula gets an apostrophe
/// in front; a number, also a negative one, does not.
[[nodiscard]] std::string csv_cell(std::string_view text);

/// Cells as one line that ends in CRLF.
[[nodiscard]] std::string csv_line(const std::vector<std::string>& cells);

}  // namespace base
