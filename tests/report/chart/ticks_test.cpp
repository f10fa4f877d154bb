#include "report/chart/ticks.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "base/random.hpp"
#include "report/chart/svg.hpp"

using namespace report::chart;

TEST_CASE("chart ticks: round numbers for everyday ends") {
    const auto shares = round_ticks(0, 1, 5, true);
    CHECK(shares.at == std::vector<double>{0, 0.2, 0.4, 0.6, 0.8, 1});
    CHECK(shares.places == 1);
    const auto days = round_ticks(0, 90, 10, false);
    CHECK(days.at.front() == 0);
    CHECK(days.at[1] == 10);
    CHECK(days.at.back() == 90);
    CHECK(days.places == 0);
    const auto out = round_ticks(3.1, 9.7, 4, true);
    CHECK(out.low == 2);
    CHECK(out.high == 10);
    const auto in = round_ticks(3.1, 9.7, 4, false);
    CHECK(in.low == 3.1);
    CHECK(in.high == 9.7);
    CHECK(in.at == std::vector<double>{4, 6, 8});
}

TEST_CASE("chart ticks: one value, none, and ends the wrong way round") {
    const auto one = round_ticks(12, 12, 5, true);
    CHECK(one.low < 12);
    CHECK(one.high > 12);
    const double none = std::numeric_limits<double>::quiet_NaN();
    CHECK(round_ticks(none, 3, 5, true).at == round_ticks(0, 1, 5, true).at);
    CHECK(round_ticks(1, std::numeric_limits<double>::infinity(), 5, true).at == round_ticks(0, 1, 5, true).at);
    CHECK(round_ticks(7, 2, 5, true).at == round_ticks(2, 7, 5, true).at);
}

TEST_CASE("chart ticks: whole numbers alone where asked for") {
    CHECK(round_ticks(4.5, 5.5, 6, false, true).at == std::vector<double>{5});
    CHECK(round_ticks(0, 2, 10, true, true).at == std::vector<double>{0, 1, 2});
    CHECK(round_ticks(0.2, 0.8, 5, false, true).at.size() > 1);  // none to be had
}

TEST_CASE("chart ticks: few, even, rising, within the ends, and told apart by their labels") {
    base::Random random{5};
    for (int n = 0; n < 4000; ++n) {
        const double size = std::pow(10.0, 20 * random.unit() - 9);
        const double low = size * (random.unit() - 0.5), high = low + size * random.unit();
        const std::size_t most = 3 + static_cast<std::size_t>(random.below(9));
        const bool outward = random.below(2) == 0;
        CAPTURE(low);
        CAPTURE(high);
        const auto ticks = round_ticks(low, high, most, outward);
        REQUIRE_FALSE(ticks.at.empty());
        CHECK(ticks.at.size() <= most + (outward ? 2 : 1));
        CHECK(ticks.low < ticks.high);
        const double slack = 1e-6 * (ticks.high - ticks.low);
        CHECK(ticks.low <= low + slack);
        CHECK(ticks.high >= high - slack);
        CHECK(ticks.at.front() >= ticks.low - slack);
        CHECK(ticks.at.back() <= ticks.high + slack);
        for (std::size_t k = 1; k < ticks.at.size(); ++k) {
            CHECK(ticks.at[k] > ticks.at[k - 1]);
            CHECK(grouped(ticks.at[k], ticks.places) != grouped(ticks.at[k - 1], ticks.places));
        }
    }
}

TEST_CASE("chart ticks: a range holds what can be drawn") {
    Range range;
    CHECK(range.empty());
    CHECK(range.low() == 0);
    CHECK(range.high() == 1);
    range.add(std::numeric_limits<double>::quiet_NaN());
    range.add(1e20);
    CHECK(range.empty());
    range.add(5);
    CHECK(range.low() == 5);
    CHECK(range.high() == 5);
    range.add(-2);
    CHECK(range.low() == -2);
    CHECK(range.high() == 5);
}
