#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "trade/work/calculator.hpp"

namespace trade {

/// Household cooking appliances or clothes dryers on one single-phase service, feeder or branch circuit.
struct RangeFacts {
    std::string_view kind;         ///< range (also when empty) or dryer
    std::vector<double> kw;        ///< nameplate of each; cooking appliances over 1.75 kW, at most 27 kW
    std::string_view column;       ///< c, ab; empty: whichever gives less
    std::optional<double> volts;   ///< V, for the current
    bool branch = false;           ///< a branch circuit rather than a feeder or service
    std::optional<bool> built_in;  ///< branch circuit for one: a wall oven or cooktop rather than a range
};

/// Demand of household ranges, ovens and cooktops, or of dryers.
/// Gives   kW; also `va`, `amps` (with volts), `by_c` and `by_ab` (kW by either way), `column_c` (kW of the table
/// before
///         the notes), `average` (kW, ratings under 12 counted as 12), `over` (steps over 12 kW), `percent` (of columns
///         A and B, or of the dryers), and for a branch circuit with volts `branch_rating` (A).
/// Errors  lacks `kw`, `built_in`; refused with a finding: a demand that the table does not reach.
/// Source  table "range-demand", its notes as told in ECmag's series on cooking equipment and by a trade forum: 5 %
/// more
///         of column C for each kW, or 0.5 kW and more of one, that the rating or average is over 12; columns A (under
///         3.5 kW) and B (3.5 to 8.75 kW) by percent, each by its own count. On one branch circuit a range by the
///         table, one oven or cooktop by its nameplate, a cooktop with at most two ovens as one range of the sum (a
///         secondary page on Note 4). Dryers: the larger of 5000 VA and the nameplate (residential code), percents
///         recalled. Recalled: 40 A least for a branch circuit of a range of 8.75 kW or more. Practice: where ratings
///         to 8.75 kW stand beside ones over 12, only those over 8.75 make the average, which never asks for less.
[[nodiscard]] Finding range_load(const RangeFacts& facts, const Setting& setting);

/// The demand of cooking appliances in kW alone, the smaller of both ways; 0 for none, nothing where the table ends.
[[nodiscard]] std::optional<double> range_demand(const std::vector<double>& kw, const Tables& tables);
/// Why range_demand gave nothing for ratings; `by_ab` where columns A and B were wanted.
[[nodiscard]] std::string why_no_range_demand(const std::vector<double>& kw, bool by_ab, const Tables& tables);
/// Demand of dryers in VA: at least 5000 VA each; 0 for none, nothing where the table ends.
[[nodiscard]] std::optional<double> dryer_demand(const std::vector<double>& kw, const Tables& tables);

[[nodiscard]] Calculator range_load_calculator();

}  // namespace trade
