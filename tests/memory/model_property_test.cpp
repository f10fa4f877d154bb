#include <cmath>
#include <cstddef>

#include <doctest/doctest.h>

#include "memory/histories.hpp"
#include "memory/model.hpp"

using namespace histories;
using memory::advance;
using memory::Parameters;
using memory::RecallState;
using memory::Sure;

namespace {

/// Recall at `when` after one more answer at `at`.
double after(const RecallState& state, base::Instant at, double mark, base::Instant when, const Parameters& p) {
    return memory::recall_probability(advance(state, at, mark, Sure::fairly), when, p);
}

}  // namespace

TEST_CASE("property: recall is a probability and never rises while nothing is answered") {
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const RecallState state = any_state(random);
        const Parameters p = any_parameters(random);
        const double sooner = any_delay(random);
        const double later = sooner * (1 + random.unit());
        const double first = memory::recall_after(state, sooner, p);
        const double second = memory::recall_after(state, later, p);
        CHECK(second >= 0);
        CHECK(first <= 1);
        CHECK(first >= second);
        CHECK(memory::recall_after(state, 0, p) > first);
        CHECK(memory::recall_probability(state, base::after_days(state.last, sooner), p) >=
              memory::recall_probability(state, base::after_days(state.last, later), p));
    }
}

TEST_CASE("property: an answer adds one to one count and never takes spacing away") {
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const RecallState before = any_state(random);
        const RecallState after = one_more(before, random);
        CHECK(after.answers() == before.answers() + 1);
        for (std::size_t j = 0; j < memory::kScales; ++j) {
            CHECK(before.spanned[j] >= 0);
            CHECK(after.spanned[j] >= before.spanned[j]);
        }
        const double days = any_delay(random);
        CHECK(memory::wear(after, days) <= memory::wear(before, days));
    }
}

// Check 12 of the reference list: an identity, goal 1e-9.
TEST_CASE("property: days_to and half_life_days invert the curve") {
    int inverted = 0;
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const RecallState state = any_state(random);
        const Parameters p = any_parameters(random);
        const double target = between(random, 0.01, 0.99);
        const double days = memory::days_to(target, state, p);
        CHECK(days >= 0);
        if (memory::recall_after(state, 0, p) <= target) {
            CHECK(days == 0);
            continue;
        }
        if (!std::isfinite(days)) continue;
        ++inverted;
        CHECK(std::abs(memory::recall_after(state, days, p) - target) < 1e-9);
        CHECK(memory::half_life_days(state, p) == memory::days_to(0.5, state, p));
    }
    CHECK(inverted > kRuns / 4);
}

TEST_CASE("property: a higher target is reached no later") {
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const RecallState state = any_state(random);
        const Parameters p = any_parameters(random);
        const double target = between(random, 0.01, 0.98);
        CHECK(memory::days_to(target + 0.01, state, p) <= memory::days_to(target, state, p));
    }
}

TEST_CASE("property: recalling never predicts less than failing, and never less than not being asked") {
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const RecallState state = any_state(random);
        const Parameters p = random.below(2) == 0 ? Parameters{} : any_parameters(random);
        const base::Instant at = base::after_days(state.last, any_delay(random));
        const base::Instant when = base::after_days(at, any_delay(random));
        const double recalled = after(state, at, 1.0, when, p);
        CHECK(recalled >= after(state, at, 0.0, when, p));
        CHECK(recalled >= memory::recall_probability(state, when, p));
    }
}

// A failure alone may lower what is expected, by up to the worth of last_recalled: it tells something of the learner.
TEST_CASE("property: under the prior being asked never lowers expected recall") {
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const RecallState state = any_state(random);
        const Parameters p;
        const base::Instant at = base::after_days(state.last, any_delay(random));
        const base::Instant when = base::after_days(at, any_delay(random));
        const double chance = memory::recall_probability(state, at, p);
        const double expected = chance * after(state, at, 1.0, when, p) + (1 - chance) * after(state, at, 0.0, when, p);
        CHECK(expected >= memory::recall_probability(state, when, p));
    }
}

TEST_CASE("property: a clock set back changes neither recall nor what was spanned") {
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const RecallState state = any_state(random);
        const Parameters p = any_parameters(random);
        const base::Instant before = base::after_days(state.last, -any_delay(random));
        CHECK(memory::recall_probability(state, before, p) == memory::recall_after(state, 0, p));
        const RecallState next = advance(state, before, any_mark(random), Sure::sure);
        CHECK(next.spanned == state.spanned);
    }
}
