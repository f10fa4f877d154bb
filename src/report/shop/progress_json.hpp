#pragma once

#include <nlohmann/json_fwd.hpp>

#include "practice/shop/crew_progress.hpp"
#include "report/shop/progress_page.hpp"

namespace report {

/// A learner's progress as one document: {"ok", "learner", "answers", ..., "topics", "forecast", "history", "weeks",
/// "sure", "times", "corrections"}. Shares run from 0 to 1, days are YYYY-MM-DD.
[[nodiscard]] nlohmann::ordered_json progress_json(const LearnerPage& of);
/// The crew's: {"ok", "needs", "members", "topics"}, members without what only they should see of their history.
[[nodiscard]] nlohmann::ordered_json crew_progress_json(const practice::CrewProgress& crew);

}  // namespace report
