#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "trade/work/calculator.hpp"

namespace trade {

/// What runs in a raceway. Empty: not said.
struct RacewayFillFacts {
    std::string_view raceway;                     ///< emt, imc, rmc, fmc, ent, pvc40, pvc80
    std::string_view insulation;                  ///< of conductors: thhn, thwn, thwn-2, thw, thw-2, xhhw, xhhw-2
    std::optional<std::vector<Item>> conductors;  ///< every wire, equipment grounds among them
    std::string_view insulation_2;                ///< of further conductors
    std::vector<Item> conductors_2;
    std::optional<double> cable_width;  ///< in, the wider side of a cable; it counts as one round wire
    double cables = 1.0;                ///< how many of that cable
    bool nipple = false;                ///< 24 in or shorter between boxes
    std::string_view trade_size;        ///< "3/4", to check; empty: the least is asked for alone
};

/// The least raceway that holds wires, and how full one is.
/// Gives   the trade size as words; also `area` in2, `wires`, and of the trade size told, or of the least: `percent`
///         used, `allowed_percent`, `allowed` in2, `raceway_area`, `fits`, and for wires of one kind `most`.
///         53 % for one wire, 31 % for two, 40 % for more, 60 % in a nipple. Wires that are all alike may be one more
///         where the count that fits comes out at 0.8 or more over a whole number.
/// Errors  unknown: what is missing; a size without an area; wires that no listed trade size holds.
/// Source  conductor-area and raceway-area tables; Chapter 9, Table 1 and its notes as the trade tells them (worked
///         examples and counts in tests/reference/worked_raceway_fill.json). Percentages are taken of the whole area;
///         printed tables round what is allowed to a thousandth of a square inch.
[[nodiscard]] Finding raceway_fill(const RacewayFillFacts& facts, const Setting& setting);

[[nodiscard]] Calculator raceway_fill_calculator();

}  // namespace trade
