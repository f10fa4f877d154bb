#include "memory/model.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>

#include "memory/logistic.hpp"

namespace memory {
namespace {

constexpr double kMinute = 1.0 / 1440.0;  // in days
constexpr double kPowerFrom = 0.31;       // days; from here on the odds fall as a power of time

// Days, and what is lost on each scale by a point whose lags have spanned none of it, in units of wear. Set together
// with the prior so that the published findings on spacing come out.
constexpr std::array<double, kScales> kScale{{1.0, 4.0, 16.0, 80.0}};
constexpr std::array<double, kScales> kLoss{{1.67, 1.51, 0.92, 0.25}};
constexpr double kShield = 6.8;
constexpr float kFailedSpans = 0.9F;

[[maybe_unused]] bool valid(const RecallState& state) {
    return std::all_of(state.spanned.begin(), state.spanned.end(), [](float n) { return n >= 0 && std::isfinite(n); });
}

[[maybe_unused]] bool valid(const Parameters& p) {
    const bool finite = std::isfinite(p.base + p.log_decay + p.unseen + p.learner_ease + p.point_ease) &&
                        std::isfinite(p.learner_forgets + p.asked_gain + p.recalled_gain + p.last_recalled + p.fresh);
    return finite && p.asked_gain >= 0 && p.recalled_gain >= 0 && p.last_recalled >= 0 && p.fresh >= 0;
}

double unseen_activation(const Parameters& params) {
    return params.unseen + params.learner_ease + params.point_ease;
}

double lag_days(const RecallState& state, base::Instant at) {
    if (state.answers() == 0) return 0;
    return std::max(0.0, base::days_between(state.last, at));
}

}  // namespace

double freshness(double days) {
    assert(days >= 0);
    return 1 / std::sqrt(1 + days / (2 * kMinute));
}

double wear(const RecallState& state, double days) {
    assert(days >= 0 && valid(state));
    double sum = std::log1p(days / kPowerFrom);
    for (std::size_t j = 0; j < kScales; ++j)
        sum -= kLoss[j] / (1 + kShield * static_cast<double>(state.spanned[j])) * std::expm1(-days / kScale[j]);
    return sum;
}

double base_activation(const RecallState& state, const Parameters& params) {
    assert(valid(params));
    const bool recalled = state.answers() > 0 && state.last_mark >= kRecalledFrom;
    return params.base + params.learner_ease + params.point_ease +
           params.asked_gain * std::log1p(static_cast<double>(state.answers())) +
           params.recalled_gain * std::log1p(static_cast<double>(state.recalled)) +
           (recalled ? params.last_recalled : 0);
}

double decay(const Parameters& params) {
    assert(valid(params));
    // A decay of zero or infinity would meet an infinite or a zero wear and make not-a-number.
    return std::exp(std::clamp(params.log_decay + params.learner_forgets, -700.0, 700.0));
}

double log_odds_after(const RecallState& state, double days, const Parameters& params) {
    return base_activation(state, params) + params.fresh * freshness(days) - decay(params) * wear(state, days);
}

double recall_after(const RecallState& state, double days, const Parameters& params) {
    if (state.answers() == 0) return logistic(unseen_activation(params));
    return logistic(log_odds_after(state, days, params));
}

double recall_probability(const RecallState& state, base::Instant when, const Parameters& params) {
    return recall_after(state, lag_days(state, when), params);
}

double days_to(double target, const RecallState& state, const Parameters& params) {
    assert(target > 0 && target < 1);
    const double wanted = logit(target);
    if (state.answers() == 0) return unseen_activation(params) <= wanted ? 0 : std::numeric_limits<double>::infinity();
    if (log_odds_after(state, 0, params) <= wanted) return 0;
    const auto days_at = [](double log) { return kMinute * std::expm1(log); };
    double low = 0;
    double high = 700;  // 1e301 days
    if (log_odds_after(state, days_at(high), params) > wanted) return std::numeric_limits<double>::infinity();
    for (double middle = high / 2; middle > low && middle < high; middle = low + (high - low) / 2)
        (log_odds_after(state, days_at(middle), params) > wanted ? low : high) = middle;
    return days_at(high);
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
    const double lag = lag_days(state, at);
    for (std::size_t j = 0; j < kScales; ++j)
        state.spanned[j] += (recalled ? 1.0F : kFailedSpans) * static_cast<float>(-std::expm1(-lag / kScale[j]));
    state.watch = watch_after(state, lag, recalled, sure);
    ++(recalled ? state.recalled : state.failed);
    state.last = at;
    state.last_mark = mark;
    state.last_sure = sure;
    return state;
}

}  // namespace memory
