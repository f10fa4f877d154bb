#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/chart/frame.hpp"

namespace report::chart {

/// One named estimate with its interval.
struct IntervalRow {
    std::string name;
    double at = 0, low = 0, high = 0;  ///< low <= at <= high
    std::string state;                 ///< in words, after the name: "below the pass mark"; may be empty
    std::size_t look = 0;              ///< rows of the same look share a marker; below kLooks
};

/// A value that rows are held against.
struct Reference {
    double at = 0;
    std::string name;  ///< "pass mark"; its value is added
};

/// Rows below each other, the name above its interval so that long names fit a phone, the figures at the right.
/// Takes   any number of rows, none included; those with a value that cannot be drawn are named and told as "not
/// known". Gives   one SVG document; the axis holds every interval and the reference, out to round numbers.
[[nodiscard]] std::string interval_plot(const Words& words, const std::vector<IntervalRow>& rows,
                                        const std::string& axis_title, Unit unit = Unit::plain,
                                        const std::optional<Reference>& reference = std::nullopt,
                                        const Size& size = {});

}  // namespace report::chart
