#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/chart/frame.hpp"

namespace report::chart {

/// How likely, or how frequent, each of a run of scores is.
struct Scores {
    double first = 0, step = 1;   ///< the score of the first bar, and from bar to bar; step > 0
    std::vector<double> heights;  ///< >= 0; what is not counts as 0
};

/// A distribution of scores. With a pass mark, bars at or above it are filled and those below are empty, and the share
/// of each side is told beside the key.
/// Takes   any number of bars, none included; the pass mark may lie outside the bars.
/// Gives   one SVG document; heights as shares of their sum, so counts and chances look alike.
[[nodiscard]] std::string bar_plot(const Words& words, const Scores& scores, std::optional<double> pass_mark,
                                   const std::string& across_title, const std::string& up_title, const Size& size = {});

}  // namespace report::chart
