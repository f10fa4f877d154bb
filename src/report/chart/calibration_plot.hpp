#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "report/chart/frame.hpp"

namespace report::chart {

/// Answers whose forecasts were near each other.
struct CalibrationBin {
    double forecast = 0;       ///< their mean, 0..1
    double observed = 0;       ///< share that came true, 0..1
    double low = 0, high = 1;  ///< interval of that share
    std::size_t answers = 0;
};

struct Forecaster {
    std::string name;
    std::vector<CalibrationBin> bins;
};

/// Bins of fewer answers than this are drawn hollow: their share says little.
inline constexpr std::size_t kFewAnswers = 30;

/// Share observed against mean forecast, each bin with its interval, and the line on which both are equal. With one
/// forecaster the number of answers stands beside each bin, as far as there is room.
/// Takes   any number of forecasters and bins, none included. Values outside 0..1 stand at the edge of the plot and are
///         told as they are; bins with values that cannot be drawn are left out.
/// Gives   one SVG document; every bin is also told in words. Several forecasters stand a few pixels beside their
/// place,
///         so that intervals of the same bins do not hide each other.
[[nodiscard]] std::string calibration_plot(const Words& words, const std::vector<Forecaster>& forecasters,
                                           const Size& size = {360, 300});

}  // namespace report::chart
