#include "report/shop/week_json.hpp"

#include <algorithm>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "practice/shop/year.hpp"

namespace {

practice::WeekPlan some_plan(base::Seed seed) {
    base::Random random{seed};
    const auto portions = practice::portions_of(year::random_points(random, 10 + random.below(60)));
    auto what = year::plan_for(seed);
    what.weakness = year::random_weakness(random, portions);
    what.weeks = 1 + static_cast<int>(random.below(80));
    what.holidays = {{year::day(2026, 2, 1), year::day(2026, 2, 20), random.below(2) == 0 ? "shut \"for\" good" : ""}};
    const auto& article = portions.back().points.back().reference;
    if (article.article != 0) what.pins = {{year::day(2026, 1, 5), trade::to_text(article)}};
    return practice::plan_weeks(portions, what).value();
}

std::string text_of(const nlohmann::ordered_json& json) {
    return json.dump();
}

std::string fault_of(const nlohmann::ordered_json& json) {
    const auto read = report::read_week_plan(text_of(json), "plan.json");
    REQUIRE_FALSE(read);
    const auto& first = read.error().front();
    CHECK(first.file == "plan.json");
    return first.pointer + ": " + first.what;
}

}  // namespace

TEST_CASE("week json: a plan comes back as it was, so that the next one can go on from it") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        const auto plan = some_plan(seed);
        const auto read = report::read_week_plan(text_of(report::week_plan_json(plan)), "plan.json");
        REQUIRE(read);
        CHECK(*read == plan);
    }
}

TEST_CASE("week json: the members by name") {
    practice::WeekPlan plan;
    plan.as_of = year::day(2026, 1, 2);
    plan.points = 3;
    plan.in_weeks = 2;
    plan.without_week = {250};
    practice::PlannedWeek week;
    week.number = 1;
    week.day = year::day(2026, 1, 5);
    week.title = "Article 314: Boxes";
    week.articles = {314};
    week.points = {{{"box.fill"}, "Counting", "314.16(B)", content::Stakes::fire, false}};
    week.why = practice::WhyWeek::pinned;
    week.pin = "314";
    week.weight = 1.25;
    practice::PlannedWeek off;
    off.number = 2;
    off.day = year::day(2026, 1, 12);
    off.off = true;
    off.holiday = "shut";
    plan.weeks = {week, off};
    CHECK(
        text_of(report::week_plan_json(plan)) ==
        R"~({"format":"greentag-week-plan/1","as_of":"2026-01-02","points":3,"in_weeks":2,"weeks":[{"number":1,)~"
        R"~("day":"2026-01-05","title":"Article 314: Boxes","articles":[314],"why":"pinned","pin":"314",)~"
        R"~("weight":1.25,"points":[{"point":"box.fill","title":"Counting","article":"314.16(B)","stakes":"fire"}]},)~"
        R"~({"number":2,"day":"2026-01-12","off":true,"holiday":"shut"}],"left_over":[],"without_week":[250]})~");
}

TEST_CASE("week json: a talk") {
    practice::WeekTalk talk{
        "Article 314: Boxes", {{{"box.fill"}, "314.16", "Count it.", true}}, "Thinks a.", "Lock out.", 9};
    CHECK(text_of(report::week_talk_json(talk)) ==
          R"({"title":"Article 314: Boxes","say":[{"point":"box.fill","article":"314.16","says":"Count it.",)"
          R"("unverified":true}],"mistake":"Thinks a.","caution":"Lock out.","words":9})");
}

TEST_CASE("week json: what is no plan is refused with its place") {
    auto plan = report::week_plan_json(some_plan(4));
    REQUIRE(plan["weeks"].size() > 8);
    REQUIRE_FALSE(plan["weeks"][0].contains("off"));
    CHECK_FALSE(report::read_week_plan("{", "plan.json"));
    CHECK_FALSE(report::read_week_plan("[]", "plan.json"));
    auto bad = plan;
    bad["format"] = "greentag-deck/1";
    CHECK(fault_of(bad) == "/format: this is no plan of weeks that can be read here");
    bad = plan;
    bad["weeks"][0]["day"] = "next Monday";
    CHECK(fault_of(bad) == "/weeks/0/day: this is no day");
    bad = plan;
    bad["weeks"][0]["why"] = "mood";
    CHECK(fault_of(bad) == "/weeks/0/why: there is no such reason");
    bad = plan;
    bad["weeks"][0]["points"][0]["stakes"] = "honour";
    CHECK(fault_of(bad) == "/weeks/0/points/0/stakes: there are no such stakes");
    bad = plan;
    bad["weeks"][0]["number"] = 1.5;
    CHECK(fault_of(bad).starts_with("/weeks/0"));
    bad = plan;
    bad["weeks"][0]["weight"] = -1;
    CHECK(fault_of(bad) == "/weeks/0/weight: a weight is never under 0");
    bad = plan;
    std::swap(bad["weeks"][0], bad["weeks"][1]);
    CHECK(fault_of(bad) == "/weeks/1: this week does not come after the one before it");
    bad = plan;
    bad.erase("weeks");
    CHECK_FALSE(report::read_week_plan(text_of(bad), "plan.json"));
}
