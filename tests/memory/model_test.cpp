#include "memory/model.hpp"

#include <cmath>
#include <initializer_list>
#include <limits>

#include <doctest/doctest.h>

#include "memory/histories.hpp"

using histories::kStart;
using memory::advance;
using memory::Parameters;
using memory::RecallState;
using memory::Sure;

namespace {

const Parameters kPrior;
constexpr double kForever = std::numeric_limits<double>::infinity();

RecallState answered(std::initializer_list<double> lags, double mark = 1.0) {
    RecallState state;
    base::Instant now = kStart;
    for (const double lag : lags) state = advance(state, now = base::after_days(now, lag), mark, Sure::fairly);
    return state;
}

}  // namespace

TEST_CASE("the default parameters are the prior means of docs/model.md") {
    CHECK(kPrior.base == 1.13);
    CHECK(kPrior.recalled_gain == 1.25);
    CHECK(kPrior.failed_gain == 0.30);
    CHECK(std::exp(kPrior.log_decay) == doctest::Approx(0.45).epsilon(1e-15));
    CHECK(kPrior.recalled_slows == 0.30);
    CHECK(kPrior.failed_slows == 0.10);
    CHECK(kPrior.unseen == -1.06);
    CHECK(kPrior.learner_ease + kPrior.point_ease + kPrior.learner_forgets == 0.0);
}

TEST_CASE("a first answer adds no spacing and sets everything else") {
    const RecallState state = advance(RecallState{}, kStart, 0.9, Sure::guess);
    CHECK(state == RecallState{kStart, 1, 0, 0.0, 0.0, 0.9, Sure::guess});
}

TEST_CASE("spacing goes to the side the answer falls on") {
    const RecallState once = answered({0});
    const RecallState recalled = advance(once, base::after_days(once.last, 7), 0.9, Sure::sure);
    const RecallState failed = advance(once, base::after_days(once.last, 7), 0.89, Sure::sure);
    CHECK(recalled.spacing_recalled == doctest::Approx(std::log(8.0)).epsilon(1e-15));
    CHECK(recalled.spacing_failed == 0.0);
    CHECK(failed.spacing_failed == doctest::Approx(std::log(8.0)).epsilon(1e-15));
    CHECK(failed.spacing_recalled == 0.0);
    CHECK(recalled.recalled == 2);
    CHECK(failed.failed == 1);
    CHECK(failed.sure_and_wrong());
}

TEST_CASE("the lag is taken from the answer before, whichever way that one went") {
    const RecallState failed = answered({0}, 0.0);
    const RecallState back = advance(failed, base::after_days(failed.last, 1), 1.0, Sure::fairly);
    CHECK(back.spacing_recalled == doctest::Approx(std::log(2.0)).epsilon(1e-15));
    CHECK(back.spacing_failed == 0.0);
}

// Worked by hand from the equations of docs/model.md: A = 1.13 + 1.25 ln 2, d = .45, ln(1 + 36) after one day.
TEST_CASE("one recalled answer, worked by hand") {
    const RecallState state = answered({0});
    const double activation = 1.13 + 1.25 * std::log(2.0);
    CHECK(memory::base_activation(state, kPrior) == doctest::Approx(activation).epsilon(1e-14));
    CHECK(memory::decay(state, kPrior) == doctest::Approx(0.45).epsilon(1e-14));
    CHECK(memory::log_delay(1.0) == doctest::Approx(std::log(37.0)).epsilon(1e-14));
    const double odds = std::exp(activation) * std::pow(37.0, -0.45);
    CHECK(memory::recall_after(state, 1.0, kPrior) == doctest::Approx(odds / (1 + odds)).epsilon(1e-13));
    CHECK(memory::recall_probability(state, base::after_days(state.last, 1.0), kPrior) ==
          doctest::Approx(odds / (1 + odds)).epsilon(1e-13));
}

TEST_CASE("a mixed history, worked by hand") {
    const RecallState state{kStart, 3, 2, 4.0, 1.5, 1.0, Sure::fairly};
    Parameters p = kPrior;
    p.learner_ease = 0.2;
    p.point_ease = -0.5;
    p.learner_forgets = 0.1;
    CHECK(memory::base_activation(state, p) ==
          doctest::Approx(1.13 - 0.3 + 1.25 * std::log(4.0) + 0.30 * std::log(3.0)).epsilon(1e-14));
    CHECK(memory::decay(state, p) ==
          doctest::Approx(0.45 * std::exp(0.1) * std::pow(5.0, -0.3) * std::pow(2.5, -0.1)).epsilon(1e-14));
}

TEST_CASE("a point never answered has the chance of one never met, at every moment") {
    const double chance = 1 / (1 + std::exp(1.06));
    for (const double days : {0.0, 1.0, 1e6, kForever})
        CHECK(memory::recall_after(RecallState{}, days, kPrior) == doctest::Approx(chance).epsilon(1e-14));
    for (const double days : {-1e5, 0.0, 1e5})
        CHECK(memory::recall_probability(RecallState{}, base::after_days(kStart, days), kPrior) ==
              doctest::Approx(chance).epsilon(1e-14));
    Parameters easy = kPrior;
    easy.learner_ease = 1.0;
    easy.point_ease = 0.06;
    CHECK(memory::recall_after(RecallState{}, 0, easy) == doctest::Approx(0.5).epsilon(1e-14));
}

TEST_CASE("a point never answered reaches a target at once or never") {
    CHECK(memory::half_life_days(RecallState{}, kPrior) == 0.0);
    CHECK(memory::days_to(0.2, RecallState{}, kPrior) == kForever);
}

TEST_CASE("a clock set back counts as no time passed") {
    const RecallState state = answered({0, 3});
    const base::Instant before = base::after_days(state.last, -400);
    CHECK(memory::recall_probability(state, before, kPrior) == memory::recall_after(state, 0, kPrior));
    const RecallState next = advance(state, before, 1.0, Sure::fairly);
    CHECK(next.spacing_recalled == state.spacing_recalled);
    CHECK(next.last == before);
}

TEST_CASE("days_to is zero where recall starts at the target or below") {
    const RecallState state = answered({0});
    const double start = memory::recall_after(state, 0, kPrior);
    CHECK(memory::days_to(start + 1e-12, state, kPrior) == 0.0);
    CHECK(memory::days_to(0.999, state, kPrior) == 0.0);
    CHECK(memory::days_to(start - 1e-6, state, kPrior) > 0.0);
}

TEST_CASE("extremes stay in range and never turn into not-a-number") {
    const RecallState state = answered({0, 30, 30, 30});
    Parameters slow = kPrior;
    Parameters fast = kPrior;
    slow.log_decay = -900;
    fast.log_decay = 900;
    slow.base = 800;
    fast.base = -800;
    CHECK(memory::recall_after(state, 1e9, slow) == 1.0);
    CHECK(memory::recall_after(state, 1e9, fast) == 0.0);
    CHECK(memory::recall_after(state, kForever, kPrior) == 0.0);
    CHECK(memory::recall_after(state, kForever, slow) == 0.0);
    CHECK(memory::recall_after(state, 0, fast) == 0.0);
    CHECK(memory::recall_after(state, kForever, fast) == 0.0);
    CHECK(memory::half_life_days(state, slow) == kForever);
    CHECK(memory::half_life_days(state, fast) == 0.0);
    CHECK(memory::days_to(1e-300, state, kPrior) > 0.0);
    CHECK(memory::days_to(1 - 1e-16, state, kPrior) == 0.0);
}
