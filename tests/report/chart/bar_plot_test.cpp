#include "report/chart/bar_plot.hpp"

#include <doctest/doctest.h>

#include <limits>

#include "report/chart/reading.hpp"

using namespace report::chart;
using namespace reading;

namespace {

const Words kWords{"bars", "Forecast score", "Made up."};

std::string plot(const Scores& scores, std::optional<double> mark) {
    return bar_plot(kWords, scores, mark, "questions right", "chance");
}

}  // namespace

TEST_CASE("bar plot: the pass mark parts the scores, and both sides are told") {
    const auto svg = plot({0, 1, {1, 2, 4, 2, 1}}, 3.0);
    CHECK(wrong(svg, "bars").empty());
    CHECK(crowded(svg, 360).empty());
    CHECK(count(svg, "class=\"full\"") == 2 + 1);  // and one box in the key
    CHECK(count(svg, "class=\"open\"") == 3 + 1);
    CHECK(has(svg, ">pass mark 3</text>"));
    CHECK(has(svg, ">at or above the pass mark: 30 %</text>"));
    CHECK(has(svg, ">below the pass mark: 70 %</text>"));
    const auto told = inside(svg, "desc");
    CHECK(has(told, "Scores from 0 to 4, mean 2, most often 2 (40 %)."));
    CHECK(has(told, "The pass mark 3; at or above the pass mark: 30 %, below the pass mark: 70 %."));
}

TEST_CASE("bar plot: counts and chances of the same shape give the same chart") {
    CHECK(plot({0, 1, {1, 2, 1}}, 2.0) == plot({0, 1, {0.25, 0.5, 0.25}}, 2.0));
}

TEST_CASE("bar plot: a score that meets the pass mark passes, though steps of a fraction add up to a little less") {
    REQUIRE(0.15 * 3 < 0.45);
    CHECK(has(plot({0, 0.15, std::vector<double>(7, 1.0)}, 0.45), "at or above the pass mark: 57.1 %"));
    REQUIRE(0.1 * 3 > 0.3);
    CHECK(has(plot({0, 0.1, std::vector<double>(11, 1.0)}, 0.3), "at or above the pass mark: 72.7 %"));
}

TEST_CASE("bar plot: no pass mark, a pass mark out of reach, one bar, nothing") {
    const auto plain = plot({0, 1, {1, 2, 1}}, std::nullopt);
    CHECK(wrong(plain, "bars").empty());
    CHECK_FALSE(has(plain, "pass mark"));
    CHECK_FALSE(has(plain, "class=\"open\""));
    const auto far = plot({0, 1, {1, 2, 1}}, 30.0);
    CHECK(wrong(far, "bars").empty());
    CHECK(has(far, "at or above the pass mark: 0 %"));
    const auto one = plot({5, 1, {3}}, 5.0);
    CHECK(wrong(one, "bars").empty());
    CHECK(has(one, "at or above the pass mark: 100 %"));
    CHECK(has(one, ">5</text>"));
    for (const auto& heights : {std::vector<double>{}, std::vector<double>{0, 0}}) {
        const auto none = plot({0, 1, heights}, 7.0);
        CHECK(wrong(none, "bars").empty());
        CHECK(has(none, ">Nothing to show yet.</text>"));
    }
}

TEST_CASE("bar plot: whole scores have ticks at whole numbers alone") {
    for (int top = 1; top < 12; ++top) {
        const auto svg = plot({0, 1, std::vector<double>(static_cast<std::size_t>(top), 1.0)}, std::nullopt);
        for (const auto& text : texts(svg))
            if (!has(text.words, "%") && text.words.find_first_not_of("0123456789.") == std::string::npos)
                CHECK_FALSE(has(text.words, "."));
    }
}

TEST_CASE("bar plot: whatever comes, a whole document leaves, and ordinary figures cover nothing") {
    base::Random random{61};
    for (int n = 0; n < 200; ++n) {
        CAPTURE(n);
        const bool ordinary = n % 2 == 0;
        Scores scores;
        if (!ordinary) scores = {any_value(random), any_value(random), {}};
        for (auto left = random.below(120); left > 0; --left)
            scores.heights.push_back(ordinary ? random.unit() : any_value(random));
        const auto count_of = static_cast<double>(scores.heights.size());
        const double mark = ordinary ? static_cast<double>(random.below(121)) : any_value(random) * count_of;
        const auto svg = plot(scores, mark);
        for (const auto& told : wrong(svg, "bars")) FAIL_CHECK(told);
        if (!ordinary) continue;
        for (const auto& told : crowded(svg, 360)) FAIL_CHECK(told);
    }
}
