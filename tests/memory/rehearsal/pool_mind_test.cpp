#include "memory/rehearsal/pool_mind.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "memory/rehearsal/course.hpp"

using memory::rehearsal::kPools;
using memory::rehearsal::leaked;
using memory::rehearsal::PoolMind;
using memory::rehearsal::Pools;
using memory::rehearsal::refilled;
using memory::rehearsal::strength;

namespace {

Pools any_pools(base::Random& random) {
    Pools pools{};
    for (double& pool : pools) pool = random.unit();
    return pools;
}

Pools after_answers(int answers, double gap) {
    Pools pools{};
    for (int n = 0; n < answers; ++n) pools = refilled(leaked(pools, gap), true);
    return pools;
}

}  // namespace

TEST_CASE("pools: leaking lowers all, the slow ones least, and goes on where it left off") {
    base::Random random{3};
    for (int run = 0; run < 500; ++run) {
        const Pools pools = any_pools(random);
        const double days = 100 * random.unit();
        const double more = 100 * random.unit();
        const Pools left = leaked(pools, days);
        const Pools twice = leaked(left, more);
        const Pools once = leaked(pools, days + more);
        for (std::size_t n = 0; n < kPools; ++n) {
            CHECK_MESSAGE(left[n] <= pools[n], run);
            CHECK(twice[n] == doctest::Approx(once[n]).epsilon(1e-9));
            if (n > 0) CHECK(left[n] * pools[n - 1] >= left[n - 1] * pools[n]);
        }
    }
}

TEST_CASE("pools: an answer lowers none, fills none beyond 1, and a recalled one adds at least as much") {
    base::Random random{4};
    for (int run = 0; run < 500; ++run) {
        const Pools pools = any_pools(random);
        const Pools recalled = refilled(pools, true);
        const Pools failed = refilled(pools, false);
        for (std::size_t n = 0; n < kPools; ++n) {
            CHECK_MESSAGE(failed[n] >= pools[n], run);
            CHECK(recalled[n] >= failed[n]);
            CHECK(recalled[n] <= 1.0);
        }
    }
}

TEST_CASE("pools: a first answer by hand") {
    // Basis: computed by hand. Nothing is held, so each pool rises by the whole step: .22 recalled, .15 failed.
    for (const double pool : refilled(Pools{}, true)) CHECK(pool == doctest::Approx(0.22));
    for (const double pool : refilled(Pools{}, false)) CHECK(pool == doctest::Approx(0.15));
    // The fastest pool holds e^-10 of its .22 after a day of ten time constants.
    CHECK(leaked(refilled(Pools{}, true), 1.0)[0] == doctest::Approx(0.22 * 4.539993e-5).epsilon(1e-6));
}

TEST_CASE("pools: the spacing effect, at every delay of a month and more") {
    for (const double delay : {30.0, 60.0, 120.0}) {
        CAPTURE(delay);
        CHECK(strength(leaked(after_answers(4, 10), delay)) > 1.05 * strength(leaked(after_answers(4, 1), delay)));
        CHECK(strength(leaked(after_answers(4, 10), delay)) > 1.3 * strength(leaked(after_answers(4, 0.001), delay)));
    }
}

TEST_CASE("pool mind: recall after a few answers is plausible") {
    // Basis: chosen, as the header says: one answer is mostly gone after ten days, four hold for a month.
    const memory::rehearsal::Learner learner{1, memory::rehearsal::first_midnight(), 0, {0}, {{}}};
    PoolMind mind{learner};
    CHECK(mind.chance(0, learner.start) < 0.05);
    mind.answered(0, learner.start, false);
    CHECK(mind.chance(0, base::after_days(learner.start, 10)) < 0.2);
    for (int n = 1; n < 4; ++n) mind.answered(0, base::after_days(learner.start, 10 * n), true);
    CHECK(mind.chance(0, base::after_days(learner.start, 60)) > 0.5);
    CHECK(mind.chance(0, base::after_days(learner.start, 120)) < 0.6);
}
