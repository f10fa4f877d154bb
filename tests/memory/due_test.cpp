#include "memory/due.hpp"

#include <doctest/doctest.h>

#include "memory/histories.hpp"

using namespace histories;
using memory::Parameters;
using memory::RecallState;
using memory::Sure;

TEST_CASE("property: a point is due from due_at on and not before") {
    int later = 0;
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const RecallState state = any_state(random);
        const Parameters p = any_parameters(random);
        const double target = between(random, 0.5, 0.97);
        const base::Instant at = memory::due_at(state, target, p);
        CHECK(at >= state.last);
        CHECK(memory::due(state, at, target, p));
        CHECK(memory::due(state, base::after_days(at, any_delay(random)), target, p));
        if (at - state.last < base::Milliseconds{2}) continue;
        ++later;
        CHECK_FALSE(memory::due(state, at - base::Milliseconds{2}, target, p));
        CHECK_FALSE(memory::due(state, base::after_days(state.last, -any_delay(random)), target, p));
    }
    CHECK(later > kRuns / 4);
}

TEST_CASE("a point already below its target is due at the answer itself, and before it when the clock is set back") {
    const RecallState once = memory::advance(RecallState{}, kStart, 1.0, Sure::fairly);
    CHECK(memory::due_at(once, 0.99, Parameters{}) == kStart);
    CHECK(memory::due(once, kStart, 0.99, Parameters{}));
    CHECK(memory::due(once, base::after_days(kStart, -3), 0.99, Parameters{}));
}

TEST_CASE("a point never answered is due at any moment or at none") {
    const base::Instant long_ago = base::after_days(base::Instant{}, -1000);
    CHECK(memory::due(RecallState{}, long_ago, 0.9, Parameters{}));
    CHECK(memory::due_at(RecallState{}, 0.9, Parameters{}) == base::Instant{});
    CHECK_FALSE(memory::due(RecallState{}, kStart, 0.1, Parameters{}));
    CHECK(base::days_between(base::Instant{}, memory::due_at(RecallState{}, 0.1, Parameters{})) > 365'000);
}

TEST_CASE("a curve that never falls to the target is due a thousand years on") {
    Parameters slow;
    slow.log_decay = -900;
    const RecallState once = memory::advance(RecallState{}, kStart, 1.0, Sure::fairly);
    CHECK(base::days_between(kStart, memory::due_at(once, 0.5, slow)) > 365'000);
}

// Regression of the prior, in days; seen once the model was built, so no evidence for it. What it says: recall starts
// near one and has lost a tenth within the hour; weekly success takes five answers to earn a day and a half.
TEST_CASE("the prior's due times after weekly success") {
    RecallState state = memory::advance(RecallState{}, kStart, 1.0, Sure::fairly);
    CHECK(memory::recall_after(state, 0, Parameters{}) == doctest::Approx(0.985).epsilon(1e-3));
    CHECK(memory::days_to(0.90, state, Parameters{}) == doctest::Approx(0.0351).epsilon(0.01));
    for (int week = 1; week <= 4; ++week)
        state = memory::advance(state, base::after_days(state.last, 7), 1.0, Sure::fairly);
    CHECK(memory::days_to(0.90, state, Parameters{}) == doctest::Approx(1.60).epsilon(0.01));
}
