#pragma once

#include <string>

#include "practice/shop/crew_progress.hpp"
#include "report/shop/progress_page.hpp"

namespace report {

/// A learner's page as one HTML file: tag, panel directory, open corrections, recall over time by topic, forecast,
/// answers a week, how far sure can be trusted, time to answer, readiness where given. Holds what is told of the
/// learner and nothing of anyone else. No scripts, nothing fetched; every state is told in words.
[[nodiscard]] std::string progress_html(const LearnerPage& of);

/// The lead's page as one HTML file: what needs them today first, then the crew, then topics, weakest first.
[[nodiscard]] std::string crew_progress_html(const practice::CrewProgress& crew);

}  // namespace report
