#include "memory/schedule/worth.hpp"

#include <algorithm>
#include <cmath>

namespace memory::schedule {
namespace {

// All of these were chosen in rehearsal; docs/decisions/coverage-first.md has
// the figures.
constexpr double kAnswersEach = 4;
constexpr double kNewAsIfIdleDays = 20;
constexpr double kKnownShare = 0.25;
constexpr double kFamiliarFrom = 0.7;
constexpr double kFamiliarBefore = 0.3;
constexpr double kFamiliarBeforeAnswers = 3;
constexpr double kTrifle = 1e-6;

bool never_failed(const RecallState& state) {
    return state.failed == 0;
}

/// Answers that a point begun still lacks. What was known before it was asked
/// lacks none.
double lacking(const RecallState& state) {
    if (state.answers() == 0 || never_failed(state)) return 0;
    return std::max(0.0, kAnswersEach - static_cast<double>(state.answers()));
}

double idle_days(const RecallState& state, base::Instant now) {
    return std::max(0.0, base::days_between(state.last, now));
}

struct Tally {
    double answered = 0, never_failed = 0;
};

}  // namespace

Outlook look_out(std::span<const Candidate> points, base::Instant now, double asks_left) {
    std::vector<Tally> families;
    double owed = 0;
    for (const Candidate& point : points) {
        if (point.family >= families.size()) families.resize(point.family + 1U);
        if (point.state->answers() == 0) continue;
        owed += lacking(*point.state);
        families[point.family].answered += 1;
        families[point.family].never_failed += never_failed(*point.state) ? 1 : 0;
    }
    Outlook outlook{now, std::max(0.0, (asks_left - owed) / kAnswersEach), {}};
    for (const Tally& family : families)
        outlook.familiar.push_back((family.never_failed + kFamiliarBeforeAnswers * kFamiliarBefore) /
                                   (family.answered + kFamiliarBeforeAnswers));
    return outlook;
}

double worth(const Candidate& point, const Outlook& outlook) {
    const RecallState& state = *point.state;
    if (state.answers() == 0) return point.weight * (outlook.room > 0 ? kNewAsIfIdleDays : kTrifle);
    const double waited = std::sqrt(point.weight) * idle_days(state, outlook.now);
    if (!never_failed(state)) return waited;
    return waited * std::pow(kKnownShare, std::min(1.0, outlook.familiar[point.family] / kFamiliarFrom));
}

}  // namespace memory::schedule
