#include "report/shop/week_text.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "practice/shop/year.hpp"
#include "report/shop/week_words.hpp"

namespace {

using Lines = std::vector<std::string>;
using year::day;

practice::PlannedWeek week(int number, const std::string& title, practice::WhyWeek why) {
    practice::PlannedWeek one;
    one.number = number;
    one.day = day(2026, 1, 5) + std::chrono::days{7 * (number - 1)};
    one.title = title;
    one.why = why;
    one.points = {{{"p.1"}, "Keeping boxes within reach", "314.29", content::Stakes::fire, false},
                  {{"p.2"}, "Counting conductors", "314.16(B)(1)", content::Stakes::inspection, true}};
    return one;
}

practice::WeekPlan plan() {
    practice::WeekPlan some;
    some.weeks = {week(1, "Article 314: Boxes and fittings", practice::WhyWeek::stakes),
                  week(2, "Article 404: Switching", practice::WhyWeek::weak), week(3, "", practice::WhyWeek::turn),
                  week(4, "Article 250, up to 250.24: Bonding and grounding, further on", practice::WhyWeek::pinned)};
    some.weeks[2].off = true;
    some.weeks[2].holiday = "Founder's day";
    some.weeks[3].pin = "250";
    some.weeks[3].again = true;
    some.left_over = {{"Article 800: Small systems", {some.weeks[0].points[0]}, 1}};
    some.without_week = {0, 800};
    some.points = 7;
    some.in_weeks = 6;
    return some;
}

report::Page page(std::size_t width) {
    report::Page one;
    one.width = width;
    return one;
}

}  // namespace

TEST_CASE("week text: the year at 80 columns") {
    CHECK(report::week_plan_text(plan(), day(2026, 1, 7), page(80)) ==
          Lines{"Articles of the year", "Next meeting Mon 2026-01-12: Article 404: Switching.", "",
                "  1  Mon 2026-01-05  Article 314: Boxes and fittings. 2 points; much is at",
                "                     stake. [passed]",
                "  2  Mon 2026-01-12  Article 404: Switching. 2 points; the crew is weak on it.",
                "                     [next]", "  3  Mon 2026-01-19  no meeting: Founder's day",
                "  4  Mon 2026-01-26  Article 250, up to 250.24: Bonding and grounding, further",
                "                     on. 2 points; the lead pinned 250; again.", "",
                "The weeks do not suffice for every article. Without a week: points without a", "reference, 800.", "",
                "1 portion found no week: 6 of 7 points come up at meetings. The rest stays in",
                "everybody's own study; a pin brings an article to a week.",
                "  - Article 800: Small systems, 1 point"});
}

TEST_CASE("week text: the year at 40 columns, the day on a line of its own") {
    const auto lines = report::week_plan_text(plan(), day(2026, 1, 12), page(40));
    const auto at = std::find(lines.begin(), lines.end(), "  2  Mon 2026-01-12 [today]");
    REQUIRE(at != lines.end());
    CHECK(at[1] == "     Article 404: Switching. 2 points;");
    CHECK(at[2] == "     the crew is weak on it.");
}

TEST_CASE("week text: after the last meeting nothing is next") {
    const auto lines = report::week_plan_text(plan(), day(2026, 2, 1), page(80));
    CHECK(lines[1] == "No meeting of this plan is left.");
}

TEST_CASE("week text: a week with its points, its talk and the next") {
    const auto some = plan();
    const practice::WeekTalk talk{"Article 314: Boxes and fittings",
                                  {{{"p.1"}, "314.29", "A box stays reachable.", false}},
                                  "Thinks a note replaces it.",
                                  "lock out.",
                                  12};
    CHECK(report::week_text(some.weeks[0], talk, &some.weeks[1], page(80)) ==
          Lines{"Week 1, Mon 2026-01-05: Article 314: Boxes and fittings. 2 points; much is at", "stake.", "",
                "  - Keeping boxes within reach (314.29), fire",
                "  - Counting conductors (314.16(B)(1)), inspection, not confirmed for this", "    edition", "",
                "To say, in two minutes", "  1. A box stays reachable. (314.29)",
                "  Commonest mistake: Thinks a note replaces it.", "  CAUTION: lock out.", "",
                "After it, Mon 2026-01-12: Article 404: Switching."});
    CHECK(report::week_text(some.weeks[2], {}, nullptr, page(80)) ==
          Lines{"Week 3, Mon 2026-01-19: no meeting: Founder's day"});
}

TEST_CASE("week text: no line is wider than its page") {
    for (base::Seed seed = 1; seed <= 20; ++seed) {
        base::Random random{seed};
        const auto portions = practice::portions_of(year::random_points(random, 60));
        const auto some = practice::plan_weeks(portions, year::plan_for(seed)).value();
        for (const std::size_t width : {30U, 40U, 64U, 80U, 120U})
            for (const auto& line : report::week_plan_text(some, day(2026, 5, 1), page(width)))
                CHECK_MESSAGE(base::display_width(line) <= width, line);
    }
}

TEST_CASE("week text: state is told in words, colour only comes on top") {
    auto inked = page(80);
    inked.color = true;
    auto colored = report::week_plan_text(plan(), day(2026, 1, 7), inked);
    for (auto& line : colored)
        for (auto at = line.find('\x1b'); at != std::string::npos; at = line.find('\x1b'))
            line.erase(at, line.find('m', at) - at + 1);
    CHECK(colored == report::week_plan_text(plan(), day(2026, 1, 7), page(80)));
}

TEST_CASE("week text: days in words") {
    CHECK(report::day_words(day(2026, 11, 29)) == "Sun 2026-11-29");
    CHECK(report::day_words(day(2024, 2, 29)) == "Thu 2024-02-29");
}
