#pragma once

#include <string>
#include <vector>

#include "report/exam/readiness_page.hpp"
#include "report/style.hpp"

namespace report {

/// How ready a learner is: today, on the exam day by minutes a day, the weakest parts, and what is not known.
[[nodiscard]] std::vector<std::string> readiness_text(const ReadinessPage& of, const Page& page);

/// Chance to pass on the exam day by minutes a day, with its interval, as an SVG picture.
[[nodiscard]] std::string readiness_svg(const ReadinessPage& of);

}  // namespace report
