#include "memory/rehearsal/plain_policies.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "memory/model.hpp"

namespace memory::rehearsal {
namespace {

constexpr double kBeforeAll = 1e6;

}  // namespace

void Rotation::score(const Desk& desk, std::span<double> scores) {
    for (std::size_t point = 0; point < scores.size(); ++point) {
        const RecallState& state = desk.states[point];
        scores[point] = state.answers() == 0 ? kBeforeAll : idle_days(state, desk.now);
    }
}

void AtRandom::score(const Desk& desk, std::span<double> scores) {
    base::Random random{base::derive_seed(desk.seed, "lot of day " + std::to_string(desk.day))};
    for (double& score : scores) score = 1 + random.unit();
}

void WeeklyMassed::score(const Desk& desk, std::span<double> scores) {
    const auto families = static_cast<std::size_t>(*std::max_element(desk.families.begin(), desk.families.end())) + 1;
    const std::size_t weeks = (desk.days + 6) / 7;
    const std::size_t week = desk.day / 7;
    const std::size_t first = week * families / weeks;
    const std::size_t last = std::max(first + 1, (week + 1) * families / weeks);
    for (std::size_t point = 0; point < scores.size(); ++point) {
        const RecallState& state = desk.states[point];
        const std::size_t family = desk.families[point];
        if (family >= last) continue;
        const double waited = state.answers() == 0 ? static_cast<double>(desk.days) : idle_days(state, desk.now);
        scores[point] = waited + (family >= first ? kBeforeAll : 0);
    }
}

void OptimalIntensity::score(const Desk& desk, std::span<double> scores) {
    static const Parameters kPriors;
    for (std::size_t point = 0; point < scores.size(); ++point)
        scores[point] =
            std::sqrt(desk.weights[point]) * (1 - recall_probability(desk.states[point], desk.now, kPriors));
}

}  // namespace memory::rehearsal
