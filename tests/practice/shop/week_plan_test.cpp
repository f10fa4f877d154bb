#include "practice/shop/week_plan.hpp"

#include <algorithm>
#include <limits>
#include <set>

#include <doctest/doctest.h>

#include "practice/shop/year.hpp"

namespace {

using practice::PlannedWeek;
using practice::Portion;
using practice::WeekPlan;
using practice::WeekPlanFor;
using practice::WhyWeek;
using std::chrono::days;
using std::chrono::sys_days;
using year::day;

/// Ten articles of ten points each: as many portions.
std::vector<Portion> ten() {
    std::vector<practice::WeekPoint> points;
    for (int n = 0; n < 10; ++n) year::add_article(points, 300 + 10 * n, 10, "topic" + std::to_string(n));
    return practice::portions_of(points);
}

std::vector<Portion> random_portions(base::Random& random) {
    return practice::portions_of(year::random_points(random, 20 + random.below(50)));
}

WeekPlan planned(const std::vector<Portion>& portions, const WeekPlanFor& what) {
    auto plan = practice::plan_weeks(portions, what);
    REQUIRE(plan);
    return *plan;
}

std::vector<std::string> titles(const WeekPlan& plan) {
    std::vector<std::string> list;
    for (const auto& week : plan.weeks) list.push_back(week.title);
    return list;
}

std::string only_fault(const std::vector<Portion>& portions, const WeekPlanFor& what) {
    const auto plan = practice::plan_weeks(portions, what);
    REQUIRE_FALSE(plan);
    REQUIRE(plan.error().size() == 1);
    CHECK_FALSE(plan.error()[0].mend.empty());
    return plan.error()[0].what;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::set<int> articles_of(const std::vector<Portion>& portions) {
    std::set<int> articles;
    for (const auto& portion : portions) articles.insert(portion.articles.begin(), portion.articles.end());
    return articles;
}

std::set<int> articles_of(const WeekPlan& plan) {
    std::set<int> articles;
    for (const auto& week : plan.weeks) articles.insert(week.articles.begin(), week.articles.end());
    return articles;
}

bool share(const PlannedWeek& a, const PlannedWeek& b) {
    return std::find_first_of(a.articles.begin(), a.articles.end(), b.articles.begin(), b.articles.end()) !=
           a.articles.end();
}

std::size_t clashes(const WeekPlan& plan) {
    std::size_t count = 0;
    const PlannedWeek* last = nullptr;
    for (const auto& week : plan.weeks) {
        if (week.off) continue;
        if (last != nullptr && share(*last, week)) ++count;
        last = &week;
    }
    return count;
}

/// What any plan has to hold.
void check_plan(const WeekPlan& plan, const std::vector<Portion>& portions, const WeekPlanFor& what) {
    REQUIRE(plan.weeks.size() == static_cast<std::size_t>(what.weeks));
    std::set<base::PointId> met;
    for (std::size_t n = 0; n < plan.weeks.size(); ++n) {
        const auto& week = plan.weeks[n];
        CHECK(week.number == static_cast<int>(n) + 1);
        CHECK(std::chrono::weekday{week.day} == what.meets);
        if (n > 0) CHECK(week.day == plan.weeks[n - 1].day + days{7});
        const bool off = std::any_of(what.holidays.begin(), what.holidays.end(), [&week](const auto& holiday) {
            return holiday.from <= week.day && week.day <= holiday.to;
        });
        CHECK(week.off == off);
        CHECK(week.points.empty() == off);
        for (const auto& point : week.points) met.insert(point.id);
    }
    std::size_t points = 0;
    for (const auto& portion : portions) points += portion.points.size();
    CHECK(plan.points == points);
    CHECK(plan.in_weeks == met.size());
    std::size_t left = 0;
    for (const auto& one : plan.left_over) {
        left += one.points.size();
        for (const auto& point : one.points) CHECK(met.count(point.id) == 0);
    }
    CHECK(plan.in_weeks + left == points);
}

}  // namespace

TEST_CASE("week plan: days follow the weekday of the meeting, from the first on or after the start") {
    auto what = year::plan_for();
    what.weeks = 3;
    what.start = day(2026, 12, 24);  // a Thursday
    what.meets = std::chrono::Tuesday;
    const auto plan = planned(ten(), what);
    CHECK(plan.weeks[0].day == day(2026, 12, 29));
    CHECK(plan.weeks[2].day == day(2027, 1, 12));
    what.meets = std::chrono::Thursday;
    CHECK(planned(ten(), what).weeks[0].day == day(2026, 12, 24));
    CHECK(practice::monday_of(day(2026, 11, 29)) == day(2026, 11, 23));  // a Sunday
    CHECK(practice::monday_of(day(2026, 11, 23)) == day(2026, 11, 23));
}

TEST_CASE("week plan: every article once, then again when weeks are left") {
    auto what = year::plan_for();
    what.weeks = 25;
    const auto plan = planned(ten(), what);
    CHECK(plan.left_over.empty());
    CHECK(plan.without_week.empty());
    for (std::size_t n = 0; n < 25; ++n) CHECK(plan.weeks[n].again == (n >= 10));
    const auto names = titles(plan);
    CHECK(std::set<std::string>(names.begin(), names.begin() + 10).size() == 10);
    CHECK(std::set<std::string>(names.begin() + 10, names.begin() + 20).size() == 10);
}

TEST_CASE("week plan: stakes, weakness and the outline bring an article forward, and say so") {
    std::vector<practice::WeekPoint> points;
    for (int n = 0; n < 12; ++n) year::add_article(points, 300 + 10 * n, 10, "topic" + std::to_string(n));
    auto what = year::plan_for();
    for (auto& point : points) {
        if (point.reference.article == 350) point.stakes = content::Stakes::shock;
        if (point.reference.article == 370) point.outline = 1.3;
        what.weakness[point.id] = point.reference.article == 390 ? 1.0 : 0.3;
    }
    const auto plan = planned(practice::portions_of(points), what);
    // 1 + 2 * 1 against 1.6 everywhere else; then 1.5 times, then 1.3 times.
    CHECK(plan.weeks[0].articles == std::vector<int>{390});
    CHECK(plan.weeks[0].why == WhyWeek::weak);
    CHECK(plan.weeks[1].articles == std::vector<int>{350});
    CHECK(plan.weeks[1].why == WhyWeek::stakes);
    CHECK(plan.weeks[2].articles == std::vector<int>{370});
    CHECK(plan.weeks[2].why == WhyWeek::outline);
    CHECK(plan.weeks[3].why == WhyWeek::turn);
}

TEST_CASE("week plan: too few weeks leave portions over, articles that find none are named") {
    auto what = year::plan_for();
    what.weeks = 7;
    const auto plan = planned(ten(), what);
    CHECK(plan.left_over.size() == 3);
    CHECK(plan.without_week.size() == 3);
    CHECK(plan.in_weeks == 70);
}

TEST_CASE("week plan: an article of several portions gets one week before another gets its second") {
    std::vector<practice::WeekPoint> points;
    year::add_article(points, 250, 60, "grounding", content::Stakes::shock);
    year::add_article(points, 800, 10, "special-places", content::Stakes::paperwork);
    auto what = year::plan_for();
    what.weeks = 3;
    const auto plan = planned(practice::portions_of(points), what);
    CHECK(plan.without_week.empty());
    CHECK(plan.weeks[1].articles == std::vector<int>{800});  // so that 250 is not on twice in a row
    CHECK(clashes(plan) == 0);
}

TEST_CASE("week plan: holidays take no article, and neighbours are told across them") {
    auto what = year::plan_for();
    what.weeks = 12;
    what.holidays = {{day(2026, 1, 19), day(2026, 1, 19), "Founder's day"},
                     {day(2026, 2, 8), day(2026, 2, 17), ""},
                     {day(2026, 3, 3), day(2026, 3, 8), "no Monday in it"}};
    const auto plan = planned(ten(), what);
    check_plan(plan, ten(), what);
    CHECK(plan.weeks[2].off);
    CHECK(plan.weeks[2].holiday == "Founder's day");
    CHECK(plan.weeks[5].off);
    CHECK(plan.weeks[6].off);
    CHECK_FALSE(plan.weeks[8].off);
    CHECK(plan.without_week.size() == 1);
    CHECK(plan.next(day(2026, 1, 13))->day == day(2026, 1, 26));
    CHECK(plan.next(day(2026, 1, 26))->day == day(2026, 1, 26));
    CHECK(plan.next(day(2026, 3, 24)) == nullptr);
}

TEST_CASE("week plan: pins are kept") {
    std::vector<practice::WeekPoint> points;
    year::add_article(points, 210, 40);
    year::add_article(points, 250, 40, "grounding", content::Stakes::paperwork);
    auto what = year::plan_for();
    what.weeks = 10;
    what.pins = {{day(2026, 1, 11), "250"}, {day(2026, 2, 4), "Article 250"}, {day(2026, 3, 2), "210.9"}};
    const auto plan = planned(practice::portions_of(points), what);
    CHECK(plan.weeks[0].why == WhyWeek::pinned);
    CHECK(plan.weeks[0].pin == "250");
    CHECK(plan.weeks[0].articles == std::vector<int>{250});
    CHECK(plan.weeks[4].articles == std::vector<int>{250});
    CHECK(plan.weeks[4].title != plan.weeks[0].title);
    const auto& section = plan.weeks[8].points;
    CHECK(std::any_of(section.begin(), section.end(), [](const auto& point) { return has(point.article, "210.9("); }));
}

TEST_CASE("week plan: an article pinned more often than it has portions comes again") {
    auto what = year::plan_for();
    what.weeks = 12;
    what.pins = {{day(2026, 1, 5), "310"}, {day(2026, 1, 19), "310"}};
    const auto plan = planned(ten(), what);
    CHECK_FALSE(plan.weeks[0].again);
    CHECK(plan.weeks[2].again);
    CHECK(plan.without_week.empty());
}

TEST_CASE("week plan: pins that cannot be kept are refused, each with its fault") {
    auto what = year::plan_for();
    what.holidays = {{day(2026, 12, 20), day(2026, 12, 31), "the holidays"}};
    what.pins = {{day(2026, 3, 2), "310"}, {day(2026, 3, 8), "320"}};
    CHECK(has(only_fault(ten(), what), "320 on 2026-03-08 is the second in its week, after the pin of 310"));
    what.pins = {{day(2026, 12, 24), "310"}};
    CHECK(has(only_fault(ten(), what), "falls on a holiday (the holidays)"));
    what.pins = {{day(2026, 3, 2), "680"}};
    CHECK(has(only_fault(ten(), what), "no point of the plan stands under Article 680"));
    what.pins = {{day(2026, 3, 2), "310.99"}};
    CHECK(has(only_fault(ten(), what), "no point of the plan stands under 310.99"));
    what.pins = {{day(2026, 3, 2), "pools"}};
    CHECK(has(only_fault(ten(), what), "names no article"));
    what.pins = {{day(2026, 1, 4), "310"}};
    CHECK(has(only_fault(ten(), what), "lies outside the plan"));
    what.pins = {{day(2027, 1, 4), "310"}};
    CHECK(has(only_fault(ten(), what), "lies outside the plan"));
    what.pins = {{day(2026, 3, 2), "pools"}, {day(2026, 3, 3), "680"}, {day(2026, 12, 24), "310"}};
    const auto all = practice::plan_weeks(ten(), what);
    REQUIRE_FALSE(all);
    CHECK(all.error().size() == 4);
}

TEST_CASE("week plan: other input out of range is refused") {
    auto what = year::plan_for();
    CHECK(has(only_fault({}, what), "no point to plan with"));
    for (const int weeks : {0, -1, 521}) {
        what.weeks = weeks;
        CHECK(has(only_fault(ten(), what), "is no number of weeks"));
    }
    what.weeks = 520;
    CHECK(practice::plan_weeks(ten(), what));
    what.meets = std::chrono::weekday{9};
    CHECK(has(only_fault(ten(), what), "no such weekday"));
    what = year::plan_for();
    what.holidays = {{day(2026, 5, 2), day(2026, 5, 1), ""}};
    CHECK(has(only_fault(ten(), what), "ends before it starts"));
    what = year::plan_for();
    for (const double weakness : {-0.1, 1.1, std::numeric_limits<double>::quiet_NaN()}) {
        what.weakness = {{base::PointId{"p.300.0"}, weakness}};
        CHECK(has(only_fault(ten(), what), "the weakness of p.300.0"));
    }
}

TEST_CASE("week plan: reasons by name") {
    for (const auto why : {WhyWeek::pinned, WhyWeek::weak, WhyWeek::stakes, WhyWeek::outline, WhyWeek::turn})
        CHECK(practice::parse_why_week(practice::to_text(why)) == why);
    CHECK_FALSE(practice::parse_why_week("mood"));
}

TEST_CASE("week plan: whatever the content, all articles are covered if the weeks suffice, and neighbours differ") {
    std::size_t neighbours = 0;
    std::size_t clashing = 0;
    for (base::Seed seed = 1; seed <= 150; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const auto portions = random_portions(random);
        auto what = year::plan_for(seed);
        what.weakness = year::random_weakness(random, portions);
        what.holidays = {{day(2026, 5, 25), day(2026, 5, 25), ""}, {day(2026, 12, 20), day(2026, 12, 31), ""}};
        const auto plan = planned(portions, what);
        check_plan(plan, portions, what);
        // Three of the 52 Mondays are off.
        if (portions.size() <= 49) CHECK(plan.left_over.empty());
        if (articles_of(portions).size() <= 49) {
            CHECK(articles_of(plan) == articles_of(portions));
            CHECK(plan.without_week.empty());
        }
        if (portions.size() >= 10) {
            neighbours += 48;
            clashing += clashes(plan);
        }
        CHECK(planned(portions, what) == plan);
    }
    CHECK(neighbours > 5000);
    CHECK(clashing == 0);
}

TEST_CASE("week plan: seeds differ only where weights are nearly equal") {
    auto points = std::vector<practice::WeekPoint>{};
    year::add_article(points, 300, 10, "a", content::Stakes::shock);
    for (int n = 1; n < 10; ++n) year::add_article(points, 300 + 10 * n, 10, "topic" + std::to_string(n));
    const auto portions = practice::portions_of(points);
    std::set<std::vector<std::string>> orders;
    for (base::Seed seed = 1; seed <= 20; ++seed) {
        auto what = year::plan_for(seed);
        what.weeks = 10;
        const auto plan = planned(portions, what);
        CHECK(plan.weeks[0].articles == std::vector<int>{300});
        orders.insert(titles(plan));
    }
    CHECK(orders.size() > 10);
}
