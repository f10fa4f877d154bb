#pragma once

#include <chrono>
#include <vector>

#include "base/fault.hpp"
#include "practice/shop/week_plan.hpp"

namespace practice {

/// A week to be planned, and what stands fixed about it. Pointers go into what was asked for.
struct WeekSlot {
    int number = 0;
    std::chrono::sys_days day{};
    const PlannedWeek* before = nullptr;  ///< the same calendar week in the previous plan
    bool passed = false;                  ///< its meeting day is over
    bool near = false;                    ///< among the next kKeptAhead weeks
    const Holiday* holiday = nullptr;     ///< that takes its meeting day
    const WeekPin* pin = nullptr;         ///< the first, when there are several

    /// Taken over from the previous plan as it stands.
    [[nodiscard]] bool kept() const {
        return before != nullptr && (passed || (near && !before->off && holiday == nullptr && pin == nullptr));
    }
};

/// The weeks asked for, in order. A week that has passed keeps the day the previous plan gives it.
[[nodiscard]] std::vector<WeekSlot> week_slots(const WeekPlanFor& what);

/// True when the portion has a point under the reference.
[[nodiscard]] bool stands_under(const Portion& portion, const trade::Article& reference);

/// Everything wrong with what is asked for, as plan_weeks tells it.
[[nodiscard]] base::Faults week_plan_faults(const std::vector<Portion>& portions, const WeekPlanFor& what);

}  // namespace practice
