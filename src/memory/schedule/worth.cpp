#include "memory/schedule/worth.hpp"

#include <algorithm>
#include <cmath>

namespace memory::schedule {
namespace {

// All of these were chosen in rehearsal; docs/decisions/coverage-first.md has the figures.
constexpr double kAnswersEach = 4;
constexpr double kNewAsIfIdleDays = 20;
constexpr double kKnownShare = 0.15;
constexpr double kScarceRoundDays = 20;
constexpr double kFamiliarFrom = 0.7;
constexpr double kFamiliarBefore = 0.3;
constexpr double kFamiliarBeforeAnswers = 3;
constexpr double kTrifle = 1e-6;
constexpr double kSafePower = 0.3;
constexpr double kClosingAsksAPoint = 0.3;

bool never_failed(const RecallState& state) {
    return state.failed == 0;
}

/// Answers that a point begun still lacks. What was known before it was asked lacks none.
double lacking(const RecallState& state) {
    if (state.answers() == 0 || never_failed(state)) return 0;
    return std::max(0.0, kAnswersEach - static_cast<double>(state.answers()));
}

double idle_days(const RecallState& state, base::Instant now) {
    return std::max(0.0, base::days_between(state.last, now));
}

/// How often a point that was answered comes round for what the fitted model foresees; 1 for the middling.
double share_foreseen(const RecallState& state, const Parameters& params, const Outlook& outlook) {
    const double chance = recall_probability(state, outlook.horizon, params);
    return std::pow(1 - chance, kSafePower) * (outlook.closing ? 4 * chance * (1 - chance) : 1.0);
}

double scarcity(std::size_t points, const Pace& pace) {
    const double in_time = pace.asks_a_day * kScarceRoundDays;
    const auto round = static_cast<double>(points);
    return in_time > round ? round / in_time : 1.0;
}

struct Tally {
    double answered = 0, never_failed = 0;
};

}  // namespace

Outlook look_out(std::span<const Candidate> points, base::Instant now, base::Instant horizon, const Pace& pace) {
    std::vector<Tally> families;
    double owed = 0;
    for (const Candidate& point : points) {
        if (point.family >= families.size()) families.resize(point.family + 1U);
        if (point.state->answers() == 0) continue;
        owed += lacking(*point.state);
        families[point.family].answered += 1;
        families[point.family].never_failed += never_failed(*point.state) ? 1 : 0;
    }
    Outlook outlook;
    outlook.now = now;
    outlook.horizon = std::max(now, horizon);
    outlook.room = std::max(0.0, (pace.asks_left() - owed) / kAnswersEach);
    outlook.scarcity = scarcity(points.size(), pace);
    outlook.closing = pace.asks_left() < kClosingAsksAPoint * static_cast<double>(points.size());
    for (const Tally& family : families)
        outlook.familiar.push_back((family.never_failed + kFamiliarBeforeAnswers * kFamiliarBefore) /
                                   (family.answered + kFamiliarBeforeAnswers));
    return outlook;
}

double worth(const Candidate& point, const Outlook& outlook) {
    const RecallState& state = *point.state;
    if (state.answers() == 0) return point.weight * (outlook.room > 0 ? kNewAsIfIdleDays : kTrifle);
    double waited = std::sqrt(point.weight) * idle_days(state, outlook.now);
    if (point.params != nullptr) waited *= share_foreseen(state, *point.params, outlook);
    if (!never_failed(state)) return waited;
    const double known = std::min(1.0, outlook.familiar[point.family] / kFamiliarFrom);
    return waited * std::pow(kKnownShare, known * outlook.scarcity);
}

}  // namespace memory::schedule
