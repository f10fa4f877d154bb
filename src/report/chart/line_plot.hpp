#pragma once

#include <string>
#include <vector>

#include "report/chart/frame.hpp"

namespace report::chart {

/// A point of a series, with its band when low < high.
struct LinePoint {
    double x = 0, y = 0;
    double low = 0, high = 0;
};

struct LineSeries {
    std::string name;
    std::vector<LinePoint> points;  ///< in any order
};

/// Axes of a line plot: what they are called and in what unit; `low` and `high` are the least that has to be seen, and
/// grow to hold the points. With low == high the points alone count.
struct LineAxes {
    Axis across, up;
};

/// Several series over one axis. Each has its own dash and marker, and a letter at its end that the key explains.
/// Takes   any number of series and points, none included; points that cannot be drawn are left out. A single point is
///         a marker without a line.
/// Gives   one SVG document; of each series the first and the last point, the least and the greatest are told in words.
[[nodiscard]] std::string line_plot(const Words& words, const std::vector<LineSeries>& series, const LineAxes& axes,
                                    const Size& size = {});

}  // namespace report::chart
