#include "report/chart/interval_plot.hpp"

#include <doctest/doctest.h>

#include <limits>

#include "report/chart/reading.hpp"

using namespace report::chart;
using namespace reading;

namespace {

const Words kWords{"rows", "Sections", "Made up."};

}  // namespace

TEST_CASE("interval plot: every row has its name, its figures and its state in words") {
    const std::vector<IntervalRow> rows = {
        {"Wiring methods", 0.81, 0.74, 0.87, "above the pass mark", 0},
        {"Services, and the grounding electrode system", 0.62, 0.5, 0.73, "below the pass mark", 1},
        {"Motors", 0.71, 0.55, 0.84, "not settled", 2}};
    const auto svg = interval_plot(kWords, rows, "forecast share right", Unit::percent, Reference{0.7, "pass mark"});
    CHECK(wrong(svg, "rows").empty());
    CHECK(crowded(svg, 360).empty());
    CHECK(has(svg, ">81 % (74 % to 87 %)</text>"));
    CHECK(has(svg, ">pass mark 70 %</text>"));
    const auto told = inside(svg, "desc");
    CHECK(has(told, "Held against: pass mark 70 %."));
    CHECK(has(told, "Motors: 71 % (55 % to 84 %), not settled."));
    for (const char* look : {"class=\"k0\"", "class=\"k1\"", "class=\"k2\""}) CHECK(count(svg, look) == 1);
}

TEST_CASE("interval plot: a better estimate stands further right") {
    const auto svg = interval_plot(kWords, {{"one", 1, 0, 2, "", 0}, {"two", 3, 2, 4, "", 0}}, "days");
    std::vector<double> at;
    for (auto c = svg.find("<circle"); c != std::string::npos; c = svg.find("<circle", c + 1))
        at.push_back(value(attribute(std::string_view{svg}.substr(c), "cx")));
    REQUIRE(at.size() == 2);
    CHECK(at[0] < at[1]);
    // Both axes begin at 0 and end at 4; the second interval begins where the first ends.
    const double unit = (at[1] - at[0]) / 2;
    CHECK(has(svg, "d=\"M" + number(at[0] - unit) + " "));
    CHECK(has(svg, "d=\"M" + number(at[0] + unit) + " "));
}

TEST_CASE("interval plot: nothing, one exact value, and a value that is not known") {
    const auto none = interval_plot(kWords, {}, "days");
    CHECK(wrong(none, "rows").empty());
    CHECK(has(none, ">Nothing to show yet.</text>"));
    const auto one = interval_plot(kWords, {{"only", 3, 3, 3, "", 0}}, "days");
    CHECK(wrong(one, "rows").empty());
    CHECK(has(one, ">3 (3 to 3)</text>"));
    const double unknown = std::numeric_limits<double>::quiet_NaN();
    const auto blank =
        interval_plot(kWords, {{"lost", unknown, 0, 1, "", 0}}, "days", Unit::plain, Reference{unknown, ""});
    CHECK(wrong(blank, "rows").empty());
    CHECK(has(blank, ">not known</text>"));
    CHECK(has(inside(blank, "desc"), "lost: not known."));
    CHECK_FALSE(has(blank, "class=\"mark\""));
}

TEST_CASE("interval plot: names of any length cover nothing and stay on the sheet") {
    base::Random random{41};
    for (int n = 0; n < 200; ++n) {
        CAPTURE(n);
        std::vector<IntervalRow> rows;
        for (auto left = random.below(9); left > 0; --left) {
            IntervalRow row;
            for (auto words = random.below(12); words > 0; --words)
                row.name += std::string(1 + random.below(14), 'm') + " ";
            row.low = random.unit();
            row.at = row.low + 0.1 * random.unit();
            row.high = row.at + 0.1 * random.unit();
            row.state = random.below(2) == 0 ? "below & <worse>" : "";
            row.look = static_cast<std::size_t>(random.below(kLooks));
            rows.push_back(std::move(row));
        }
        const int width = 300 + static_cast<int>(random.below(700));
        const auto svg =
            interval_plot(kWords, rows, "share", Unit::percent, Reference{random.unit(), "pass mark"}, {width, 0});
        for (const auto& told : wrong(svg, "rows")) FAIL_CHECK(told);
        for (const auto& told : crowded(svg, width)) FAIL_CHECK(told);
    }
}

TEST_CASE("interval plot: whatever comes, a whole document leaves") {
    base::Random random{42};
    for (int n = 0; n < 200; ++n) {
        std::vector<IntervalRow> rows(random.below(6));
        for (auto& row : rows)
            row = {"r", any_value(random), any_value(random), any_value(random), "", random.below(9)};
        const auto unit = random.below(2) == 0 ? Unit::plain : Unit::percent;
        for (const auto& told :
             wrong(interval_plot(kWords, rows, "x", unit, Reference{any_value(random), "r"}), "rows"))
            FAIL_CHECK(told);
    }
}
