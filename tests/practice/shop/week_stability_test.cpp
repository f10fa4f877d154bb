#include <algorithm>
#include <array>
#include <set>

#include <doctest/doctest.h>

#include "practice/shop/week_plan.hpp"
#include "practice/shop/year.hpp"

namespace {

using practice::Portion;
using practice::WeekPlan;
using practice::WeekPlanFor;
using std::chrono::days;
using year::day;

std::vector<Portion> some_portions(base::Random& random) {
    return practice::portions_of(year::random_points(random, 30 + random.below(40)));
}

WeekPlan planned(const std::vector<Portion>& portions, const WeekPlanFor& what) {
    auto plan = practice::plan_weeks(portions, what);
    REQUIRE(plan);
    return *plan;
}

/// Weeks that hold other points than before, by place.
std::vector<std::size_t> moved(const WeekPlan& before, const WeekPlan& after) {
    std::vector<std::size_t> list;
    for (std::size_t n = 0; n < before.weeks.size(); ++n)
        if (before.weeks[n].points != after.weeks[n].points || before.weeks[n].day != after.weeks[n].day)
            list.push_back(n);
    return list;
}

/// The year after some weeks, planned anew with other weakness.
struct Anew {
    std::vector<Portion> portions;
    WeekPlanFor what;
    WeekPlan before, after;
};

Anew anew(base::Seed seed, int weeks_gone) {
    base::Random random{seed};
    Anew year;
    year.portions = some_portions(random);
    year.what = year::plan_for(seed);
    year.what.weakness = year::random_weakness(random, year.portions);
    year.before = planned(year.portions, year.what);
    year.what.today += days{7 * weeks_gone + static_cast<int>(random.below(7))};
    year.what.weakness = year::random_weakness(random, year.portions);
    year.what.previous = &year.before;
    year.after = planned(year.portions, year.what);
    return year;
}

std::size_t first_free(const WeekPlan& plan, std::chrono::sys_days today) {
    const auto ahead =
        std::find_if(plan.weeks.begin(), plan.weeks.end(), [today](const auto& w) { return w.day >= today; });
    return static_cast<std::size_t>(ahead - plan.weeks.begin()) + practice::kKeptAhead;
}

}  // namespace

TEST_CASE("week plan: past and next weeks stay to the letter, and few later ones move, when the crew changes") {
    std::array<std::size_t, 2 * practice::kMostExchanges + 1> by_moves{};
    for (base::Seed seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        const auto year = anew(seed, static_cast<int>(seed % 50));
        const std::size_t kept = first_free(year.before, year.what.today);
        for (std::size_t n = 0; n < std::min(kept, year.before.weeks.size()); ++n)
            CHECK(year.after.weeks[n] == year.before.weeks[n]);
        const auto others = moved(year.before, year.after);
        REQUIRE(others.size() < by_moves.size());
        ++by_moves.at(others.size());
        CHECK(year.after.without_week == year.before.without_week);
    }
    // Counted: of 200 plans with all weakness drawn anew 27 moved no week, 32 two, 32 three, 109 four.
    CHECK(by_moves[0] < 100);  // it does adapt
}

TEST_CASE("week plan: the thirty-first member of a crew moves next to nothing") {
    std::size_t weeks = 0;
    std::size_t others = 0;
    for (base::Seed seed = 1; seed <= 100; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const auto portions = some_portions(random);
        auto what = year::plan_for(seed);
        std::unordered_map<base::PointId, double> sum;
        const auto join = [&] {
            for (const auto& portion : portions)
                for (const auto& point : portion.points) sum[point.id] += random.unit();
        };
        const auto mean = [&](double crew) {
            what.weakness = sum;
            for (auto& [id, weakness] : what.weakness) weakness /= crew;
        };
        for (int member = 0; member < 30; ++member) join();
        mean(30);
        const auto before = planned(portions, what);
        join();
        mean(31);
        what.previous = &before;
        what.today = day(2026, 3, 2);
        const auto after = planned(portions, what);
        weeks += after.weeks.size() - 8 - practice::kKeptAhead;
        others += moved(before, after).size();
    }
    CHECK(weeks == 4200);
    CHECK(others <= 42);  // counted: none
}

TEST_CASE("week plan: planned anew with nothing changed it is the same, and so it is twice in a week") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        auto year = anew(seed, static_cast<int>(seed % 45));
        year.what.previous = &year.after;
        base::Random random{seed};
        const auto again = planned(year.portions, year.what);
        CHECK(moved(year.after, again).empty());
        CHECK(again == year.after);
        year.what.weakness = year::random_weakness(random, year.portions);
        CHECK(moved(year.after, planned(year.portions, year.what)).empty());
    }
}

TEST_CASE("week plan: with weakness unchanged a year of weekly plans never moves a week") {
    base::Random random{7};
    const auto portions = some_portions(random);
    auto what = year::plan_for(7);
    what.weakness = year::random_weakness(random, portions);
    const auto first = planned(portions, what);
    auto plan = first;
    for (int week = 0; week < 52; ++week) {
        const auto previous = plan;
        what.previous = &previous;
        what.today += days{7};
        plan = planned(portions, what);
        CHECK(moved(first, plan).empty());
    }
}

TEST_CASE("week plan: an article the crew gets weak on moves forward, by exchange with one it knows") {
    std::vector<practice::WeekPoint> points;
    for (int n = 0; n < 12; ++n) year::add_article(points, 300 + 10 * n, 10, "topic" + std::to_string(n));
    const auto portions = practice::portions_of(points);
    auto what = year::plan_for();
    what.weeks = 12;
    const auto before = planned(portions, what);
    const auto last = before.weeks[11];
    for (const auto& point : last.points) what.weakness[point.id] = 1.0;
    what.today = day(2026, 1, 13);  // two weeks gone, two kept
    what.previous = &before;
    const auto after = planned(portions, what);
    CHECK(after.weeks[4].points == last.points);
    CHECK(after.weeks[4].why == practice::WhyWeek::weak);
    CHECK(moved(before, after) == std::vector<std::size_t>{4, 11});
    CHECK(after.weeks[11].points == before.weeks[4].points);
}

TEST_CASE("week plan: what was left over comes in when the crew gets weak on it, but not for an article's only week") {
    std::vector<practice::WeekPoint> points;
    year::add_article(points, 250, 60, "grounding");
    for (int n = 0; n < 4; ++n) year::add_article(points, 300 + 10 * n, 10, "topic" + std::to_string(n));
    const auto portions = practice::portions_of(points);
    auto what = year::plan_for();
    what.weeks = 8;
    const auto before = planned(portions, what);
    REQUIRE_FALSE(before.left_over.empty());
    for (const auto& point : before.left_over.back().points) what.weakness[point.id] = 1.0;
    what.previous = &before;
    what.today = day(2026, 1, 12);
    const auto after = planned(portions, what);
    CHECK(moved(before, after).size() == 1);
    CHECK(after.without_week.empty());
    CHECK(std::any_of(after.weeks.begin(), after.weeks.end(),
                      [&](const auto& week) { return week.points == before.left_over.back().points; }));
}

TEST_CASE("week plan: a holiday or pin that is new wins over the next two weeks, never over the past") {
    for (base::Seed seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        auto year = anew(seed, 10);
        auto what = year.what;
        what.previous = &year.after;
        const std::size_t next = first_free(year.after, what.today) - practice::kKeptAhead;
        const auto off = year.after.weeks[next].day;
        what.holidays = {{off, off, "shut"}, {day(2026, 1, 1), day(2026, 1, 31), "too late"}};
        const auto reference = trade::to_text(year.portions.front().points.front().reference);
        const bool pinned = year.portions.front().points.front().reference.article != 0;
        if (pinned) what.pins = {{year.after.weeks[next + 1].day, reference}};
        const auto plan = planned(year.portions, what);
        CHECK(plan.weeks[next].off);
        if (pinned) CHECK(plan.weeks[next + 1].why == practice::WhyWeek::pinned);
        for (std::size_t n = 0; n < next; ++n) CHECK(plan.weeks[n] == year.after.weeks[n]);
        // The week off and the pinned one; the pinned portion's old week; and homes for articles that lost theirs.
        CHECK(moved(year.after, plan).size() <= 8);
        CHECK(plan.without_week.size() <= year.after.without_week.size() + 1);
    }
}

TEST_CASE("week plan: a pin on a week that has passed is refused unless that is what it had") {
    auto year = anew(3, 10);
    auto what = year.what;
    what.previous = &year.after;
    const auto& past = year.after.weeks[4];
    REQUIRE(past.articles.back() != 0);
    what.pins = {{past.day, std::to_string(past.articles.back())}};
    CHECK(planned(year.portions, what).weeks[4] == past);
    const auto other = std::find_if(year.portions.begin(), year.portions.end(), [&past](const Portion& portion) {
        return portion.articles.front() != 0 && portion.articles.front() != past.articles.front() &&
               portion.articles.front() != past.articles.back() && portion.articles.size() == 1;
    });
    REQUIRE(other != year.portions.end());
    what.pins = {{past.day, std::to_string(other->articles.front())}};
    const auto refused = practice::plan_weeks(year.portions, what);
    REQUIRE_FALSE(refused);
    CHECK(refused.error()[0].what.find("comes too late") != std::string::npos);
}

TEST_CASE("week plan: a pin keeps its portion while the crew changes") {
    for (base::Seed seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        std::vector<practice::WeekPoint> points;
        year::add_article(points, 250, 60, "grounding");
        year::add_article(points, 300, 30, "wiring");
        const auto portions = practice::portions_of(points);
        auto what = year::plan_for(seed);
        what.pins = {{day(2026, 6, 1), "250"}, {day(2026, 9, 7), "250"}};
        const auto before = planned(portions, what);
        what.previous = &before;
        what.today = day(2026, 3, 2);
        what.weakness = year::random_weakness(random, portions);
        const auto after = planned(portions, what);
        CHECK(after.weeks[21].points == before.weeks[21].points);
        CHECK(after.weeks[35].points == before.weeks[35].points);
    }
}

TEST_CASE("week plan: content that grows keeps later weeks with their points, and new articles find a week") {
    for (base::Seed seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        auto points = year::random_points(random, 40);
        const auto portions = practice::portions_of(points);
        auto what = year::plan_for(seed);
        const auto before = planned(portions, what);
        std::set<int> known;
        for (const auto& portion : portions) known.insert(portion.articles.begin(), portion.articles.end());
        year::add_article(points, 991, 6, "new");
        const auto grown = practice::portions_of(points);
        what.previous = &before;
        what.today = day(2026, 3, 2);
        const auto after = planned(grown, what);
        if (known.size() < 50) CHECK(after.without_week.empty());
        CHECK(std::any_of(after.weeks.begin() + 10, after.weeks.end(), [](const auto& week) {
            return std::count(week.articles.begin(), week.articles.end(), 991) > 0;
        }));
        std::size_t others = 0;
        for (const auto n : moved(before, after)) others += before.weeks[n].title == after.weeks[n].title ? 0 : 1;
        CHECK(others <= 8);
    }
}

TEST_CASE("week plan: the year after goes on without the weeks of the year before") {
    auto year = anew(5, 50);
    auto what = year.what;
    what.previous = &year.after;
    what.start = day(2027, 1, 4);
    what.today = day(2026, 12, 31);
    const auto next = planned(year.portions, what);
    CHECK(next.weeks[0].day == day(2027, 1, 4));
    CHECK_FALSE(next.weeks[0].again);
    CHECK(next.without_week.empty() == year.after.without_week.empty());
}
