#include "memory/rehearsal/due_policies.hpp"

#include <algorithm>
#include <array>

#include "memory/due.hpp"

namespace memory::rehearsal {
namespace {

constexpr std::array<double, 6> kIntervals = {1, 3, 7, 14, 30, 60};
constexpr double kDueFirst = 1e6;
constexpr double kNew = 1;
// A day's sitting may begin some minutes earlier in its course than the answer that was given the day before.
constexpr double kSameTimeOfDay = 0.5;
constexpr double kTarget = 0.9;

double due_or_new(const RecallState& state, double overdue) {
    if (state.answers() == 0) return kNew;
    return overdue >= 0 ? kDueFirst + overdue : 0;
}

}  // namespace

void ExpandingIntervals::score(const Desk& desk, std::span<double> scores) {
    streak_.resize(scores.size());
    for (std::size_t point = 0; point < scores.size(); ++point) {
        const RecallState& state = desk.states[point];
        const std::size_t step = std::min(std::max<std::size_t>(streak_[point], 1), kIntervals.size()) - 1;
        scores[point] = due_or_new(state, idle_days(state, desk.now) + kSameTimeOfDay - kIntervals[step]);
    }
}

void ExpandingIntervals::answered(const Told& told) {
    if (!told.correction) streak_[told.point] = told.recalled ? streak_[told.point] + 1 : 0;
}

void MostOverdue::score(const Desk& desk, std::span<double> scores) {
    static const Parameters kPriors;
    due_.resize(scores.size());
    for (std::size_t point = 0; point < scores.size(); ++point) {
        const RecallState& state = desk.states[point];
        Due& due = due_[point];
        if (!due.known && state.answers() > 0) due = {due_at(state, kTarget, kPriors), true};
        scores[point] = due_or_new(state, base::days_between(due.at, desk.now));
    }
}

void MostOverdue::answered(const Told& told) {
    due_[told.point].known = false;
}

}  // namespace memory::rehearsal
