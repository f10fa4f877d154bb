#include "memory/rehearsal/trace_mind.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "memory/rehearsal/course.hpp"

using memory::rehearsal::Trace;
using memory::rehearsal::trace_activation;
using memory::rehearsal::trace_decay;
using memory::rehearsal::trace_recall;
using memory::rehearsal::TraceMind;

namespace {

struct Worked {
    std::vector<double> met_at;  // seconds
    double test_at;
    std::vector<double> decays;
    double activation, recall;
};

// Basis: computed from the equations of Pavlik & Anderson 2005 (form seen in a thesis excerpt, constants from memory),
// with a .177, c .217, tau -.704, s .255 and no change of clock between sittings.
const std::vector<Worked> kWorked = {
    {{0}, 100, {0.177}, -0.815115, 0.392755},
    {{0, 60}, 160, {0.177, 0.282130}, -0.385672, 0.777013},
    {{0, 600}, 700, {0.177, 0.246940}, -0.455162, 0.726281},
    {{0, 60, 120}, 86'400, {0.177, 0.282130, 0.338350}, -1.631690, 0.025631},
    {{0, 3600, 7200}, 86'400, {0.177, 0.227932, 0.255615}, -1.326626, 0.080050},
};

memory::rehearsal::Learner blank_learner() {
    return {1, memory::rehearsal::first_midnight(), 0, {0, 0}, {{}, {}}};
}

}  // namespace

TEST_CASE("trace activation: worked figures") {
    for (const Worked& worked : kWorked) {
        std::vector<Trace> traces;
        for (std::size_t n = 0; n < worked.met_at.size(); ++n) {
            const double at = worked.met_at[n];
            traces.push_back({at, trace_decay(trace_activation(traces, at))});
            CHECK(traces.back().decay == doctest::Approx(worked.decays[n]).epsilon(1e-5));
        }
        const double activation = trace_activation(traces, worked.test_at);
        CHECK(activation == doctest::Approx(worked.activation).epsilon(2e-6));
        CHECK(trace_recall(activation) == doctest::Approx(worked.recall).epsilon(5e-5));
    }
}

TEST_CASE("trace activation: what was never met is not recalled, and a moment of no age is no fault") {
    CHECK(std::isinf(trace_activation({}, 10)));
    CHECK(trace_recall(trace_activation({}, 10)) == 0.0);
    CHECK(trace_activation({{5, 0.2}}, 5) == 0.0);
}

TEST_CASE("trace mind: an answer raises the chance of that point alone, which then falls") {
    TraceMind mind{blank_learner()};
    const auto start = memory::rehearsal::first_midnight();
    const auto at = [&](double days) { return base::after_days(start, days); };
    CHECK(mind.chance(0, at(1)) == 0.0);
    mind.answered(0, at(1), false);
    CHECK(mind.chance(1, at(1.001)) == 0.0);
    double before = 1;
    for (const double days : {1.0001, 1.01, 2.0, 5.0, 30.0, 300.0}) {
        CHECK(mind.chance(0, at(days)) < before);
        before = mind.chance(0, at(days));
    }
}

TEST_CASE("trace mind: answers spread over days last longer than answers of one sitting") {
    const auto start = memory::rehearsal::first_midnight();
    const auto later = [&](double gap) {
        TraceMind mind{blank_learner()};
        for (int n = 0; n < 4; ++n) mind.answered(0, base::after_days(start, gap * n), true);
        return mind.chance(0, base::after_days(start, 3 * gap + 30));
    };
    CHECK(later(7) > later(60.0 / 86'400) + 0.1);
}

TEST_CASE("trace mind: knowing more beforehand gives a better chance") {
    auto learner = blank_learner();
    learner.point_ease = {0, 0, 0, 0};
    learner.known = {{0, false}, {0.8, false}, {0.8, true}, {0.01, true}};
    const TraceMind mind{learner};
    const auto exam = base::after_days(learner.start, 60);
    CHECK(mind.chance(0, exam) == 0.0);
    CHECK(mind.chance(1, exam) > 0.0);
    CHECK(mind.chance(2, exam) > mind.chance(1, exam));
    CHECK(mind.chance(2, exam) > mind.chance(3, exam));
}
