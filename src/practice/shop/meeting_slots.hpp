#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

namespace practice {

/// What was entered for one ask, before it is held against the ask.
struct Slot {
    std::string text;      ///< letters, or what stood in brackets; empty: none
    bool grouped = false;  ///< stood in brackets
    bool sure = false;     ///< ended in '+'
};

struct SheetLine {
    std::string sheet;  ///< digits
    std::vector<Slot> slots;
};

struct LineFault {
    std::string what, mend;
};

/// Reads "12 bacd-e[ac][18 in]b+"; see enter_lines for what may stand there. The line is not empty.
[[nodiscard]] tl::expected<SheetLine, LineFault> read_line(std::string_view line);

/// Reads a cell that holds one answer: "b", "ac", "b+", "[18 in]", "18", "-", "". An apostrophe in front, which a
/// spreadsheet puts before a text that looks like a formula, is passed over. `number`: the ask wants a number, so that
/// brackets count as there.
[[nodiscard]] Slot slot_in_cell(std::string_view cell, bool number);

}  // namespace practice
