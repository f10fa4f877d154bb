#include "report/chart/calibration_plot.hpp"

#include <doctest/doctest.h>

#include "report/chart/reading.hpp"

using namespace report::chart;
using namespace reading;

namespace {

const Words kWords{"cal", "Forecast against outcome", "Made up."};

Forecaster made_up(const std::string& name, std::size_t answers) {
    Forecaster forecaster{name, {}};
    for (int n = 0; n < 5; ++n)
        forecaster.bins.push_back({0.1 + 0.2 * n, 0.12 + 0.19 * n, 0.05 + 0.19 * n, 0.2 + 0.19 * n, answers});
    return forecaster;
}

}  // namespace

TEST_CASE("calibration plot: every bin is drawn and told, with its interval and its answers") {
    const auto svg = calibration_plot(kWords, {made_up("model", 1200)});
    CHECK(wrong(svg, "cal").empty());
    CHECK(crowded(svg, 360).empty());
    CHECK(count(svg, "<circle") == 5 + 1);  // and one in the key
    CHECK(has(inside(svg, "desc"), "Forecast 30 %, observed 31 % (24 % to 39 %), 1,200 answers."));
    CHECK(has(inside(svg, "desc"), "model: 6,000 answers."));
    CHECK(count(svg, ">1,200</text>") == 5);
    CHECK(has(svg, "observed as often as forecast"));
    CHECK_FALSE(has(svg, "hollow:"));
}

TEST_CASE("calibration plot: a bin of few answers is hollow, and the key says why") {
    auto forecaster = made_up("model", kFewAnswers);
    CHECK(count(calibration_plot(kWords, {forecaster}), "k0 hollow") == 0);
    forecaster.bins[2].answers = kFewAnswers - 1;
    const auto svg = calibration_plot(kWords, {forecaster});
    CHECK(count(svg, "k0 hollow") == 1 + 1);
    CHECK(has(svg, "hollow: fewer than 30 answers"));
}

TEST_CASE("calibration plot: several forecasters have a line, a marker and a letter each") {
    const auto svg = calibration_plot(kWords, {made_up("one", 50), made_up("two", 60), made_up("three", 70)});
    CHECK(wrong(svg, "cal").empty());
    CHECK(crowded(svg, 360).empty());
    for (const char* told : {"A: one: 250 answers", "B: two: 300 answers", "C: three: 350 answers", ">A</text>"})
        CHECK(has(svg, told));
    for (const char* look : {"class=\"k0\"", "class=\"k1\"", "class=\"k2\""}) CHECK(count(svg, look) == 5 + 1);
}

TEST_CASE("calibration plot: nothing, one bin, and one answer") {
    for (const auto& forecasters : {std::vector<Forecaster>{}, std::vector<Forecaster>{{"empty", {}}}}) {
        const auto svg = calibration_plot(kWords, forecasters);
        CHECK(wrong(svg, "cal").empty());
        CHECK(has(svg, ">No answers yet.</text>"));
        CHECK(has(inside(svg, "desc"), "No answers yet."));
    }
    const auto svg = calibration_plot(kWords, {{"", {{0.5, 1, 0.2, 1, 1}}}});
    CHECK(wrong(svg, "cal").empty());
    CHECK(has(inside(svg, "desc"), "observed 100 % (20 % to 100 %), 1 answer."));
}

TEST_CASE("calibration plot: whatever comes, a whole document leaves, and no number covers another") {
    base::Random random{31};
    for (int n = 0; n < 200; ++n) {
        CAPTURE(n);
        std::vector<Forecaster> forecasters(random.below(4));
        for (auto& one : forecasters) {
            one.name = "<n> & \"" + std::to_string(random.below(100));
            for (auto left = random.below(14); left > 0; --left)
                one.bins.push_back({any_value(random), any_value(random), any_value(random), any_value(random),
                                    static_cast<std::size_t>(random.below(100'000))});
        }
        const auto svg = calibration_plot(kWords, forecasters);
        for (const auto& told : wrong(svg, "cal")) FAIL_CHECK(told);
        CHECK(svg == calibration_plot(kWords, forecasters));
        const auto all = texts(svg);
        for (std::size_t k = 0; k < all.size(); ++k)
            for (std::size_t j = 0; j < k; ++j)
                if (has(all[k].classes, "small") && has(all[j].classes, "small")) CHECK_FALSE(all[k].covers(all[j]));
    }
}
