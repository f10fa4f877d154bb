#include "memory/score/judge.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "memory/normal.hpp"

using namespace memory;

namespace {

using Forecasts = std::vector<Forecast>;

/// Invented; with ties inside and across the classes, and a certainty.
const Forecasts kTen{{.1, false}, {.4, false}, {.35, true},  {.8, true}, {.35, false},
                     {.9, true},  {.65, true}, {.65, false}, {.2, true}, {1.0, true}};

/// Coarse chances, so that ties are common.
Forecasts any_forecasts(base::Random& random, std::size_t count) {
    Forecasts forecasts(count);
    for (auto& one : forecasts) {
        one.chance = static_cast<double>(random.below(21)) / 20;
        one.right = random.unit() < 0.2 + 0.6 * one.chance;
    }
    return forecasts;
}

/// Answers that are right exactly as often as foretold.
Forecasts true_forecasts(base::Random& random, std::size_t count) {
    Forecasts forecasts(count);
    for (auto& one : forecasts) {
        one.chance = random.unit();
        one.right = random.unit() < one.chance;
    }
    return forecasts;
}

double beats(double right, double wrong) {
    return right > wrong ? 1.0 : right == wrong ? 0.5 : 0.0;
}

double variance_of_mean(const std::vector<double>& values) {
    double mean = 0;
    double squares = 0;
    for (const double one : values) mean += one / static_cast<double>(values.size());
    for (const double one : values) squares += (one - mean) * (one - mean);
    return squares / static_cast<double>(values.size() - 1) / static_cast<double>(values.size());
}

/// Every pair of a right and a wrong answer, one by one.
struct Pairs {
    double area = 0;
    double standard_error = 0;
};
Pairs all_pairs(const Forecasts& forecasts) {
    std::vector<double> right, wrong;
    for (const auto& one : forecasts) (one.right ? right : wrong).push_back(one.chance);
    std::vector<double> of_right(right.size()), of_wrong(wrong.size());
    Pairs found;
    for (std::size_t r = 0; r < right.size(); ++r)
        for (std::size_t w = 0; w < wrong.size(); ++w) {
            const double one = beats(right[r], wrong[w]);
            of_right[r] += one / static_cast<double>(wrong.size());
            of_wrong[w] += one / static_cast<double>(right.size());
            found.area += one / static_cast<double>(right.size() * wrong.size());
        }
    found.standard_error = std::sqrt(variance_of_mean(of_right) + variance_of_mean(of_wrong));
    return found;
}

bool both_classes(const Forecasts& forecasts) {
    const auto right = std::count_if(forecasts.begin(), forecasts.end(), [](const Forecast& one) { return one.right; });
    return right > 1 && static_cast<std::size_t>(right) + 1 < forecasts.size();
}

const Bins kEveryBins[] = {{Bins::By::count, 10}, {Bins::By::count, 1}, {Bins::By::width, 7}, {Bins::By::value, 1}};

}  // namespace

TEST_CASE("judge: log loss and Brier score by hand") {
    const Forecasts two{{.5, true}, {.25, false}};
    CHECK(*log_loss(two) == doctest::Approx((std::log(2) + std::log(4.0 / 3)) / 2));
    CHECK(*brier_score(two) == doctest::Approx((.25 + .0625) / 2));
    // Certain and wrong is dear but finite, on either side.
    CHECK(*log_loss({{0, true}}) == doctest::Approx(-std::log(1e-15)));
    CHECK(*log_loss({{1, false}}) == doctest::Approx(-std::log(1e-15)));
    CHECK(*log_loss({{1, true}, {0, false}}) == 0);
}

TEST_CASE("judge: ten answers against numpy and scipy") {
    // Computed apart: with y the outcomes and p the chances, scipy.stats.mannwhitneyu(p[y == 1], p[y == 0]).statistic
    // over 24 pairs; numpy.mean((p - y) ** 2); the mean of the logarithms; sample variances of the placements.
    CHECK(std::abs(roc_area(kTen)->area - .75) < 1e-15);
    CHECK(std::abs(*roc_area(kTen)->standard_error - .16701352795063792) < 1e-12);
    CHECK(std::abs(*brier_score(kTen) - .195) < 1e-15);
    CHECK(std::abs(*log_loss(kTen) - .5515338200012219) < 1e-12);
}

TEST_CASE("judge: area of the ratings of 109 images") {
    // memory: Hanley and McNeil 1982, Radiology 143: 29-36, ratings 1 to 5 of 58 normal and 51 abnormal images and the
    // area .893. The standard error is DeLong's on that table, computed apart with numpy: .030724408.
    const std::size_t normal_images[] = {33, 6, 6, 11, 2};
    const std::size_t abnormal_images[] = {3, 2, 2, 11, 33};
    Forecasts ratings;
    for (std::size_t rating = 0; rating < 5; ++rating) {
        const double chance = static_cast<double>(rating) / 4;
        ratings.insert(ratings.end(), normal_images[rating], {chance, false});
        ratings.insert(ratings.end(), abnormal_images[rating], {chance, true});
    }
    const auto area = roc_area(ratings);
    REQUIRE(area);
    CHECK(std::abs(area->area - .893) < .0005);
    CHECK(std::abs(*area->standard_error - .030724408379381122) < 1e-12);
    CHECK(area->right == 51);
    CHECK(area->wrong == 58);
}

TEST_CASE("judge: area and its standard error agree with all pairs, one by one") {
    for (base::Seed seed = 1; seed <= 100; ++seed) {
        base::Random random{seed};
        const auto forecasts = any_forecasts(random, 4 + random.below(60));
        if (!both_classes(forecasts)) continue;
        const auto slow = all_pairs(forecasts);
        const auto quick = roc_area(forecasts);
        REQUIRE(quick);
        CHECK_MESSAGE(std::abs(quick->area - slow.area) < 1e-12, "seed ", seed);
        CHECK_MESSAGE(std::abs(*quick->standard_error - slow.standard_error) < 1e-9, "seed ", seed);
    }
}

TEST_CASE("judge: the area turns over with the forecasts, and no increasing change moves it") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        base::Random random{seed};
        auto forecasts = any_forecasts(random, 50);
        if (!both_classes(forecasts)) continue;
        const double area = roc_area(forecasts)->area;
        auto turned = forecasts;
        for (auto& one : turned) one.chance = 1 - one.chance;
        CHECK_MESSAGE(std::abs(roc_area(turned)->area + area - 1) < 1e-12, "seed ", seed);
        for (auto& one : forecasts) one.chance = one.chance * one.chance / 2;
        CHECK_MESSAGE(std::abs(roc_area(forecasts)->area - area) < 1e-12, "seed ", seed);
    }
}

TEST_CASE("judge: the parts of the Brier score by hand") {
    // Chance .25 twice, none right; chance .75 twice, one right. Share right 1/4.
    const Forecasts four{{.25, false}, {.75, true}, {.25, false}, {.75, false}};
    const auto parts = brier_parts(four, {Bins::By::value, 1});
    REQUIRE(parts);
    CHECK(parts->score == doctest::Approx((3 * .0625 + .5625 - .0) / 4));
    CHECK(parts->reliability == doctest::Approx(.0625));
    CHECK(parts->resolution == doctest::Approx(.0625));
    CHECK(parts->uncertainty == doctest::Approx(.1875));
    CHECK(std::abs(parts->within) < 1e-15);
}

TEST_CASE("judge: the parts of the Brier score add up, and nothing stays within bins of one value") {
    for (base::Seed seed = 1; seed <= 100; ++seed) {
        base::Random random{seed};
        const auto forecasts = any_forecasts(random, 1 + random.below(80));
        for (const Bins bins : kEveryBins) {
            const auto parts = brier_parts(forecasts, bins);
            REQUIRE(parts);
            const double sum = parts->reliability - parts->resolution + parts->uncertainty + parts->within;
            CHECK(std::abs(sum - parts->score) < 1e-12);
            CHECK(parts->reliability >= 0);
            CHECK(parts->resolution >= 0);
            CHECK(parts->resolution <= parts->uncertainty + 1e-12);
            // Murphy's identity for one value a bin: what is left over is rounding.
            if (bins.by == Bins::By::value) CHECK_MESSAGE(std::abs(parts->within) < 1e-12, "seed ", seed);
        }
    }
}

TEST_CASE("judge: Wilson's interval against published figures") {
    // published: test cases of a page on computing Wilson's score interval (codegolf.stackexchange.com question 105389,
    // seen), which takes 1.96 for the quantile; hence the tolerance.
    struct {
        std::size_t right, all;
        double low, high;
    } const printed[] = {{0, 1, 0, .7934567085261071},
                         {1, 2, .09452865480086611, .905471345199134},
                         {1, 11, .016231752262825982, .3773646254862038},
                         {10, 100, .05522854161313612, .1743673043676654},
                         {25, 100, .17545094003724265, .3430464637007583},
                         {100, 100, .9630051925239981, 1}};
    for (const auto& one : printed) {
        const auto interval = wilson(one.right, one.all);
        CHECK(std::abs(interval.low - one.low) < 2e-5);
        CHECK(std::abs(interval.high - one.high) < 2e-5);
    }
    // Computed apart: scipy.stats.binomtest(10, 100).proportion_ci(method='wilson').
    CHECK(std::abs(wilson(10, 100).low - .05522913706067508) < 1e-10);
    CHECK(std::abs(wilson(10, 100).high - .17436566150491345) < 1e-10);
    CHECK(wilson(0, 0).low == 0);
    CHECK(wilson(0, 0).high == 1);
}

TEST_CASE("judge: a calibration table by hand") {
    const auto rows = calibration({{.9, true}, {.1, false}, {.2, true}, {.8, true}}, {Bins::By::count, 2});
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].mean_chance == doctest::Approx(.15));
    CHECK(rows[0].share_right == doctest::Approx(.5));
    CHECK(rows[0].answers == 2);
    CHECK(rows[1].mean_chance == doctest::Approx(.85));
    CHECK(rows[1].share_right == 1);
    CHECK(rows[1].low == doctest::Approx(wilson(2, 2).low));
    CHECK(rows[1].high == 1);
    // (2 |.15 - .5| + 2 |.85 - 1|) / 4
    const Bins two{Bins::By::count, 2};
    CHECK(*expected_calibration_error({{.9, true}, {.1, false}, {.2, true}, {.8, true}}, two) == doctest::Approx(.25));
    // Equal forecasts stay together, in the bin where their middle falls: here the upper one.
    const auto tied = calibration({{.1, true}, {.5, true}, {.5, true}, {.5, false}, {.9, true}}, two);
    REQUIRE(tied.size() == 2);
    CHECK(tied[0].answers == 1);
    CHECK(tied[1].answers == 4);
    // Bins of equal width: .5 is the first of the upper half, and certainty belongs to the last.
    const auto halves = calibration({{.49, true}, {.5, true}, {1, true}}, {Bins::By::width, 2});
    REQUIRE(halves.size() == 2);
    CHECK(halves[0].answers == 1);
    CHECK(halves[1].answers == 2);
}

TEST_CASE("judge: every answer is in one row, whatever the order of the answers") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        base::Random random{seed};
        auto forecasts = any_forecasts(random, 1 + random.below(120));
        for (const Bins bins : kEveryBins) {
            const auto rows = calibration(forecasts, bins);
            auto shuffled = forecasts;
            random.shuffle(shuffled);
            const auto again = calibration(shuffled, bins);
            REQUIRE(again.size() == rows.size());
            if (bins.by != Bins::By::value) CHECK(rows.size() <= bins.most);
            std::size_t answers = 0;
            for (std::size_t n = 0; n < rows.size(); ++n) {
                answers += rows[n].answers;
                CHECK(rows[n].answers == again[n].answers);
                CHECK(rows[n].share_right == again[n].share_right);
                CHECK(rows[n].low <= rows[n].share_right + 1e-12);
                CHECK(rows[n].high >= rows[n].share_right - 1e-12);
                if (n > 0) CHECK(rows[n].mean_chance > rows[n - 1].mean_chance);
            }
            CHECK_MESSAGE(answers == forecasts.size(), "seed ", seed);
        }
    }
}

TEST_CASE("judge: forecasts that differ fall into bins of equal count") {
    base::Random random{3};
    for (const auto& one : calibration(true_forecasts(random, 1000))) CHECK(one.answers == 100);
}

TEST_CASE("judge: the truth is well calibrated, and no other forecast beats it by much") {
    base::Random random{17};
    const auto truth = true_forecasts(random, 20000);
    std::size_t held = 0;
    for (const auto& one : calibration(truth, {Bins::By::count, 20}))
        held += one.low <= one.mean_chance && one.mean_chance <= one.high ? 1 : 0;
    CHECK(held >= 17);  // of 20 intervals at 95 %
    CHECK(*expected_calibration_error(truth) < .015);
    // Uniform chances: expected Brier score 1/6, log loss 1/2, area 5/6 (integrals of x(1-x) and its like).
    CHECK(std::abs(*brier_score(truth) - 1.0 / 6) < .006);
    CHECK(std::abs(*log_loss(truth) - .5) < .015);
    CHECK(std::abs(roc_area(truth)->area - 5.0 / 6) < 4 * *roc_area(truth)->standard_error);
    auto bold = truth;
    for (auto& one : bold) one.chance = one.chance < .5 ? one.chance / 2 : .5 + one.chance / 2;
    CHECK(*log_loss(bold) > *log_loss(truth));
    CHECK(*brier_score(bold) > *brier_score(truth));
    CHECK(*expected_calibration_error(bold) > .05);
    CHECK(roc_area(bold)->area == doctest::Approx(roc_area(truth)->area));
}

TEST_CASE("judge: the standard error of the area is the spread of the area") {
    std::vector<double> areas;
    double foretold = 0;
    for (base::Seed seed = 1; seed <= 400; ++seed) {
        base::Random random{seed};
        const auto area = roc_area(true_forecasts(random, 120));
        areas.push_back(area->area);
        foretold += *area->standard_error / 400;
    }
    const double spread = std::sqrt(variance_of_mean(areas) * 400);
    CHECK(std::abs(foretold / spread - 1) < .15);
}

TEST_CASE("judge: nothing to judge, and one class only") {
    CHECK_FALSE(log_loss({}));
    CHECK_FALSE(brier_score({}));
    CHECK_FALSE(brier_parts({}));
    CHECK_FALSE(expected_calibration_error({}));
    CHECK_FALSE(roc_area({}));
    CHECK_FALSE(compare({}));
    CHECK(calibration({}).empty());
    for (const bool right : {true, false}) {
        const Forecasts same{{.5, right}, {.25, right}};
        CHECK_FALSE(roc_area(same));
        CHECK(brier_parts(same)->uncertainty == 0);
        CHECK(brier_parts(same)->resolution == 0);
        CHECK(log_loss(same));
        CHECK(calibration(same).size() == 2);
    }
    const auto one_each = roc_area({{.5, true}, {.25, false}});
    CHECK(one_each->area == 1);
    CHECK_FALSE(one_each->standard_error);
    CHECK(*roc_area({{.9, true}, {.8, true}, {.1, false}, {.2, false}})->standard_error == 0);
}

TEST_CASE("judge: refuses what is no chance") {
    for (const double chance : {-.01, 1.01, std::numeric_limits<double>::quiet_NaN()}) {
        const Forecasts bad{{.5, true}, {.5, false}, {chance, true}};
        CHECK_THROWS_AS(static_cast<void>(log_loss(bad)), std::domain_error);
        CHECK_THROWS_AS(static_cast<void>(brier_score(bad)), std::domain_error);
        CHECK_THROWS_AS(static_cast<void>(calibration(bad)), std::domain_error);
        CHECK_THROWS_AS(static_cast<void>(roc_area(bad)), std::domain_error);
        CHECK_THROWS_AS(static_cast<void>(compare({{0, chance, .5, true}})), std::domain_error);
    }
    CHECK_THROWS_AS(static_cast<void>(calibration(kTen, {Bins::By::width, 0})), std::domain_error);
    CHECK_THROWS_AS(static_cast<void>(wilson(2, 1)), std::domain_error);
    CHECK_THROWS_AS(static_cast<void>(wilson(1, 2, 1)), std::domain_error);
}

TEST_CASE("judge: a comparison by hand") {
    // Two learners, two answers each; the loss of the first less that of the second is ln 2 for one learner's answers
    // and 0 for the other's: mean ln 2 / 2, sums by learner +-ln 2, error sqrt(2 * 2 ln2^2) / 4 = ln 2 / 2.
    const auto made = compare({{7, .5, 1, true}, {7, .5, 1, true}, {9, .5, .5, true}, {9, .5, .5, false}});
    REQUIRE(made);
    CHECK(made->difference == doctest::Approx(std::log(2) / 2));
    CHECK(*made->standard_error == doctest::Approx(std::log(2) / 2));
    CHECK(made->learners == 2);
    CHECK(made->answers == 4);
    CHECK_FALSE(compare({{7, .5, 1, true}, {7, .5, .2, true}})->standard_error);
}

TEST_CASE("judge: the error of a comparison counts learners and not answers") {
    for (base::Seed seed = 1; seed <= 40; ++seed) {
        base::Random random{seed};
        std::vector<Rivals> answers;
        std::vector<double> losses;
        for (std::size_t n = 0; n < 30; ++n) {
            answers.push_back({n, .05 + .9 * random.unit(), .05 + .9 * random.unit(), random.below(2) == 0});
            const auto& one = answers.back();
            losses.push_back(*log_loss({{one.first, one.right}}) - *log_loss({{one.second, one.right}}));
        }
        const auto made = compare(answers);
        REQUIRE(made);
        // One answer each: the ordinary standard error of a mean.
        CHECK(std::abs(*made->standard_error - std::sqrt(variance_of_mean(losses))) < 1e-12);
        auto twice = answers;
        twice.insert(twice.end(), answers.begin(), answers.end());
        CHECK(std::abs(*compare(twice)->standard_error - *made->standard_error) < 1e-12);
        for (auto& one : answers) std::swap(one.first, one.second);
        CHECK(compare(answers)->difference == doctest::Approx(-made->difference));
    }
}

TEST_CASE("judge: intervals of a comparison hold the truth though answers of a learner go together") {
    // Two forecasters off by the same amount on either side of .5, learners with an ease of their own: the expected
    // difference is 0. Intervals of 95 % must hold it nearly as often; taking answers for independent would not do.
    std::size_t held = 0;
    std::size_t held_by_answers = 0;
    constexpr std::size_t kRuns = 300;
    for (base::Seed seed = 1; seed <= kRuns; ++seed) {
        base::Random random{seed};
        std::vector<Rivals> answers;
        std::vector<double> losses;
        for (std::size_t learner = 0; learner < 30; ++learner) {
            const double p = 1 / (1 + std::exp(-1.5 * normal(random)));
            for (std::size_t n = 0; n < 20; ++n) {
                answers.push_back({learner, .4, .6, random.unit() < p});
                losses.push_back((answers.back().right ? 1 : -1) * std::log(1.5));
            }
        }
        const auto made = compare(answers);
        REQUIRE(made);
        held += std::abs(made->difference) < 1.96 * *made->standard_error ? 1 : 0;
        held_by_answers += std::abs(made->difference) < 1.96 * std::sqrt(variance_of_mean(losses)) ? 1 : 0;
    }
    CHECK(held > kRuns * 90 / 100);
    CHECK(held < kRuns * 99 / 100);
    CHECK(held_by_answers < kRuns * 80 / 100);
}
