#pragma once

#include <algorithm>
#include <cmath>

#include "base/instant.hpp"
#include "base/random.hpp"
#include "memory/model.hpp"

/// Random but reachable states for the property tests: each is the fold of a random history of answers.
namespace histories {

inline constexpr int kRuns = 4000;
inline const base::Instant kStart = base::from_milliseconds(1'767'225'600'000);  // 2026-01-01, any date does

inline double between(base::Random& random, double low, double high) {
    return low + (high - low) * random.unit();
}

/// Days, evenly spread in the logarithm, so that minutes and years are equally likely.
inline double any_delay(base::Random& random) {
    return std::exp(between(random, std::log(1e-3), std::log(3000.0)));
}

inline double any_mark(base::Random& random) {
    return random.below(2) == 0 ? 1.0 : random.unit();
}

inline memory::RecallState one_more(const memory::RecallState& state, base::Random& random) {
    const base::Instant from = state.answers() == 0 ? kStart : state.last;
    const double lag = random.below(20) == 0 ? -any_delay(random) : any_delay(random);
    return memory::advance(state, base::after_days(from, lag), any_mark(random), memory::Sure::fairly);
}

/// At least one answer, at most twelve; one lag in twenty runs backwards.
inline memory::RecallState any_state(base::Random& random) {
    memory::RecallState state;
    for (auto left = 1 + random.below(12); left > 0; --left) state = one_more(state, random);
    return state;
}

/// Two prior standard deviations either way, the gains kept >= 0.
inline memory::Parameters any_parameters(base::Random& random) {
    const auto around = [&](double mean, double sd) { return between(random, mean - 2 * sd, mean + 2 * sd); };
    const memory::Parameters prior;
    memory::Parameters p;
    p.base = around(prior.base, 1);
    p.asked_gain = std::max(0.0, around(prior.asked_gain, .3));
    p.recalled_gain = std::max(0.0, around(prior.recalled_gain, .3));
    p.last_recalled = around(prior.last_recalled, .05);
    p.fresh = around(prior.fresh, .6);
    p.log_decay = around(prior.log_decay, .4);
    p.unseen = around(prior.unseen, 1);
    p.learner_ease = around(0, .8);
    p.point_ease = around(0, .9);
    p.learner_forgets = around(0, .3);
    return p;
}

}  // namespace histories
