#pragma once

#include <nlohmann/json_fwd.hpp>

#include "report/exam/readiness_page.hpp"

namespace report {

/// {"ok", "learner", "outline", "edition", "exam", "days", "answers", "too_little", "pace", "questions",
/// "not_covered", "pass_right", "today", "plans", "parts"}; shares and chances are numbers from 0 to 1, with their 5
/// and 95 % quantiles as "low" and "high", and the score distribution by number right.
[[nodiscard]] nlohmann::ordered_json readiness_json(const ReadinessPage& of);

}  // namespace report
