#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "practice/shop/meeting.hpp"

namespace report {

/// Where an ask stands on paper.
struct PlacedAsk {
    std::size_t ask = 0;
    bool two_columns = false;  ///< its options are short enough to stand two in a line
};

/// What stands on each side of a sheet's paper, the same for every sheet of a meeting. More than one side makes an even
/// number of them, the last one empty if need be, so that printing on both sides never puts two learners on one paper.
/// Worked out for type of 12 points in a wide sans-serif, on the narrower (A4) and the shorter (letter) of both papers
/// at margins of 10 mm: other type takes less and leaves white at the foot.
[[nodiscard]] std::vector<std::vector<PlacedAsk>> sides_of(const practice::Meeting& meeting);

/// Width in points of a line of 12-point type; letters by classes of the advance widths of DejaVu Sans, rounded up.
[[nodiscard]] double type_width(std::string_view text);

/// The ask as printed: its text and, where the form asks for more than one box, what to do.
[[nodiscard]] std::string printed_text(const content::Ask& ask);

}  // namespace report
