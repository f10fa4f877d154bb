#pragma once

#include <vector>

#include "practice/shop/week_plan.hpp"

namespace practice {

/// What makes points weigh, averaged over them.
struct WeekCauses {
    double stakes = 0;   ///< stakes_weight
    double weak = 0;     ///< 1 + 2 * weakness
    double outline = 0;  ///< as of WeekPoint
};
[[nodiscard]] WeekCauses week_causes(const std::vector<WeekPoint>& points, const WeekPlanFor& what);

/// Weights of the portions against their mean, as plan_weeks has them.
[[nodiscard]] std::vector<double> week_weights(const std::vector<Portion>& portions, const WeekPlanFor& what);

/// What lifts a portion most above the mean of all points; its turn, when nothing does by more than a twentieth
/// (chosen).
[[nodiscard]] WhyWeek why_week(const WeekCauses& own, const WeekCauses& mean);

}  // namespace practice
