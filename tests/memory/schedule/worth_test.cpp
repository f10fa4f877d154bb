#include "memory/schedule/worth.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "memory/histories.hpp"

using memory::RecallState;
using memory::schedule::Candidate;
using memory::schedule::look_out;
using memory::schedule::worth;

namespace {

const base::Instant kNow = base::after_days(histories::kStart, 100);
const base::Instant kExam = base::after_days(kNow, 30);

RecallState answered(std::uint32_t recalled, std::uint32_t failed, double days_ago) {
    RecallState state;
    state.recalled = recalled;
    state.failed = failed;
    state.last = base::after_days(kNow, -days_ago);
    return state;
}

/// So many asks in the thirty days that are left.
memory::schedule::Pace asks(double left) {
    return {left / 30, 30};
}

const RecallState kNew;
const RecallState kFailedOnce = answered(0, 1, 10);

}  // namespace

TEST_CASE("worth: what was failed comes round by the days it has waited, and by the root of its stakes") {
    const auto outlook = look_out(std::vector<Candidate>{{&kFailedOnce, 1, 0}}, kNow, kExam, asks(1000));
    CHECK(worth({&kFailedOnce, 1, 0}, outlook) == doctest::Approx(10.0));
    CHECK(worth({&kFailedOnce, 4, 0}, outlook) == doctest::Approx(20.0));
    const RecallState just = answered(3, 2, 0);
    CHECK(worth({&just, 1, 0}, outlook) == 0.0);
    const RecallState ahead = answered(3, 2, -1);
    CHECK(worth({&ahead, 1, 0}, outlook) == 0.0);
}

TEST_CASE("worth: a point is begun only while there is time for it and those begun before") {
    // Basis: chosen. Four answers a point: two points that have one answer each are owed six.
    const std::vector<Candidate> points = {{&kFailedOnce, 1, 0}, {&kFailedOnce, 1, 0}, {&kNew, 1, 0}};
    CHECK(look_out(points, kNow, kExam, asks(14)).room == doctest::Approx(2.0));
    CHECK(look_out(points, kNow, kExam, asks(3)).room == 0.0);
    const auto ample = look_out(points, kNow, kExam, asks(1000));
    const auto none = look_out(points, kNow, kExam, asks(6));
    CHECK(worth(points[2], ample) > worth(points[0], ample));
    CHECK(worth(points[2], none) < worth(points[0], none));
    CHECK(worth(points[2], none) > 0.0);
    const Candidate heavy{&kNew, 1.5, 0};
    CHECK(worth(heavy, ample) > worth(points[2], ample));
    CHECK(worth(heavy, none) > worth(points[2], none));
}

TEST_CASE("worth: what was never failed steps back, the more so in a family that is mostly known") {
    const RecallState known = answered(2, 0, 10);
    std::vector<Candidate> points(20, Candidate{&known, 1, 0});
    points.resize(40, Candidate{&kFailedOnce, 1, 1});
    points.push_back({&known, 1, 1});
    const auto outlook = look_out(points, kNow, kExam, asks(60));
    CHECK(outlook.familiar[0] > 0.8);
    CHECK(outlook.familiar[1] < 0.2);
    CHECK(outlook.scarcity == 1.0);
    CHECK(worth(points.front(), outlook) == doctest::Approx(1.5));
    CHECK(worth(points.back(), outlook) > 5.0);
    CHECK(worth(points.back(), outlook) < 10.0);
    // 41 points in 30 days with 615 asks, a round in two days: known points step back a tenth as far, in the logarithm.
    const auto ample = look_out(points, kNow, kExam, asks(615));
    CHECK(ample.scarcity == doctest::Approx(0.1));
    CHECK(worth(points.front(), ample) == doctest::Approx(10 * std::pow(0.15, 0.1)));
    CHECK(look_out(points, kNow, kExam, asks(0)).scarcity == 1.0);
}

TEST_CASE("worth: nothing known of a family leaves it at what is common") {
    const auto outlook = look_out(std::vector<Candidate>{{&kNew, 1, 0}, {&kNew, 1, 2}}, kNow, kExam, asks(10));
    REQUIRE(outlook.familiar.size() == 3);
    for (const double share : outlook.familiar) CHECK(share == doctest::Approx(0.3));
    CHECK(look_out({}, kNow, kExam, asks(10)).familiar.empty());
}

TEST_CASE("worth: with fitted parameters, what will last steps back") {
    memory::Parameters weak;
    weak.point_ease = -2;
    memory::Parameters strong;
    strong.point_ease = 6;
    const auto outlook = look_out(std::vector<Candidate>{{&kFailedOnce, 1, 0, &weak}}, kNow, kExam, asks(1000));
    REQUIRE_FALSE(outlook.closing);
    const double plain = worth({&kFailedOnce, 1, 0}, outlook);
    CHECK(worth({&kFailedOnce, 1, 0, &strong}, outlook) < worth({&kFailedOnce, 1, 0, &weak}, outlook));
    CHECK(worth({&kFailedOnce, 1, 0, &weak}, outlook) <= plain);
    const double chance = memory::recall_probability(kFailedOnce, kExam, weak);
    CHECK(worth({&kFailedOnce, 1, 0, &weak}, outlook) == doctest::Approx(plain * std::pow(1 - chance, 0.3)));
}

TEST_CASE("worth: the last asks go to what is neither safe nor lost") {
    const std::vector<Candidate> points(10, Candidate{&kFailedOnce, 1, 0});
    const auto last = look_out(points, kNow, kExam, asks(2.9));
    REQUIRE(last.closing);
    CHECK_FALSE(look_out(points, kNow, kExam, asks(3.1)).closing);
    const auto at = [&](double chance) {
        memory::Parameters params;
        const double now = memory::recall_probability(kFailedOnce, kExam, params);
        params.point_ease = std::log(chance / (1 - chance)) - std::log(now / (1 - now));
        return worth({&kFailedOnce, 1, 0, &params}, last);
    };
    CHECK(at(0.5) > at(0.02));
    CHECK(at(0.5) > at(0.98));
    CHECK(worth(points[0], last) == doctest::Approx(10.0));
}

TEST_CASE("worth: a horizon that has passed counts as now") {
    const memory::Parameters params;
    const std::vector<Candidate> points = {{&kFailedOnce, 1, 0, &params}};
    const auto passed = look_out(points, kNow, base::after_days(kNow, -50), asks(100));
    CHECK(worth(points[0], passed) == worth(points[0], look_out(points, kNow, kNow, asks(100))));
}

TEST_CASE("worth: never negative, never falls with waiting, never falls with stakes") {
    base::Random random{12};
    for (int run = 0; run < histories::kRuns; ++run) {
        const RecallState state = histories::any_state(random);
        const double weight = histories::between(random, 0.5, 2);
        const memory::Parameters params = histories::any_parameters(random);
        const auto* fitted = random.below(2) == 0 ? nullptr : &params;
        const std::vector<Candidate> points = {{&state, weight, 0, fitted}};
        const auto at = base::after_days(state.last, histories::any_delay(random));
        const auto now = look_out(points, at, at, asks(100 * random.unit()));
        auto later = now;
        later.now = base::after_days(at, histories::any_delay(random));
        const double here = worth(points[0], now);
        CHECK_MESSAGE(here >= 0, run);
        CHECK_MESSAGE(worth(points[0], later) >= here, run);
        CHECK_MESSAGE(worth({&state, 1.1 * weight, 0, fitted}, now) >= here, run);
    }
}
