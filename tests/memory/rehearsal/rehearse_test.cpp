#include "memory/rehearsal/rehearse.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "memory/rehearsal/course.hpp"

using memory::rehearsal::Estimate;
using memory::rehearsal::estimate;
using memory::rehearsal::find_policy;
using memory::rehearsal::Generator;
using memory::rehearsal::NamedPolicy;
using memory::rehearsal::Outcome;
using memory::rehearsal::Plan;
using memory::rehearsal::policies;
using memory::rehearsal::PolicyResult;
using memory::rehearsal::rehearse;
using memory::rehearsal::Told;

namespace {

Plan small(Generator generator) {
    Plan plan;
    plan.generator = generator;
    plan.crowd.learners = 5;
    plan.crowd.points = 40;
    plan.days = 12;
    plan.seconds_a_day = 120;
    plan.seed = 31;
    plan.policies = policies();
    return plan;
}

bool same(const std::vector<PolicyResult>& a, const std::vector<PolicyResult>& b) {
    if (a.size() != b.size()) return false;
    for (std::size_t n = 0; n < a.size(); ++n)
        for (std::size_t l = 0; l < a[n].learners.size(); ++l) {
            const Outcome& x = a[n].learners[l];
            const Outcome& y = b[n].learners[l];
            if (x.recall != y.recall || x.weighted_recall != y.weighted_recall || x.held != y.held ||
                x.later_recall != y.later_recall || x.asks != y.asks || x.met != y.met)
                return false;
        }
    return true;
}

/// Asks the points in a fixed order and keeps what it is told.
class Recorder final : public memory::rehearsal::Policy {
public:
    Recorder(std::vector<Told>& told, bool backwards) : told_{&told}, backwards_{backwards} {}
    void score(const memory::rehearsal::Desk&, std::span<double> scores) override {
        for (std::size_t n = 0; n < scores.size(); ++n)
            scores[n] = 1 + static_cast<double>(backwards_ ? n : scores.size() - n);
    }
    void answered(const Told& told) override { told_->push_back(told); }

private:
    std::vector<Told>* told_;
    bool backwards_;
};

std::vector<Told> recorded(Plan plan, bool backwards) {
    std::vector<Told> told;
    plan.policies = {{"recorder", "", [&] { return std::make_unique<Recorder>(told, backwards); }}};
    static_cast<void>(rehearse(plan));
    return told;
}

/// One learner for whom every point never met has this chance.
Plan level(double log_odds, std::size_t points) {
    Plan plan = small(Generator::model);
    plan.crowd.learners = 1;
    plan.crowd.points = points;
    memory::Parameters params;
    params.unseen = log_odds;
    params.base = log_odds;
    plan.standings.assign(points, {{}, params});
    plan.days = 1;
    return plan;
}

}  // namespace

TEST_CASE("a rehearsal is the same again with the same seed, and another with another") {
    for (const auto generator : {Generator::trace, Generator::pools}) {
        Plan plan = small(generator);
        const auto once = rehearse(plan);
        CHECK(same(once, rehearse(plan)));
        plan.seed = 32;
        CHECK_FALSE(same(once, rehearse(plan)));
    }
}

TEST_CASE("a rehearsal does not depend on the number of threads, nor on which policies run beside") {
    Plan plan = small(Generator::trace);
    const auto alone = rehearse(plan);
    plan.threads = 3;
    CHECK(same(alone, rehearse(plan)));
    plan.policies = {*find_policy("rotation"), *find_policy("own")};
    const auto two = rehearse(plan);
    const auto own = std::find_if(alone.begin(), alone.end(), [](const auto& one) { return one.name == "own"; });
    REQUIRE(own != alone.end());
    CHECK(same({two[1]}, {*own}));
}

TEST_CASE("the same answer comes whatever order asks for it") {
    Plan plan = level(0.0, 12);
    plan.seconds_a_day = 200;
    auto forwards = recorded(plan, false);
    auto backwards = recorded(plan, true);
    const auto asked = [](std::vector<Told> told) {
        std::erase_if(told, [](const Told& one) { return one.correction; });
        return told;
    };
    forwards = asked(forwards);
    backwards = asked(backwards);
    REQUIRE(forwards.size() >= 6);
    REQUIRE(backwards.front().point == 11);
    std::size_t both = 0;
    for (const Told& a : forwards)
        for (const Told& b : backwards)
            if (a.point == b.point) {
                ++both;
                CHECK(a.recalled == b.recalled);
            }
    CHECK(both > 0);
}

TEST_CASE("a failed point is put right after four others, and once only") {
    const auto told = recorded(level(-40.0, 12), false);
    // 25 s each in a sitting of 120 s: asks are given until their corrections would fill the rest, 10 s promised for
    // each. Four asks and 40 s promised are 140 s.
    REQUIRE(told.size() == 8);
    for (std::size_t n = 0; n < 4; ++n) {
        CHECK(told[n].point == n);
        CHECK_FALSE(told[n].correction);
        CHECK(told[4 + n].point == n);
        CHECK(told[4 + n].correction);
    }
    Plan longer = level(-40.0, 12);
    longer.seconds_a_day = 500;
    const auto more = recorded(longer, false);
    for (std::size_t n = 0; n < 5; ++n) CHECK(more[n].point == n);
    CHECK(more[5].point == 0);
    CHECK(more[5].correction);
    CHECK(more[6].point == 1);
    CHECK(more[6].correction);
    longer.corrections = false;
    for (const Told& one : recorded(longer, false)) CHECK_FALSE(one.correction);
}

TEST_CASE("a sitting gives as many asks as its time allows, and no point twice") {
    Plan plan = level(40.0, 30);
    CHECK(recorded(plan, false).size() == 12);
    plan.seconds_a_day = 10'000;
    CHECK(recorded(plan, false).size() == 30);
    plan.days = 10;
    CHECK(recorded(plan, false).size() == 300);
    plan.day_off = 0.5;
    const auto sittings = recorded(plan, false).size() / 30;
    CHECK(sittings > 0);
    CHECK(sittings < 10);
}

TEST_CASE("outcomes are what the mind says: a course without sittings leaves the start") {
    Plan plan = level(0.0, 8);
    plan.crowd.weights = {3.0, 1.0};
    for (std::size_t n = 0; n < 4; ++n) plan.standings[n].params.unseen = 2.0;
    plan.day_off = 1.0;
    plan.policies = {*find_policy("rotation")};
    const auto result = rehearse(plan).front();
    const double high = 1 / (1 + std::exp(-2.0));
    CHECK(result.recall.level.mean == doctest::Approx((0.5 + high) / 2));
    CHECK(result.later_recall.level.mean == doctest::Approx((0.5 + high) / 2));
    CHECK(result.held.level.mean == 4.0);
    CHECK(result.asks.level.mean == 0.0);
    CHECK(result.met.level.mean == 0.0);
    CHECK(result.weighted_recall.level.mean > 0.5);
    CHECK(result.weighted_recall.level.mean < high);
}

TEST_CASE("a library and a start of one's own are used as they are") {
    Plan plan = level(0.0, 4);
    plan.syllabus = memory::rehearsal::Syllabus{{0, 0, 7, 7}, {3, 1, 1, 1}, {0, 0, 0, 0}};
    plan.start = base::after_days(memory::rehearsal::first_midnight(), 200);
    plan.standings[0].state = memory::advance({}, base::after_days(plan.start, -1), 1.0, memory::Sure::fairly);
    plan.standings[0].params.base = 60;
    plan.day_off = 1.0;
    plan.policies = {*find_policy("own")};
    const auto result = rehearse(plan).front();
    CHECK(result.recall.level.mean == doctest::Approx((1.0 + 3 * 0.5) / 4));
    CHECK(result.weighted_recall.level.mean == doctest::Approx((3 * 1.0 + 3 * 0.5) / 6));
}

TEST_CASE("figures over learners: mean, standard error and paired difference") {
    // Basis: computed by hand. 1, 2, 6: mean 3, squares 4 + 1 + 9 = 14, variance 7, standard error sqrt(7 / 3).
    const Estimate three = estimate({1, 2, 6});
    CHECK(three.mean == doctest::Approx(3.0));
    CHECK(three.se == doctest::Approx(std::sqrt(7.0 / 3)));
    CHECK(estimate({4}).se == 0.0);
    Plan plan = small(Generator::pools);
    plan.policies = {*find_policy("rotation"), *find_policy("rotation"), *find_policy("random")};
    const auto results = rehearse(plan);
    CHECK(results[1].recall.over_rotation.mean == 0.0);
    CHECK(results[1].recall.over_rotation.se == 0.0);
    CHECK(results[2].recall.over_rotation.mean ==
          doctest::Approx(results[2].recall.level.mean - results[0].recall.level.mean));
}

TEST_CASE("progress is told after each learner and policy") {
    Plan plan = small(Generator::pools);
    plan.threads = 2;
    std::vector<std::size_t> told;
    static_cast<void>(rehearse(plan, [&](std::size_t done, std::size_t all) {
        CHECK(all == 5 * plan.policies.size());
        told.push_back(done);
    }));
    REQUIRE(told.size() == 5 * plan.policies.size());
    CHECK(std::is_sorted(told.begin(), told.end()));
    CHECK(told.back() == told.size());
}

TEST_CASE("the program's own order is not below rotation, in either memory, on seeds it was not chosen by") {
    Plan plan;
    plan.crowd.learners = 6;
    plan.crowd.points = 120;
    plan.crowd.share_known = 0.5;
    plan.days = 30;
    plan.seconds_a_day = 240;
    plan.seed = 90'001;
    plan.policies = {*find_policy("rotation"), *find_policy("own"), *find_policy("overdue")};
    for (const auto generator : {Generator::trace, Generator::pools})
        for (const bool by_family : {false, true})
            for (const bool stakes : {false, true}) {
                CAPTURE(by_family);
                CAPTURE(stakes);
                plan.generator = generator;
                plan.crowd.by_family = by_family;
                plan.crowd.weights = stakes ? std::vector<double>{1.5, 1.3, 1.0, 0.8} : std::vector<double>{};
                const auto results = rehearse(plan);
                const auto& own = results[1].weighted_recall;
                CHECK(own.over_rotation.mean > -own.over_rotation.se);
                if (stakes) CHECK(own.over_rotation.mean > 0);
                CHECK(own.level.mean > results[2].weighted_recall.level.mean);
            }
}
