#include "memory/rehearsal/own_policy.hpp"

namespace memory::rehearsal {
namespace {

// Before anything is seen of the learner's pace: as many seconds an ask, and as
// many days that this belief weighs.
constexpr double kSecondsAnAsk = 30;
constexpr double kBelievedDays = 3;

}  // namespace

double OwnRule::asks_left(const Desk& desk) const {
    const double believed = kBelievedDays * desk.seconds_a_day / kSecondsAnAsk;
    const double a_day = (believed + asks_) / (kBelievedDays + static_cast<double>(desk.day));
    return a_day * static_cast<double>(desk.days - desk.day);
}

void OwnRule::score(const Desk& desk, std::span<double> scores) {
    candidates_.clear();
    for (std::size_t point = 0; point < scores.size(); ++point)
        candidates_.push_back({&desk.states[point], desk.weights[point], desk.families[point]});
    const auto outlook = schedule::look_out(candidates_, desk.now, asks_left(desk));
    for (std::size_t point = 0; point < scores.size(); ++point) scores[point] = worth(candidates_[point], outlook);
}

void OwnRule::answered(std::size_t /*point*/, bool /*recalled*/, bool correction) {
    if (!correction) ++asks_;
}

}  // namespace memory::rehearsal
