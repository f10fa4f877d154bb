#pragma once

#include <cmath>
#include <vector>

#include "base/instant.hpp"
#include "memory/model.hpp"

/// Expected outcomes of a schedule under the model: every answer branches into recalled and failed, each weighted by
/// its own predicted chance.
namespace schedule {

struct Branch {
    double weight;
    memory::RecallState state;
};

using Branches = std::vector<Branch>;

/// Recall `days` after the last answer, or after being told when nothing was answered: recall_after knows no such
/// point, for the program tells nothing without asking.
inline double recall(const memory::RecallState& state, double days, const memory::Parameters& p) {
    return 1 / (1 + std::exp(-memory::log_odds_after(state, days, p)));
}

inline double expected(const Branches& branches, double days, const memory::Parameters& p) {
    double sum = 0;
    for (const Branch& b : branches) sum += b.weight * recall(b.state, days, p);
    return sum;
}

/// The first sitting tells the point and asks nothing, yet the lag after it must count: one told is given an answer
/// that is then taken out of the counts.
inline memory::RecallState after_answer(const memory::RecallState& s, double lag, bool recalled) {
    const double mark = recalled ? 1.0 : 0.0;
    if (s.answers() > 0) return memory::advance(s, base::after_days(s.last, lag), mark, memory::Sure::fairly);
    memory::RecallState met = memory::advance(s, base::Instant{}, 0.0, memory::Sure::fairly);
    met = memory::advance(met, base::after_days(met.last, lag), mark, memory::Sure::fairly);
    --met.failed;
    return met;
}

inline Branches asked(const Branches& branches, double lag, const memory::Parameters& p) {
    Branches next;
    for (const Branch& b : branches) {
        const double chance = recall(b.state, lag, p);
        next.push_back({b.weight * chance, after_answer(b.state, lag, true)});
        next.push_back({b.weight * (1 - chance), after_answer(b.state, lag, false)});
    }
    return next;
}

struct Outcome {
    double training;  ///< mean recall over the asks
    double final;     ///< recall at the end
};

/// Asks after each gap, then tests `delay` days after the last ask.
inline Outcome outcome(Branches branches, const std::vector<double>& gaps, double delay, const memory::Parameters& p) {
    double sum = 0;
    for (const double gap : gaps) {
        sum += expected(branches, gap, p);
        branches = asked(branches, gap, p);
    }
    return {sum / static_cast<double>(gaps.size()), expected(branches, delay, p)};
}

/// Told once, nothing asked: the first sitting of most laboratory studies.
inline Branches told() {
    return {{1.0, memory::RecallState{}}};
}

/// Asked once, cold: the first sitting of this program.
inline Branches asked_cold(const memory::Parameters& p) {
    const double chance = memory::recall_after(memory::RecallState{}, 0, p);
    return {{chance, after_answer({}, 0, true)}, {1 - chance, after_answer({}, 0, false)}};
}

/// Brought to `times` successes in the first sitting, no failure counted.
inline Branches recalled(int times) {
    memory::RecallState state;
    for (int i = 0; i < times; ++i) state = after_answer(state, 0, true);
    return {{1.0, state}};
}

struct BestGap {
    double days;
    double gain;  ///< over no gap, as a share of the recall without a gap
};

/// The gap between two sittings that makes recall `delay` days after the second best; searched in steps of one per
/// cent from a thousandth of a day to a thousand days.
inline BestGap best_gap(const Branches& first, double delay, const memory::Parameters& p) {
    const double massed = outcome(first, {0.0}, delay, p).final;
    BestGap best{0, 0};
    for (double gap = 1e-3; gap < 1e3; gap *= 1.01) {
        const double gain = outcome(first, {gap}, delay, p).final / massed - 1;
        if (gain > best.gain) best = {gap, gain};
    }
    return best;
}

}  // namespace schedule
