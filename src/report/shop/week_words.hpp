#pragma once

#include <chrono>
#include <string>

#include "practice/shop/week_plan.hpp"

namespace report {

/// Why an article has its week, in words: "the crew is weak on it"; "the lead pinned 250; again".
[[nodiscard]] std::string why_words(const practice::PlannedWeek& week);

/// "Mon 2026-03-02".
[[nodiscard]] std::string day_words(std::chrono::sys_days day);

}  // namespace report
