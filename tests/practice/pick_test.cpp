#include "practice/pick.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <doctest/doctest.h>

namespace {

using base::Instant;
using base::Random;
using content::PointEntry;
using content::Stakes;
using memory::RecallState;
using memory::Sure;
using practice::Choice;
using practice::Picker;
using practice::PickFor;
using practice::Reason;

const Instant kNow = base::from_milliseconds(1'767'225'600'000);
constexpr double kHour = 1.0 / 24;

PointEntry entry(const std::string& id, const std::string& topic = "t", Stakes stakes = Stakes::inspection) {
    PointEntry point;
    point.id.text = id;
    point.topic = topic;
    point.stakes = stakes;
    point.editions = content::EditionSet{15};
    return point;
}

/// Points p.000, p.001, ... of one topic and the same stakes.
content::Index plain_index(std::size_t count) {
    content::Index index;
    for (std::size_t i = 0; i < count; ++i) index.points.push_back(entry("p." + std::to_string(100 + i)));
    return index;
}

/// A state that was right `times` times a week apart, the last time `days` ago.
RecallState known(double days, int times = 1, double mark = 1.0, Sure sure = Sure::fairly) {
    RecallState state;
    for (int i = times - 1; i >= 0; --i)
        state = memory::advance(state, base::after_days(kNow, -days - 7.0 * i), 1.0, sure);
    if (mark < 1.0) state = memory::advance(RecallState{}, base::after_days(kNow, -days), mark, sure);
    return state;
}

PickFor what_for(base::Seed seed = 1) {
    PickFor what;
    what.horizon = base::after_days(kNow, 90);
    what.joined = base::after_days(kNow, -30);
    what.seed = seed;
    return what;
}

/// A library of a few topics, with needs that point backwards and points outside the edition.
content::Index random_index(Random& random) {
    content::Index index;
    const auto count = 5 + random.below(40);
    for (std::uint64_t i = 0; i < count; ++i) {
        PointEntry point = entry("p." + std::to_string(100 + i), "topic" + std::to_string(random.below(4)),
                                 static_cast<Stakes>(random.below(4)));
        if (random.below(8) == 0) point.editions = content::EditionSet{1};
        if (i > 0 && random.below(3) == 0) point.needs.push_back(index.points[random.below(i)].id);
        index.points.push_back(std::move(point));
    }
    return index;
}

store::RecallStates random_states(Random& random, const content::Index& index) {
    store::RecallStates states;
    for (const auto& point : index.points)
        if (random.below(2) == 0)
            states[point.id] = known(random.unit() * 30, 1 + static_cast<int>(random.below(4)),
                                     random.below(3) == 0 ? 0.0 : 1.0, static_cast<Sure>(random.below(3)));
    return states;
}

/// One learner over some days, answering at random; everything chosen, in order.
struct Walk {
    explicit Walk(base::Seed seed) : random{seed}, index{random_index(random)}, states{random_states(random, index)} {
        picker.emplace(index, states, what_for(seed));
    }

    /// Chooses, lets `see` look at the choice, and answers it.
    template <class See>
    void run(int asks, See see) {
        for (int i = 0; i < asks; ++i) {
            const auto choice = picker->next(now);
            if (choice) {
                see(*choice);
                answer(*choice);
            }
            now = base::after_days(now, random.below(10) == 0 ? random.unit() * 2 : 30.0 / 86'400);
        }
    }

    void answer(const Choice& choice) {
        const double mark = random.below(3) == 0 ? 0.0 : 1.0;
        const auto after =
            memory::advance(picker->state(choice.point->id), now, mark, static_cast<Sure>(random.below(3)));
        picker->answered(*choice.point, after, choice.reason == Reason::correction);
    }

    Random random;
    content::Index index;
    store::RecallStates states;
    std::optional<Picker> picker;
    Instant now = kNow;
};

constexpr base::Seed kWalks = 150;

std::vector<std::string> first_choices(base::Seed seed) {
    Walk walk{seed};
    std::vector<std::string> ids;
    walk.run(60, [&](const Choice& c) { ids.push_back(c.point->id.text + std::string{practice::to_text(c.reason)}); });
    return ids;
}

/// Takes `count` choices, each answered right half a minute after the one before.
std::vector<Choice> take(Picker& picker, std::size_t count, double mark = 1.0) {
    std::vector<Choice> taken;
    for (Instant now = kNow; taken.size() < count; now = base::after_days(now, 30.0 / 86'400)) {
        const auto choice = picker.next(now);
        if (!choice) break;
        taken.push_back(*choice);
        picker.answered(*choice->point, memory::advance(picker.state(choice->point->id), now, mark, Sure::fairly),
                        choice->reason == Reason::correction);
    }
    return taken;
}

std::vector<std::string> ids_of(const std::vector<Choice>& choices) {
    std::vector<std::string> ids;
    for (const auto& choice : choices) ids.push_back(choice.point->id.text);
    return ids;
}

content::ScenarioEntry call_of(const std::string& id, const std::vector<std::string>& points) {
    content::ScenarioEntry call;
    call.id = id;
    call.editions = content::EditionSet{15};
    for (const auto& point : points) call.points.push_back({point});
    return call;
}

}  // namespace

TEST_CASE("pick: property: no point comes twice within four hours, except as a correction") {
    for (base::Seed seed = 1; seed <= kWalks; ++seed) {
        Walk walk{seed};
        walk.run(120, [&](const Choice& choice) {
            const auto& state = walk.picker->state(choice.point->id);
            const bool rested = state.answers() == 0 || base::days_between(state.last, walk.now) >= 4 * kHour;
            CHECK_MESSAGE((rested || choice.reason == Reason::correction), "seed ", seed);
        });
    }
}

TEST_CASE("pick: property: a new point comes only when the points it needs have been met") {
    int with_needs = 0;
    for (base::Seed seed = 1; seed <= kWalks; ++seed) {
        Walk walk{seed};
        walk.run(120, [&](const Choice& choice) {
            if (choice.reason != Reason::fresh) return;
            for (const auto& need : choice.point->needs) {
                const auto scope = walk.picker->in_scope();
                const bool held = std::ranges::any_of(scope, [&](const auto* p) { return p->id == need; });
                with_needs += held ? 1 : 0;
                CHECK_MESSAGE((!held || walk.picker->state(need).answers() > 0), "seed ", seed);
            }
        });
    }
    CHECK(with_needs > 100);
}

TEST_CASE("pick: property: only points of the edition come, and each for a reason that fits it") {
    for (base::Seed seed = 1; seed <= kWalks; ++seed) {
        Walk walk{seed};
        walk.run(100, [&](const Choice& choice) {
            CAPTURE(seed);
            const auto& state = walk.picker->state(choice.point->id);
            CHECK(choice.point->editions.contains(trade::Edition::e2023));
            CHECK((choice.reason == Reason::fresh) == (state.answers() == 0));
            if (choice.reason == Reason::urgent) CHECK(state.watch > 0);
            if (choice.reason == Reason::correction) CHECK(state.last_mark < memory::kRecalledFrom);
        });
    }
}

TEST_CASE("pick: property: the same library, states, seed and moments give the same choices") {
    std::set<std::vector<std::string>> different;
    for (base::Seed seed = 1; seed <= 50; ++seed) {
        CHECK_MESSAGE(first_choices(seed) == first_choices(seed), "seed ", seed);
        different.insert(first_choices(seed));
    }
    CHECK(different.size() == 50);
}

TEST_CASE("pick: property: sooner or later every point in scope is asked") {
    for (base::Seed seed = 1; seed <= 50; ++seed) {
        Walk walk{seed};
        std::set<const PointEntry*> asked;
        walk.run(600, [&](const Choice& choice) { asked.insert(choice.point); });
        CHECK_MESSAGE(asked.size() == walk.picker->in_scope().size(), "seed ", seed);
    }
}

TEST_CASE("pick: a point that someone was sure and wrong about comes first the next day, not the same evening") {
    const auto index = plain_index(10);
    const PointEntry& missed = index.points[6];
    Picker picker{index, {{missed.id, known(0, 1, 0.0, Sure::sure)}}, what_for()};
    CHECK(picker.next(base::after_days(kNow, 10 * kHour))->reason == Reason::fresh);
    const auto choice = picker.next(base::after_days(kNow, 11 * kHour));
    CHECK(choice->reason == Reason::urgent);
    CHECK(choice->point == &missed);
}

TEST_CASE("pick: after a right answer such a point comes first once more, three days on") {
    const auto index = plain_index(10);
    auto state = memory::advance(known(1, 1, 0.0, Sure::sure), kNow, 1.0, Sure::fairly);
    REQUIRE(state.watch == 1);
    Picker picker{index, {{index.points[6].id, state}}, what_for()};
    CHECK(picker.next(base::after_days(kNow, 2.9))->reason == Reason::fresh);
    CHECK(picker.next(base::after_days(kNow, 3.0))->reason == Reason::urgent);
}

TEST_CASE("pick: new points come before all that was asked within twenty days, as long as there is time for them") {
    const auto index = plain_index(40);
    store::RecallStates states;
    for (std::size_t i = 0; i < 20; ++i) states[index.points[i].id] = known(i < 5 ? 40 : 5, 1, 0.0);
    Picker picker{index, states, what_for()};
    const auto taken = take(picker, 40);
    REQUIRE(taken.size() == 40);
    for (std::size_t i = 0; i < taken.size(); ++i)
        CHECK(taken[i].reason == (i >= 5 && i < 25 ? Reason::fresh : Reason::rotation));
}

TEST_CASE("pick: no new point is begun when too few asks are left to make it last") {
    const auto index = plain_index(40);
    store::RecallStates states;
    for (std::size_t i = 0; i < 20; ++i) states[index.points[i].id] = known(5, 1, 0.0);
    PickFor what = what_for();
    what.horizon = base::after_days(kNow, 1);
    Picker picker{index, states, what};
    const auto taken = take(picker, 40);
    for (std::size_t i = 0; i < 20; ++i) CHECK(taken[i].reason == Reason::rotation);
    CHECK(taken[20].reason == Reason::fresh);  // nothing else is left
}

TEST_CASE("pick: without new points the rotation alone goes on, without known ones the new") {
    const auto index = plain_index(6);
    store::RecallStates all;
    for (const auto& point : index.points) all[point.id] = known(5);
    Picker known_only{index, all, what_for()};
    for (const auto& choice : take(known_only, 6)) CHECK(choice.reason == Reason::rotation);
    Picker new_only{index, {}, what_for()};
    for (const auto& choice : take(new_only, 6)) CHECK(choice.reason == Reason::fresh);
    CHECK_FALSE(new_only.next(base::after_days(kNow, kHour)).has_value());
}

TEST_CASE("pick: at equal stakes the rotation goes longest unasked first") {
    const auto index = plain_index(12);
    store::RecallStates states;
    std::map<double, std::string> by_idle;
    Random random{4};
    for (const auto& point : index.points) {
        const double days = 1 + 20 * random.unit();
        states[point.id] = known(days);
        by_idle[-days] = point.id.text;
    }
    std::vector<std::string> expected;
    for (const auto& [idle, id] : by_idle) expected.push_back(id);
    Picker picker{index, states, what_for()};
    CHECK(ids_of(take(picker, 12)) == expected);
}

TEST_CASE("pick: waiting weighs more where more is at stake") {
    content::Index index;
    index.points = {entry("a.paper", "t", Stakes::paperwork), entry("b.check", "t", Stakes::inspection),
                    entry("c.fire", "t", Stakes::fire), entry("d.shock", "t", Stakes::shock)};
    store::RecallStates states;
    for (const auto& point : index.points) states[point.id] = known(5);
    Picker picker{index, states, what_for()};
    CHECK(ids_of(take(picker, 4)) == std::vector<std::string>{"d.shock", "c.fire", "b.check", "a.paper"});
}

TEST_CASE("pick: once something is fitted, a point that will last until the horizon steps back") {
    const auto index = plain_index(2);
    const RecallState firm = known(6, 40);
    const RecallState failed = known(6, 1, 0.0);
    RecallState weak = known(4, 1, 0.0);
    PickFor what = what_for();
    what.recall = practice::Recall{{{"point", {}, index.points[0].id.text, 3.0}}, {}};
    REQUIRE(memory::recall_probability(firm, what.horizon, what.recall.of(index.points[0])) > 0.9);
    Picker picker{index, {{index.points[0].id, firm}, {index.points[1].id, weak}}, what};
    CHECK(picker.next(kNow)->point == &index.points[1]);
    Picker even{index, {{index.points[0].id, failed}, {index.points[1].id, weak}}, what_for()};
    CHECK(even.next(kNow)->point == &index.points[0]);
}

TEST_CASE("pick: points that need one another are kept apart while others are worth about as much") {
    content::Index index;
    store::RecallStates states;
    for (int i = 0; i < 10; ++i) {
        index.points.push_back(entry("p." + std::to_string(100 + i), "topic" + std::to_string(i)));
        states[index.points.back().id] = known(10 - 0.1 * i, 1, 0.0);
    }
    index.points[1].needs = {index.points[0].id};
    Picker picker{index, states, what_for()};
    const auto taken = take(picker, 10);
    REQUIRE(taken.size() == 10);
    CHECK(taken[0].point == &index.points[0]);
    for (std::size_t i = 1; i < 5; ++i) CHECK(taken[i].point != &index.points[1]);
    CHECK(taken[5].point == &index.points[1]);
}

TEST_CASE("pick: neighbouring asks come from different topics while another has waited about as long") {
    content::Index index;
    store::RecallStates states;
    for (int i = 0; i < 30; ++i) {
        index.points.push_back(entry("p." + std::to_string(100 + i), i < 15 ? "boxes" : "switches"));
        states[index.points.back().id] = known(10 + 0.1 * i);
    }
    Picker picker{index, states, what_for()};
    const auto taken = take(picker, 30);
    REQUIRE(taken.size() == 30);
    for (std::size_t i = 1; i < taken.size(); ++i) CHECK(taken[i].point->topic != taken[i - 1].point->topic);
}

TEST_CASE("pick: a topic is not changed for a point that has hardly waited") {
    content::Index index;
    index.points = {entry("a.one", "boxes"), entry("a.two", "boxes"), entry("b.one", "switches")};
    Picker picker{index, {{{"a.one"}, known(20)}, {{"a.two"}, known(19)}, {{"b.one"}, known(2)}}, what_for()};
    CHECK(ids_of(take(picker, 3)) == std::vector<std::string>{"a.one", "a.two", "b.one"});
}

TEST_CASE("pick: a wrong answer comes again after four others, once") {
    const auto index = plain_index(20);
    Picker picker{index, {}, what_for()};
    const auto first = take(picker, 1, 0.0).at(0);
    std::vector<Choice> rest = take(picker, 12);
    REQUIRE(rest.size() == 12);
    CHECK(rest[4].point == first.point);
    CHECK(rest[4].reason == Reason::correction);
    CHECK(std::ranges::count_if(rest, [](const Choice& c) { return c.reason == Reason::correction; }) == 1);
    CHECK(picker.corrections_left() == 0);
}

TEST_CASE("pick: a correction that fails again is left for another day") {
    const auto index = plain_index(1);
    Picker picker{index, {}, what_for()};
    const auto taken = take(picker, 10, 0.0);
    REQUIRE(taken.size() == 2);
    CHECK(taken[1].reason == Reason::correction);
}

TEST_CASE("pick: what was passed over rests for the session, as a call and as a correction too") {
    auto index = plain_index(4);
    index.scenarios = {call_of("call.a", {"p.100", "p.101", "p.102"})};
    Picker picker{index, {}, what_for()};
    REQUIRE(picker.call(kNow).has_value());
    take(picker, 1, 0.0);
    for (const auto& point : index.points) picker.passed_over(point);
    CHECK_FALSE(picker.next(base::after_days(kNow, 3)).has_value());
    CHECK_FALSE(picker.call(base::after_days(kNow, 3)).has_value());
    CHECK_FALSE(picker.correction_left().has_value());
}

TEST_CASE("pick: a clock set back does not lock points away") {
    const auto index = plain_index(3);
    store::RecallStates states;
    for (const auto& point : index.points) states[point.id] = known(-400);
    Picker picker{index, states, what_for()};
    CHECK(take(picker, 10).size() == 3);
}

TEST_CASE("pick: a clock that steps back a little does not bring a point at once again") {
    const auto index = plain_index(1);
    Picker picker{index, {{index.points[0].id, known(0)}}, what_for()};
    for (const double hours : {0.001, 0.5, 3.9})
        CHECK_FALSE(picker.next(base::after_days(kNow, -hours * kHour)).has_value());
}

TEST_CASE("pick: filters and editions bound the scope") {
    content::Index index;
    index.points = {entry("a.one", "boxes"), entry("b.one", "switches"), entry("c.one", "boxes")};
    index.points[2].editions = content::EditionSet{1};
    index.points[1].tags = {"rough-in", "trim"};
    const auto scope = [&](std::vector<std::string> topics, std::vector<std::string> tags) {
        PickFor what = what_for();
        what.filter = {std::move(topics), std::move(tags), {}};
        std::vector<std::string> ids;
        for (const auto* point : Picker{index, {}, what}.in_scope()) ids.push_back(point->id.text);
        return ids;
    };
    CHECK(scope({}, {}) == std::vector<std::string>{"a.one", "b.one"});
    CHECK(scope({"boxes"}, {}) == std::vector<std::string>{"a.one"});
    CHECK(scope({}, {"trim", "other"}) == std::vector<std::string>{"b.one"});
    CHECK(scope({"boxes"}, {"trim"}).empty());
}

TEST_CASE("pick: a need outside the scope does not hold a point back") {
    content::Index index;
    index.points = {entry("a.one", "boxes"), entry("b.one", "switches")};
    index.points[1].needs = {{"a.one"}, {"z.gone"}};
    PickFor what = what_for();
    what.filter.topics = {"switches"};
    Picker picker{index, {}, what};
    CHECK(picker.next(kNow)->point == &index.points[1]);
}

TEST_CASE("pick: the call whose points have waited longest comes, if none of them was just asked") {
    auto index = plain_index(9);
    index.scenarios = {call_of("call.a", {"p.100", "p.101", "p.102"}), call_of("call.b", {"p.103", "p.104", "p.105"}),
                       call_of("call.c", {"p.106", "p.107"})};
    store::RecallStates states;
    for (std::size_t i = 0; i < 9; ++i) states[index.points[i].id] = known(i < 3 ? 3 : 20);
    CHECK(Picker{index, states, what_for()}.call(kNow)->call->id == "call.b");
    states[{"p.104"}] = known(3 * kHour);
    CHECK(Picker{index, states, what_for()}.call(kNow)->call->id == "call.a");
    states[{"p.101"}] = known(3 * kHour);
    CHECK_FALSE(Picker(index, states, what_for()).call(kNow).has_value());
}

TEST_CASE("pick: calls outside the edition or the filter do not come") {
    auto index = plain_index(3);
    index.scenarios = {call_of("call.a", {"p.100", "p.101", "p.102"})};
    PickFor what = what_for();
    what.filter.topics = {"other"};
    CHECK_FALSE(Picker(index, {}, what).call(kNow).has_value());
    index.scenarios[0].editions = content::EditionSet{1};
    CHECK_FALSE(Picker(index, {}, what_for()).call(kNow).has_value());
}

TEST_CASE("pick: the standing counts points by how they stand") {
    const auto index = plain_index(6);
    store::RecallStates states = {{index.points[0].id, known(60)},
                                  {index.points[1].id, known(2, 1, 0.0, Sure::sure)},
                                  {index.points[2].id, known(0, 60)}};
    const auto standing = Picker{index, states, what_for()}.standing(kNow);
    CHECK(standing.in_scope == 6);
    CHECK(standing.fresh == 3);
    CHECK(standing.due == 2);
    CHECK(standing.urgent == 1);
}

TEST_CASE("pick: the latest answer is the latest of all, out of scope as well") {
    const auto index = plain_index(2);
    CHECK_FALSE(Picker(index, {}, what_for()).latest().has_value());
    const Picker picker{index, {{{"p.100"}, known(5)}, {{"z.gone"}, known(2)}}, what_for()};
    CHECK(picker.latest() == base::after_days(kNow, -2));
}

TEST_CASE("pick: a point falls due when recall meets the target of its stakes") {
    const RecallState state = known(0, 10);
    const auto fire = entry("p.fire", "t", Stakes::fire);
    const auto shock = entry("p.shock", "t", Stakes::shock);
    CHECK_FALSE(practice::due_at(RecallState{}, fire, what_for()).has_value());
    const auto due = practice::due_at(state, fire, what_for()).value();
    CHECK(memory::recall_probability(state, due, {}) == doctest::Approx(0.90).epsilon(1e-4));
    CHECK(practice::due_at(state, shock, what_for()).value() <= due);
}
