#include "practice/shop/meeting_plan.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <doctest/doctest.h>

#include "content/sample.hpp"
#include "practice/shop/meetings.hpp"
#include "practice/stakes_weight.hpp"

namespace {

using content::Form;
using practice::MeetingFor;
using practice::MeetingPlan;
using practice::MeetingReason;

MeetingPlan plan(const MeetingFor& what, const content::Library& library = shipped::library()) {
    return practice::plan_meeting(library, what).value();
}

std::vector<std::string> points_of(const MeetingPlan& plan) {
    std::vector<std::string> points;
    for (const auto& one : plan.meeting.asks) points.push_back(one.ask.question.point.text);
    return points;
}

std::size_t count(const MeetingPlan& plan, MeetingReason reason) {
    return static_cast<std::size_t>(std::ranges::count(plan.meeting.asks, reason, &practice::MeetingAsk::reason));
}

bool tells(const MeetingPlan& plan, const std::string& words) {
    return std::ranges::any_of(
        plan.told, [&](const base::Fault& f) { return f.warning && f.what.find(words) != std::string::npos; });
}

/// Points of the shipped library with a verified version in 2023 and a choose question for it.
std::vector<base::PointId> choosable() {
    const auto& library = shipped::library();
    std::vector<base::PointId> ids;
    for (const auto& entry : library.index().points) {
        const auto& point = library.point(entry);
        const auto* version = point.version(trade::Edition::e2023);
        if (version == nullptr || version->unverified) continue;
        if (std::ranges::any_of(content::questions_for(point, trade::Edition::e2023),
                                [](const auto* q) { return q->form == Form::choose; }))
            ids.push_back(entry.id);
    }
    return ids;
}

/// Points are read from their files when they come up, so the folder stays until the last test has ended.
const content::Library& sample_library() {
    static const sample::Folder folder{"meeting"};
    static const content::Library library = [] {
        folder.write_sample();
        return content::open_library({folder.path()}, "").value();
    }();
    return library;
}

}  // namespace

TEST_CASE("meeting plan: whatever it is planned from, the promises hold") {
    for (base::Seed seed = 1; seed <= 150; ++seed) {
        CAPTURE(seed);
        const auto what = meetings::drawn(seed);
        const auto made = plan(what);
        const auto points = points_of(made);
        CHECK(points.size() == what.asks);
        CHECK(std::set<std::string>(points.begin(), points.end()).size() == points.size());
        std::map<Form, std::size_t> forms;
        for (const auto& one : made.meeting.asks) {
            ++forms[one.ask.question.form];
            CHECK(practice::on_paper(one.ask.question.form));
            CHECK(one.ask.edition == what.edition);
            CHECK(one.ask.version.editions.contains(what.edition));
            CHECK(one.ask.seed == seed);
            CHECK(std::ranges::is_sorted(one.ask.options, std::ranges::greater{}, &content::Option::right));
            for (const auto& option : one.ask.options)
                if (!option.right) CHECK(one.ask.mistakes.contains(option.mistake));
            for (const auto& before : what.recent) CHECK(before.point != one.ask.question.point);
        }
        CHECK(forms[Form::choose_all] <= what.most_choose_all);
        CHECK(forms[Form::number] <= what.most_numbers);
    }
}

TEST_CASE("meeting plan: the same seed gives the same meeting, another seed another") {
    std::set<base::Id128> ids;
    for (base::Seed seed = 1; seed <= 20; ++seed) {
        auto what = meetings::drawn(7);
        what.seed = seed;
        const auto once = plan(what);
        const auto twice = plan(what);
        CHECK(points_of(once) == points_of(twice));
        CHECK(once.meeting.id == twice.meeting.id);
        ids.insert(once.meeting.id);
    }
    CHECK(ids.size() == 20);
}

TEST_CASE("meeting plan: each source has its share, and what it does not use goes to the week") {
    const auto ids = choosable();
    REQUIRE(ids.size() > 60);
    MeetingFor what;
    what.seed = 3;
    for (std::size_t i = 0; i < 10; ++i) {
        what.sure_and_wrong.push_back({ids[i], 1.0});
        what.corrections.push_back({ids[10 + i], 1.0});
        what.jobs.push_back(ids[20 + i]);
        what.week.push_back(ids[30 + i]);
    }
    const auto full = plan(what);
    CHECK(count(full, MeetingReason::sure_and_wrong) == 3);
    CHECK(count(full, MeetingReason::correction) == 3);
    CHECK(count(full, MeetingReason::job) == 2);
    CHECK(count(full, MeetingReason::week) == 2);
    what.corrections.clear();
    what.sure_and_wrong.resize(1);
    const auto calm = plan(what);
    CHECK(count(calm, MeetingReason::sure_and_wrong) == 1);
    CHECK(count(calm, MeetingReason::week) == 7);
    what.week.clear();
    const auto lean = plan(what);
    CHECK(count(lean, MeetingReason::job) == 9);
    CHECK(count(lean, MeetingReason::rotation) == 0);
    what.jobs.resize(1);
    CHECK(count(plan(what), MeetingReason::rotation) == 8);
}

TEST_CASE("meeting plan: sure and wrong comes by weight times stakes") {
    const auto ids = choosable();
    for (base::Seed seed = 1; seed <= 20; ++seed) {
        base::Random random{seed};
        MeetingFor what;
        what.seed = seed;
        std::vector<std::pair<double, std::string>> ranked;
        for (std::size_t i = 0; i < 12; ++i) {
            const auto& id = ids[i * 3 + static_cast<std::size_t>(random.below(3))];
            const double weight = 1.0 + 5.0 * random.unit();
            what.sure_and_wrong.push_back({id, weight});
            ranked.emplace_back(weight * practice::stakes_weight(shipped::library().find(id)->stakes), id.text);
        }
        for (std::size_t i = 40; i < 60; ++i) what.week.push_back(ids[i]);
        std::ranges::sort(ranked, std::ranges::greater{});
        const auto points = points_of(plan(what));
        for (std::size_t i = 0; i < 3; ++i) CHECK(std::ranges::count(points, ranked[i].second) == 1);
        for (std::size_t i = 3; i < ranked.size(); ++i) CHECK(std::ranges::count(points, ranked[i].second) == 0);
    }
}

TEST_CASE("meeting plan: a point in several lists comes once, for the most urgent reason") {
    const auto ids = choosable();
    MeetingFor what;
    what.week = what.jobs = {ids[0], ids[0]};
    what.sure_and_wrong = what.corrections = {{ids[0], 1.0}};
    const auto made = plan(what);
    CHECK(std::ranges::count(points_of(made), ids[0].text) == 1);
    CHECK(count(made, MeetingReason::sure_and_wrong) == 1);
}

TEST_CASE("meeting plan: too little to ask is told, and what there is is offered") {
    MeetingFor what;
    what.edition = trade::Edition::e2020;
    const auto made = plan(what, sample_library());
    CHECK(points_of(made).size() == 2);
    CHECK(tells(made, "only 2 of 10 asks"));
}

TEST_CASE("meeting plan: what was asked lately comes only when nothing else is left, as another question") {
    MeetingFor what;
    what.edition = trade::Edition::e2020;
    what.week = {{"box.accessible"}};
    for (base::Seed seed = 1; seed <= 20; ++seed) {
        what.seed = seed;
        what.recent = {{{"box.accessible"}, {"box.accessible#a"}}};
        const auto made = plan(what, sample_library());
        std::set<std::string> asked;
        for (const auto& one : made.meeting.asks) asked.insert(one.ask.id.text);
        CHECK(asked.contains("box.accessible#b"));
        what.recent = {{{"box.accessible"}, {"box.accessible#b"}}};
        asked.clear();
        for (const auto& one : plan(what, sample_library()).meeting.asks) asked.insert(one.ask.id.text);
        CHECK(asked.contains("box.accessible#a"));
    }
}

TEST_CASE("meeting plan: points that cannot be asked, or that nobody has verified, are told once") {
    MeetingFor what;
    what.edition = trade::Edition::e2017;
    what.week = {{"no.such"}, {"no.such"}, {"box.volume"}};
    auto made = plan(what, sample_library());
    CHECK(tells(made, "no.such: there is no such point"));
    CHECK(tells(made, "box.volume: says nothing for the 2017 edition"));
    CHECK(made.told.size() == 3);  // and too few asks
    what.week.clear();
    what.edition = trade::Edition::e2026;
    made = plan(what, sample_library());
    CHECK(tells(made, "box.accessible: nobody has verified"));
    CHECK(std::ranges::count(points_of(made), "box.accessible") == 1);
}

TEST_CASE("meeting plan: the number of asks is 8 to 12") {
    MeetingFor what;
    for (const std::size_t asks : {0U, 7U, 13U, 1000U}) {
        what.asks = asks;
        const auto made = practice::plan_meeting(shipped::library(), what);
        REQUIRE_FALSE(made.has_value());
        CHECK(made.error().front().mend.find("8 to 12") != std::string::npos);
    }
    for (const std::size_t asks : {8U, 12U}) {
        what.asks = asks;
        CHECK(points_of(plan(what)).size() == asks);
    }
}
