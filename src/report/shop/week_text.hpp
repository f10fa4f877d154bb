#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "practice/shop/week_plan.hpp"
#include "practice/shop/week_talk.hpp"
#include "report/style.hpp"

namespace report {

/// The plan of the year, a row a week: number, day, article, why, points. Weeks before today are told as passed, the
/// next meeting is marked and named. What has no week is told at the end.
[[nodiscard]] std::vector<std::string> week_plan_text(const practice::WeekPlan& plan, std::chrono::sys_days today,
                                                      const Page& page);

/// One week with its points, the talk, and the week after it if there is one (null: none).
[[nodiscard]] std::vector<std::string> week_text(const practice::PlannedWeek& week, const practice::WeekTalk& talk,
                                                 const practice::PlannedWeek* next, const Page& page);

}  // namespace report
