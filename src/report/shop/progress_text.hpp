#pragma once

#include <string>
#include <vector>

#include "practice/shop/crew_progress.hpp"
#include "report/shop/progress_page.hpp"
#include "report/style.hpp"

namespace report {

/// A learner's progress: tag, panel directory, open corrections, forecast, recall over time, answers by week, how far
/// sure can be trusted, time to answer. At most ten corrections and eight weeks and samples are listed, and it says how
/// many more there are.
[[nodiscard]] std::vector<std::string> progress_text(const LearnerPage& of, const Page& page);

/// The lead's page: what needs them today first, then the crew, one row a learner, then the weakest topics.
[[nodiscard]] std::vector<std::string> crew_progress_text(const practice::CrewProgress& crew, const Page& page);

}  // namespace report
