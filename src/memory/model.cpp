#include "memory/model.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace memory {
namespace {

constexpr double kUnitsPerDay = 86'400.0 / 60.0;
// One rate for every delay. The fit to the practice log ran time within a sitting forty times faster, but here no point
// comes back within four hours except as its own correction, and a jump of the curve at some "session" boundary would
// let recall rise with time.
constexpr double kRate = 0.025 * kUnitsPerDay;

/// 1 / (1 + e^-x) by the sign of x, so that neither tail overflows.
double logistic(double x) {
    if (x >= 0) return 1 / (1 + std::exp(-x));
    const double odds = std::exp(x);
    return odds / (1 + odds);
}

double logit(double p) {
    return std::log(p) - std::log1p(-p);
}

[[maybe_unused]] bool valid(const RecallState& state) {
    return state.spacing_recalled >= 0 && state.spacing_failed >= 0 && std::isfinite(state.spacing_recalled) &&
           std::isfinite(state.spacing_failed);
}

[[maybe_unused]] bool valid(const Parameters& p) {
    const bool finite = std::isfinite(p.base + p.log_decay + p.unseen + p.learner_ease + p.point_ease) &&
                        std::isfinite(p.learner_forgets + p.recalled_gain + p.failed_gain) &&
                        std::isfinite(p.recalled_slows + p.failed_slows);
    return finite && p.recalled_gain >= 0 && p.failed_gain >= 0 && p.recalled_slows >= 0 && p.failed_slows >= 0;
}

double unseen_activation(const Parameters& params) {
    return params.unseen + params.learner_ease + params.point_ease;
}

double lag_days(const RecallState& state, base::Instant at) {
    if (state.answers() == 0) return 0;
    return std::max(0.0, base::days_between(state.last, at));
}

}  // namespace

double log_delay(double days) {
    assert(days >= 0);
    return std::log1p(kRate * days);
}

double base_activation(const RecallState& state, const Parameters& params) {
    assert(valid(params));
    return params.base + params.learner_ease + params.point_ease +
           params.recalled_gain * std::log1p(static_cast<double>(state.recalled)) +
           params.failed_gain * std::log1p(static_cast<double>(state.failed));
}

double decay(const RecallState& state, const Parameters& params) {
    assert(valid(state) && valid(params));
    const double log = params.log_decay + params.learner_forgets -
                       params.recalled_slows * std::log1p(state.spacing_recalled) -
                       params.failed_slows * std::log1p(state.spacing_failed);
    // A decay of zero or infinity would meet an infinite or a zero delay and make not-a-number.
    return std::exp(std::clamp(log, -700.0, 700.0));
}

double recall_after(const RecallState& state, double days, const Parameters& params) {
    if (state.answers() == 0) return logistic(unseen_activation(params));
    return logistic(base_activation(state, params) - decay(state, params) * log_delay(days));
}

double recall_probability(const RecallState& state, base::Instant when, const Parameters& params) {
    return recall_after(state, lag_days(state, when), params);
}

double days_to(double target, const RecallState& state, const Parameters& params) {
    assert(target > 0 && target < 1);
    const bool never_met = state.answers() == 0;
    const double above = (never_met ? unseen_activation(params) : base_activation(state, params)) - logit(target);
    if (above <= 0) return 0;
    if (never_met) return std::numeric_limits<double>::infinity();
    return std::expm1(above / decay(state, params)) / kRate;
}

double half_life_days(const RecallState& state, const Parameters& params) {
    return days_to(0.5, state, params);
}

namespace {

// A correction within the same sitting shows that the words were read, not that the belief has gone.
constexpr double kLaterDay = 11.0 / 24.0;
constexpr std::uint8_t kWatchStart = 2;

std::uint8_t watch_after(const RecallState& before, double lag, bool recalled, Sure sure) {
    if (!recalled) return sure == Sure::sure ? kWatchStart : before.watch;
    const bool later_day = before.watch > 0 && lag >= kLaterDay;
    return static_cast<std::uint8_t>(before.watch - (later_day ? 1 : 0));
}

}  // namespace

RecallState advance(RecallState state, base::Instant at, double mark, Sure sure) {
    assert(mark >= 0 && mark <= 1);
    const bool recalled = mark >= kRecalledFrom;
    (recalled ? state.spacing_recalled : state.spacing_failed) += std::log1p(lag_days(state, at));
    state.watch = watch_after(state, lag_days(state, at), recalled, sure);
    ++(recalled ? state.recalled : state.failed);
    state.last = at;
    state.last_mark = mark;
    state.last_sure = sure;
    return state;
}

}  // namespace memory
