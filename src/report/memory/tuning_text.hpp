#pragma once

#include <string>
#include <vector>

#include "practice/tune.hpp"
#include "report/style.hpp"

namespace report {

/// What a fit was made of, how well it foresaw held-back answers beside the simpler ways, and what it came to.
/// Takes `keeps`: false when the run was only a look.
[[nodiscard]] std::vector<std::string> tuning_text(const practice::CrewLog& log, const practice::Tuning& tuning,
                                                   bool keeps, const Page& page);

/// The same in one line, for the end of a session.
[[nodiscard]] std::string tuning_line(const practice::CrewLog& log, const practice::Tuning& tuning);

/// Share right against chance foretold, on held-back answers, as an SVG picture.
[[nodiscard]] std::string calibration_svg(const memory::Assessment& assessment);

}  // namespace report
