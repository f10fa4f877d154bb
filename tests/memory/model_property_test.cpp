#include <algorithm>
#include <cmath>
#include <cstdint>

#include <doctest/doctest.h>

#include "memory/histories.hpp"
#include "memory/model.hpp"

using namespace histories;
using memory::advance;
using memory::Parameters;
using memory::RecallState;
using memory::Sure;

namespace {

/// One more recalled answer is worth at least one more failed answer at every later moment, when the history leaves
/// room for it: both the rise of the activation and the slowing of decay must be the greater. See docs/model.md.
bool success_is_worth_more(const RecallState& state, const Parameters& p) {
    const auto rise = [](double gain, double so_far) { return gain * std::log1p(1 / (1 + so_far)); };
    const bool higher = rise(p.recalled_gain, state.recalled) >= rise(p.failed_gain, state.failed);
    const bool slower = p.recalled_slows >= p.failed_slows &&
                        p.recalled_slows * (1 + state.spacing_failed) >= p.failed_slows * (1 + state.spacing_recalled);
    return higher && slower;
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
        CHECK(before.spacing_recalled >= 0);
        CHECK(before.spacing_failed >= 0);
        CHECK(after.spacing_recalled >= before.spacing_recalled);
        CHECK(after.spacing_failed >= before.spacing_failed);
        CHECK(memory::decay(after, Parameters{}) <= memory::decay(before, Parameters{}));
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

TEST_CASE("property: where the history leaves room, recalling never predicts less than failing") {
    int held = 0;
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const RecallState state = any_state(random);
        const Parameters p = random.below(2) == 0 ? Parameters{} : any_parameters(random);
        if (!success_is_worth_more(state, p)) continue;
        ++held;
        const base::Instant at = base::after_days(state.last, any_delay(random));
        const base::Instant when = base::after_days(at, any_delay(random));
        const double recalled = memory::recall_probability(advance(state, at, 1.0, Sure::fairly), when, p);
        const double failed = memory::recall_probability(advance(state, at, 0.0, Sure::fairly), when, p);
        CHECK(recalled >= failed - 1e-15);
    }
    CHECK(held > kRuns / 2);
}

// A known weakness, held here so that it cannot grow unseen: logarithmic counts make the first failure worth more
// than the sixth success, 0.30 ln 2 against 1.25 ln(7/6).
TEST_CASE("known weakness: after five successes the prior credits a first failure above a sixth success") {
    const auto gap_after = [](std::uint32_t recalled, double days) {
        const RecallState state{kStart, recalled, 0, 0.0, 0.0, 1.0, Sure::fairly};
        const double success = memory::recall_after(advance(state, kStart, 1.0, Sure::fairly), days, Parameters{});
        return success - memory::recall_after(advance(state, kStart, 0.0, Sure::fairly), days, Parameters{});
    };
    for (const double days : {0.0, 1.0, 30.0, 365.0}) {
        CAPTURE(days);
        for (std::uint32_t recalled = 0; recalled <= 4; ++recalled) CHECK(gap_after(recalled, days) > 0);
        for (std::uint32_t recalled = 6; recalled <= 50; ++recalled) CHECK(gap_after(recalled, days) < 0);
        for (std::uint32_t recalled = 5; recalled <= 50; ++recalled) CHECK(gap_after(recalled, days) > -0.033);
    }
}

TEST_CASE("property: a clock set back changes neither recall nor spacing") {
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const RecallState state = any_state(random);
        const Parameters p = any_parameters(random);
        const base::Instant before = base::after_days(state.last, -any_delay(random));
        CHECK(memory::recall_probability(state, before, p) == memory::recall_after(state, 0, p));
        const RecallState next = advance(state, before, any_mark(random), Sure::sure);
        CHECK(next.spacing_recalled == state.spacing_recalled);
        CHECK(next.spacing_failed == state.spacing_failed);
    }
}
