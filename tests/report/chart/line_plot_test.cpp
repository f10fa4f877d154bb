#include "report/chart/line_plot.hpp"

#include <doctest/doctest.h>

#include "report/chart/reading.hpp"

using namespace report::chart;
using namespace reading;

namespace {

const Words kWords{"line", "Recall over the days", "Made up."};
const LineAxes kAxes{{0, 0, "day"}, {0, 1, "recall", Unit::percent, true}};

LineSeries rising(const std::string& name, double by, double band) {
    LineSeries series{name, {}};
    for (int day = 0; day <= 30; ++day) {
        const double y = by * day / 30;
        series.points.push_back({static_cast<double>(day), y, y - band, y + band});
    }
    return series;
}

}  // namespace

TEST_CASE("line plot: series differ by dash, marker and letter, and the key tells which is which") {
    const auto svg = line_plot(kWords, {rising("rotation", 0.8, 0), rising("overdue", 0.6, 0)}, kAxes);
    CHECK(wrong(svg, "line").empty());
    CHECK(crowded(svg, 360).empty());
    CHECK(has(svg, ">A: rotation</text>"));
    CHECK(has(svg, ">B: overdue</text>"));
    CHECK(has(svg, ">A</text>"));
    CHECK(count(svg, "class=\"l0\"") == 1 + 1);
    CHECK(count(svg, "class=\"l1\"") == 1 + 1);
    CHECK(count(svg, "class=\"k0\"") > 5);
    CHECK_FALSE(has(svg, "class=\"band"));
    CHECK(has(inside(svg, "desc"), "rotation: 0 % at 0, last 80 % at 30; least 0 % at 0, greatest 80 % at 30."));
}

TEST_CASE("line plot: a band is drawn where there is one, and told") {
    auto series = rising("rotation", 0.8, 0.05);
    series.points[10].low = series.points[10].high = 0;  // parts the band in two
    const auto svg = line_plot(kWords, {series}, kAxes);
    CHECK(wrong(svg, "line").empty());
    CHECK(count(svg, "class=\"band l0\"") == 2);
    CHECK(has(inside(svg, "desc"), "last 80 % (75 % to 85 %) at 30"));
    CHECK_FALSE(has(svg, ">A</text>"));  // a single series needs no letter
}

TEST_CASE("line plot: the order of the points does not matter") {
    auto series = rising("rotation", 0.8, 0.05);
    const auto svg = line_plot(kWords, {series}, kAxes);
    base::Random{3}.shuffle(series.points);
    CHECK(line_plot(kWords, {series}, kAxes) == svg);
}

TEST_CASE("line plot: nothing, and one point") {
    for (const auto& series : {std::vector<LineSeries>{}, std::vector<LineSeries>{{"empty", {}}}}) {
        const auto svg = line_plot(kWords, series, kAxes);
        CHECK(wrong(svg, "line").empty());
        CHECK(has(svg, ">Nothing to show yet.</text>"));
    }
    const auto svg = line_plot(kWords, {{"one", {{5, 0.5}}}}, kAxes);
    CHECK(wrong(svg, "line").empty());
    CHECK(count(svg, "<circle") == 1 + 1);
    CHECK(count(svg, "class=\"l0\"") == 1);  // the sample in the key alone
    CHECK(has(inside(svg, "desc"), "one: 50 % at 5."));
}

TEST_CASE("line plot: whatever comes, a whole document leaves, and ordinary figures cover nothing") {
    base::Random random{51};
    for (int n = 0; n < 150; ++n) {
        CAPTURE(n);
        const bool ordinary = n % 2 == 0;
        const auto one = [&] { return ordinary ? random.unit() : any_value(random); };
        std::vector<LineSeries> series(random.below(9));
        for (std::size_t k = 0; k < series.size(); ++k) {
            series[k].name = "series <" + std::to_string(k) + ">";
            for (auto left = 1 + random.below(30); left > 0; --left)
                series[k].points.push_back({100 * one(), one(), one(), one()});
            if (ordinary) series[k].points.push_back({100, one(), 0, 0});
        }
        const auto svg = line_plot(kWords, series, kAxes);
        for (const auto& told : wrong(svg, "line")) FAIL_CHECK(told);
        if (!ordinary) continue;
        for (const auto& told : crowded(svg, 360)) FAIL_CHECK(told);
    }
}
