#include "memory/rehearsal/policy.hpp"

#include <algorithm>
#include <numeric>
#include <set>
#include <string>

#include <doctest/doctest.h>

#include "memory/model.hpp"
#include "memory/rehearsal/course.hpp"

using memory::RecallState;
using memory::rehearsal::Desk;
using memory::rehearsal::find_policy;
using memory::rehearsal::first_midnight;
using memory::rehearsal::policies;
using memory::rehearsal::Policy;

namespace {

/// Six points in three families; what happened to them is told day by day.
struct Bench {
    std::vector<RecallState> states = std::vector<RecallState>(6);
    std::vector<std::uint32_t> families = {0, 0, 1, 1, 2, 2};
    std::vector<double> weights = std::vector<double>(6, 1.0);
    std::unique_ptr<Policy> policy;

    explicit Bench(std::string_view name) : policy{find_policy(name)->make()} {}

    void answer(std::size_t point, double day, bool recalled) {
        if (day == 0) static_cast<void>(scores(0));
        states[point] = memory::advance(states[point], base::after_days(first_midnight(), day), recalled ? 1.0 : 0.0,
                                        memory::Sure::fairly);
        policy->answered({point, states[point].last, recalled, false});
    }
    std::vector<double> scores(std::size_t day) {
        std::vector<double> scores(states.size(), 0.0);
        const auto now = base::after_days(first_midnight(), static_cast<double>(day));
        policy->score(
            {first_midnight(), now, base::after_days(first_midnight(), 21), day, 21, 300, 9, states, families, weights},
            scores);
        return scores;
    }
    std::size_t first(std::size_t day) {
        const auto all = scores(day);
        return static_cast<std::size_t>(std::max_element(all.begin(), all.end()) - all.begin());
    }
};

}  // namespace

TEST_CASE("policies have names of their own, and rotation is the first") {
    std::set<std::string_view> names;
    for (const auto& policy : policies()) {
        names.insert(policy.name);
        CHECK_FALSE(policy.does.empty());
        CHECK(policy.make() != nullptr);
    }
    CHECK(names.size() == policies().size());
    CHECK(policies().front().name == "rotation");
    CHECK(find_policy("no such policy") == nullptr);
}

TEST_CASE("rotation: never asked first, then longest unasked, whatever came of it") {
    Bench bench{"rotation"};
    for (std::size_t point = 0; point < 5; ++point) bench.answer(point, static_cast<double>(point), point % 2 == 0);
    CHECK(bench.first(6) == 5);
    bench.answer(5, 6, true);
    CHECK(bench.first(7) == 0);
    const auto scores = bench.scores(7);
    CHECK(std::is_sorted(scores.rbegin(), scores.rend()));
}

TEST_CASE("random: another order each day, the same for the same learner") {
    Bench bench{"random"};
    CHECK(bench.scores(1) == Bench{"random"}.scores(1));
    CHECK(bench.scores(1) != bench.scores(2));
}

TEST_CASE("massed: each family in its week, none before") {
    Bench bench{"massed"};
    for (const std::size_t week : {0, 1, 2}) {
        const auto scores = bench.scores(7 * week + 3);
        for (std::size_t point = 0; point < 6; ++point) {
            CHECK((scores[point] > 0) == (bench.families[point] <= week));
            if (bench.families[point] < week) CHECK(scores[point] < scores[2 * week]);
        }
    }
}

TEST_CASE("intensity: the likelier forgotten first, stakes by their root") {
    Bench bench{"intensity"};
    for (std::size_t point = 0; point < 6; ++point) bench.answer(point, 1, true);
    bench.answer(2, 2, true);
    bench.answer(3, 2, false);
    auto scores = bench.scores(3);
    CHECK(scores[0] > scores[2]);
    CHECK(scores[0] == doctest::Approx(scores[1]));
    bench.weights[1] = 4;
    scores = bench.scores(3);
    CHECK(scores[1] == doctest::Approx(2 * scores[0]));
}

TEST_CASE("intervals: 1, 3 and 7 days after right answers, from the start after a wrong one") {
    Bench bench{"intervals"};
    bench.answer(0, 0, true);
    CHECK(bench.scores(1)[0] > bench.scores(1)[1]);
    bench.answer(0, 1, true);
    CHECK(bench.scores(3)[0] == 0.0);
    CHECK(bench.scores(4)[0] > 0.0);
    bench.answer(0, 4, true);
    CHECK(bench.scores(10)[0] == 0.0);
    CHECK(bench.scores(11)[0] > 0.0);
    bench.answer(0, 11, false);
    CHECK(bench.scores(12)[0] > 0.0);
    CHECK(bench.scores(11)[0] == 0.0);
    CHECK(bench.scores(11)[5] > 0.0);
}

TEST_CASE("overdue: nothing before it is due, the longest due first, new points last") {
    Bench bench{"overdue"};
    // Five right answers three days apart stay above .9 for more than a day, by the shipped priors.
    for (int n = 0; n < 5; ++n) bench.answer(0, 3 * n, true);
    bench.answer(1, 12, false);
    bench.answer(2, 11, false);
    CHECK(bench.scores(13)[0] == 0.0);
    CHECK(bench.scores(13)[2] > bench.scores(13)[1]);
    CHECK(bench.scores(13)[1] > bench.scores(13)[3]);
    CHECK(bench.scores(13)[3] > 0.0);
}

TEST_CASE("the program's own rule works in a rehearsal as it does by itself") {
    Bench bench{"own"};
    CHECK(bench.scores(0)[0] > 0.0);
    bench.answer(0, 1, false);
    bench.answer(1, 2, false);
    const auto scores = bench.scores(8);
    CHECK(scores[0] == doctest::Approx(7.0));
    CHECK(scores[1] == doctest::Approx(6.0));
}

TEST_CASE("the fitted rule is the plain one until the first week is over") {
    Bench plain{"own"};
    Bench fitted{"own-fitted"};
    for (Bench* bench : {&plain, &fitted})
        for (std::size_t point = 0; point < 6; ++point) {
            static_cast<void>(bench->scores(0));
            bench->answer(point, 1, point < 3);
            bench->answer(point, 2, point < 3);
        }
    CHECK(plain.scores(6) == fitted.scores(6));
    const auto after = fitted.scores(8);
    CHECK(plain.scores(8) != after);
    // Failed twice in the unknown family against recalled twice in the known one.
    CHECK(after[5] > after[0]);
}
