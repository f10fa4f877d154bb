#include "practice/shop/week_weights.hpp"

#include <algorithm>
#include <array>
#include <numeric>

#include "practice/stakes_weight.hpp"

namespace practice {
namespace {

constexpr double kWeakWeighs = 2.0;
constexpr double kUnknownWeakness = 0.5;
constexpr double kBySeed = 0.02;
// A meeting asks 8 to 12 questions: more points than that bring a portion no further forward.
constexpr double kCountInWeek = 8.0;
// Averages of a portion within this factor of the mean are no reason.
constexpr double kStandsOut = 1.05;

double weak_factor(const WeekPoint& point, const WeekPlanFor& what) {
    const auto found = what.weakness.find(point.id);
    return 1 + kWeakWeighs * (found == what.weakness.end() ? kUnknownWeakness : found->second);
}

}  // namespace

WeekCauses week_causes(const std::vector<WeekPoint>& points, const WeekPlanFor& what) {
    WeekCauses sum;
    for (const auto& point : points) {
        sum.stakes += stakes_weight(point.stakes);
        sum.weak += weak_factor(point, what);
        sum.outline += point.outline;
    }
    const auto count = static_cast<double>(points.size());
    return {sum.stakes / count, sum.weak / count, sum.outline / count};
}

std::vector<double> week_weights(const std::vector<Portion>& portions, const WeekPlanFor& what) {
    std::vector<double> weights;
    for (const auto& portion : portions) {
        double weight = 0;
        for (const auto& point : portion.points)
            weight += stakes_weight(point.stakes) * point.outline * weak_factor(point, what);
        base::Random random{base::derive_seed(what.seed, portion.title)};
        const auto count = static_cast<double>(portion.points.size());
        weights.push_back(weight / count * std::min(count, kCountInWeek) * (1 + kBySeed * random.unit()));
    }
    const double mean = std::accumulate(weights.begin(), weights.end(), 0.0) / static_cast<double>(weights.size());
    for (auto& weight : weights) weight /= mean;
    return weights;
}

WhyWeek why_week(const WeekCauses& own, const WeekCauses& mean) {
    const std::array ratios = {own.weak / mean.weak, own.stakes / mean.stakes, own.outline / mean.outline};
    const auto most = std::max_element(ratios.begin(), ratios.end());
    if (*most < kStandsOut) return WhyWeek::turn;
    constexpr std::array kReasons = {WhyWeek::weak, WhyWeek::stakes, WhyWeek::outline};
    return kReasons.at(static_cast<std::size_t>(most - ratios.begin()));
}

}  // namespace practice
