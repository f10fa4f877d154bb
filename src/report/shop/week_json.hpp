#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "base/fault.hpp"
#include "practice/shop/week_plan.hpp"
#include "practice/shop/week_talk.hpp"

namespace report {

/// A plan as docs/formats/week-plan.md has it. It holds all of the plan, so that it can be the previous one of the
/// next.
[[nodiscard]] nlohmann::ordered_json week_plan_json(const practice::WeekPlan& plan);
[[nodiscard]] nlohmann::ordered_json week_json(const practice::PlannedWeek& week);
[[nodiscard]] nlohmann::ordered_json week_talk_json(const practice::WeekTalk& talk);

/// Reads back what week_plan_json wrote.
/// Takes   the text of a file; its name, for faults.
/// Errors  everything that is not as the format has it, each with its place.
[[nodiscard]] base::Checked<practice::WeekPlan> read_week_plan(std::string_view text, const std::string& file);

}  // namespace report
