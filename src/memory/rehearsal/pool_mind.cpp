#include "memory/rehearsal/pool_mind.hpp"

#include <algorithm>
#include <cmath>

namespace memory::rehearsal {
namespace {

constexpr double kFastestDays = 0.1;
constexpr double kRatio = 6.0;
constexpr double kRecalledStep = 0.22;
constexpr double kFailedStep = 0.15;
// The mean that leaves nothing to add. Below 1, or a day's practice would not be too much for itself.
constexpr double kFull = 1 / 2.2;
constexpr double kThreshold = 0.22;
constexpr double kNoise = 0.05;
// What was learnt in years of work sits in the slow pools; the fast ones are empty long since.
constexpr std::size_t kFirstSlow = 4;

const Pools& days_of_pools() {
    static const Pools kDays = [] {
        Pools days{};
        double at = kFastestDays;
        for (double& one : days) {
            one = at;
            at *= kRatio;
        }
        return days;
    }();
    return kDays;
}

Pools held_before(const Known& known) {
    Pools pools{};
    if (known.held <= 0) return pools;
    const double level = known.well ? 0.6 + 0.4 * known.held : 0.2 + 0.5 * known.held;
    for (std::size_t n = kFirstSlow; n < kPools; ++n) pools[n] = level;
    return pools;
}

}  // namespace

Pools leaked(const Pools& pools, double days) {
    Pools left = pools;
    for (std::size_t n = 0; n < kPools; ++n) left[n] *= std::exp(-days / days_of_pools()[n]);
    return left;
}

Pools refilled(const Pools& pools, bool recalled) {
    Pools next = pools;
    double sum = 0;
    for (std::size_t n = 0; n < kPools; ++n) {
        sum += pools[n];
        const double missing = std::max(0.0, 1 - sum / static_cast<double>(n + 1) / kFull);
        next[n] = std::min(1.0, pools[n] + (recalled ? kRecalledStep : kFailedStep) * missing);
    }
    return next;
}

double strength(const Pools& pools) {
    double sum = 0;
    for (const double pool : pools) sum += pool;
    return sum / static_cast<double>(kPools);
}

PoolMind::PoolMind(const Learner& learner) {
    for (std::size_t point = 0; point < learner.known.size(); ++point)
        held_.push_back({held_before(learner.known[point]), learner.start, learner.ease + learner.point_ease[point]});
}

double PoolMind::chance(std::size_t point, base::Instant at) const {
    const Held& held = held_[point];
    const double now = strength(leaked(held.pools, std::max(0.0, base::days_between(held.at, at))));
    return 1 / (1 + std::exp((kThreshold - now) / kNoise - held.ease));
}

void PoolMind::answered(std::size_t point, base::Instant at, bool recalled) {
    Held& held = held_[point];
    held.pools = refilled(leaked(held.pools, std::max(0.0, base::days_between(held.at, at))), recalled);
    held.at = at;
}

}  // namespace memory::rehearsal
