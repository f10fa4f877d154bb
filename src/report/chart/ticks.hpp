#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace report::chart {

/// Where an axis is marked: round numbers at even steps of 1, 2 or 5 times a power of ten.
struct Ticks {
    double low = 0, high = 1;  ///< ends of the axis, low < high
    std::vector<double> at;    ///< rising, within the ends
    int places = 0;            ///< decimals that tell neighbours apart
};

/// Takes   the ends in any order; most, the most steps wanted over that width, at least 3. `outward`: the ends move out
///         to the next tick. `whole`: at whole numbers alone, as far as there is one between the ends.
/// Gives   at least one tick and at most `most` + 1, outward + 2. Ends that cannot be drawn become 0 and 1; equal ends
/// are parted, by
///         half a unit or a tenth of their size.
[[nodiscard]] Ticks round_ticks(double low, double high, std::size_t most, bool outward, bool whole = false);

/// Ends of values as they come in.
class Range {
public:
    /// Values that cannot be drawn are left out.
    void add(double value);
    [[nodiscard]] bool empty() const { return empty_; }
    [[nodiscard]] double low() const { return low_; }    ///< 0 when empty
    [[nodiscard]] double high() const { return high_; }  ///< 1 when empty

private:
    bool empty_ = true;
    double low_ = 0, high_ = 1;
};

}  // namespace report::chart
