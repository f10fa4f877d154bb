#include "memory/score/score_distribution.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>
#include <numbers>
#include <numeric>
#include <stdexcept>
#include <vector>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "memory/score/outcomes.hpp"

using namespace memory;
using outcomes::any_chances;
using outcomes::Chances;

namespace {

double widest(const std::vector<double>& one, const std::vector<double>& other) {
    REQUIRE(one.size() == other.size());
    double most = 0;
    for (std::size_t n = 0; n < one.size(); ++n) most = std::max(most, std::abs(one[n] - other[n]));
    return most;
}

Chances evenly(double from, double to, std::size_t count) {
    Chances chances(count);
    for (std::size_t n = 0; n < count; ++n)
        chances[n] = from + (to - from) * static_cast<double>(n) / static_cast<double>(count - 1);
    return chances;
}

/// Closed form through the discrete Fourier transform of the characteristic function.
/// Source  Hong 2013, On computing the distribution function for the Poisson binomial distribution, Computational
///         Statistics & Data Analysis 59: 41-51 (form from memory).
std::vector<double> by_fourier(const Chances& chances) {
    const std::size_t size = chances.size() + 1;
    const double turn = 2 * std::numbers::pi / static_cast<double>(size);
    std::vector<std::complex<double>> characteristic(size);
    for (std::size_t l = 0; l < size; ++l) {
        const auto z = std::polar(1.0, turn * static_cast<double>(l));
        characteristic[l] = 1;
        for (const double p : chances) characteristic[l] *= 1.0 - p + p * z;
    }
    std::vector<double> cells(size);
    for (std::size_t k = 0; k < size; ++k) {
        std::complex<double> sum = 0;
        for (std::size_t l = 0; l < size; ++l)
            sum += characteristic[l] * std::polar(1.0, -turn * static_cast<double>(l * k % size));
        cells[k] = sum.real() / static_cast<double>(size);
    }
    return cells;
}

double log_choose(double n, double k) {
    return std::lgamma(n + 1) - std::lgamma(k + 1) - std::lgamma(n - k + 1);
}

}  // namespace

TEST_CASE("score distribution: numbers by R") {
    // published: output of the R package PoissonBinomial (dpbinom, ppbinom), seen as a table of it; the chances of the
    // first case are the example on the manual page of the R package poibin (seen, without its output).
    const auto ten = number_right({.1, .2, .3, .4, .5, .1, .2, .3, .4, .5});
    CHECK(std::abs(ten.chances()[0] - .02286144) < 1e-8);
    CHECK(std::abs(ten.at_most(2) - .37211652) < 1e-8);
    CHECK(std::abs(ten.at_most(5) - .96181016) < 1e-8);
    const std::vector<double> printed{.02286144,  .11231136, .23694372,  .28171848, .20829484, .09968032,
                                      .031134840, .00623848, .000763720, 5.136e-05, 1.44e-06};
    CHECK(widest(ten.chances(), printed) < 1e-15);

    const auto eighty = number_right(evenly(.50, .95, 80));
    CHECK(std::abs(eighty.mean() - 58) < 1e-6);
    CHECK(std::abs(eighty.variance() - 14.56582) < 5e-6);
    CHECK(std::abs(eighty.at_least(56) - .7467105) < 1e-6);
    CHECK(std::abs(eighty.at_least(60) - .3522501) < 1e-6);
    CHECK(std::abs(eighty.chances()[58] - .10413935775223142) < 1e-14);
    // Twelve digits in a tail of 1e-51: nothing was lost by subtraction.
    CHECK(std::abs(eighty.chances()[0] / 7.6279016648979643e-51 - 1) < 1e-12);
}

TEST_CASE("score distribution: agrees with the Fourier form") {
    base::Random random{11};
    for (std::size_t count : {1, 2, 5, 10, 33, 80})
        for (std::size_t round = 0; round < 3; ++round) {
            const auto chances = any_chances(random, count);
            CHECK_MESSAGE(widest(number_right(chances).chances(), by_fourier(chances)) < 1e-12, count);
        }
}

TEST_CASE("score distribution: agrees with all outcomes, one by one") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        base::Random random{seed};
        const auto chances = any_chances(random, random.below(8));
        const auto slow = outcomes::of_set(chances, outcomes::everything(chances));
        CHECK_MESSAGE(widest(number_right(chances).chances(), slow) < 1e-12, "seed ", seed);
    }
}

TEST_CASE("score distribution: a draw of questions agrees with all sets, one by one") {
    for (base::Seed seed = 1; seed <= 40; ++seed) {
        base::Random random{seed};
        const auto chances = any_chances(random, 1 + random.below(7));
        for (std::size_t asked = 0; asked <= chances.size(); ++asked)
            CHECK_MESSAGE(
                widest(number_right_drawn(chances, asked).chances(), outcomes::of_all_sets(chances, asked)) < 1e-12,
                "seed ", seed, " asked ", asked);
    }
}

TEST_CASE("score distribution: more asked than points asks every point as often as it goes") {
    for (base::Seed seed = 1; seed <= 40; ++seed) {
        base::Random random{seed};
        const auto chances = any_chances(random, 1 + random.below(5));
        const std::size_t times = 1 + random.below(3);
        const std::size_t rest = random.below(chances.size());
        auto slow = outcomes::of_all_sets(chances, rest);
        for (std::size_t n = 0; n < times; ++n)
            slow = convolved(slow, outcomes::of_set(chances, outcomes::everything(chances)));
        const auto quick = number_right_drawn(chances, times * chances.size() + rest);
        CHECK_MESSAGE(widest(quick.chances(), slow) < 1e-12, "seed ", seed);
    }
}

TEST_CASE("score distribution: leaving one question out gives the slope") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        base::Random random{seed};
        Chances chances(static_cast<std::size_t>(1 + random.below(12)));
        for (auto& p : chances) p = .01 + .98 * random.unit();
        const auto asked = static_cast<std::size_t>(1 + random.below(3 * chances.size()));
        const auto less = number_right_without_one(chances, asked).chances();
        REQUIRE(less.size() == asked);
        const double h = 1e-5;
        auto up = chances;
        auto down = chances;
        for (auto& p : up) p += h;
        for (auto& p : down) p -= h;
        const auto above = number_right_drawn(up, asked).chances();
        const auto below = number_right_drawn(down, asked).chances();
        for (std::size_t right = 0; right <= asked; ++right) {
            const double gain = right > 0 ? less[right - 1] : 0;
            const double loss = right < asked ? less[right] : 0;
            const double slope = static_cast<double>(asked) * (gain - loss);
            CHECK_MESSAGE(std::abs((above[right] - below[right]) / (2 * h) - slope) < 1e-6, "seed ", seed);
        }
    }
}

TEST_CASE("score distribution: known or not known and nothing between is the hypergeometric") {
    for (const std::size_t known : {0, 1, 150, 420, 599, 600}) {
        Chances chances(600, 0.0);
        std::fill_n(chances.begin(), known, 1.0);
        base::Random random{known};
        random.shuffle(chances);
        const auto score = number_right_drawn(chances, 80);
        const double all = log_choose(600, 80);
        for (std::size_t right = 0; right <= 80; ++right) {
            const auto r = static_cast<double>(right);
            const auto k = static_cast<double>(known);
            const bool can_be = right <= known && 80 - right <= 600 - known;
            const double exact = can_be ? std::exp(log_choose(k, r) + log_choose(600 - k, 80 - r) - all) : 0.0;
            CHECK_MESSAGE(std::abs(score.chances()[right] - exact) < 1e-11, known, " known, ", right, " right");
        }
    }
}

TEST_CASE("score distribution: equal chances give the binomial, however many are drawn") {
    for (const double p : {0.0, 1e-9, 0.25, 0.9, 1.0})
        CHECK(widest(number_right_drawn(Chances(50, p), 20).chances(), number_right(Chances(20, p)).chances()) < 1e-13);
}

TEST_CASE("score distribution: mean and variance of a draw follow the formulas of survey sampling") {
    // Without replacement the variance of a sum of k of M is k (1 - k/M) S^2, S^2 with M - 1 below; the luck of each
    // answer comes on top. Source: Cochran 1977, Sampling Techniques (from memory).
    for (base::Seed seed = 1; seed <= 40; ++seed) {
        base::Random random{seed};
        const auto points = static_cast<std::size_t>(2 + random.below(90));
        const auto asked = static_cast<std::size_t>(1 + random.below(points));
        const auto chances = any_chances(random, points);
        const auto m = static_cast<double>(points);
        const auto k = static_cast<double>(asked);
        const double mean = std::accumulate(chances.begin(), chances.end(), 0.0) / m;
        double spread = 0;
        double luck = 0;
        for (const double p : chances) {
            spread += (p - mean) * (p - mean) / (m - 1);
            luck += p * (1 - p) / m;
        }
        const auto score = number_right_drawn(chances, asked);
        CHECK_MESSAGE(std::abs(score.mean() - k * mean) < 1e-11, "seed ", seed);
        CHECK_MESSAGE(std::abs(score.variance() - (k * (1 - k / m) * spread + k * luck)) < 1e-10, "seed ", seed);
    }
}

TEST_CASE("score distribution: sums, order, and a better chance never hurts") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        base::Random random{seed};
        auto chances = any_chances(random, 2 + random.below(40));
        const auto asked = static_cast<std::size_t>(random.below(chances.size() + 1));
        const auto score = number_right_drawn(chances, asked);
        CHECK(std::abs(std::accumulate(score.chances().begin(), score.chances().end(), 0.0) - 1) < 1e-13);
        auto shuffled = chances;
        random.shuffle(shuffled);
        CHECK_MESSAGE(widest(number_right_drawn(shuffled, asked).chances(), score.chances()) < 1e-13, "seed ", seed);
        auto& better = chances[static_cast<std::size_t>(random.below(chances.size()))];
        better = better + (1 - better) * random.unit();
        const auto raised = number_right_drawn(chances, asked);
        for (std::size_t right = 0; right <= asked; ++right)
            CHECK_MESSAGE(raised.at_least(right) >= score.at_least(right) - 1e-13, "seed ", seed);
    }
}

TEST_CASE("score distribution: at least, at most and quantiles agree with one another") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        base::Random random{seed};
        const auto score = number_right(any_chances(random, random.below(30)));
        CHECK(score.at_least(0) == doctest::Approx(1));
        CHECK(score.at_least(score.most() + 1) == 0);
        CHECK(score.at_most(score.most() + 7) == doctest::Approx(1));
        for (std::size_t right = 0; right < score.most(); ++right)
            CHECK(std::abs(score.at_most(right) + score.at_least(right + 1) - 1) < 1e-13);
        const double share = random.unit();
        const auto at = score.quantile(share);
        CHECK(score.at_most(at) >= share - 1e-11);
        if (at > 0) CHECK(score.at_most(at - 1) < share);
    }
}

TEST_CASE("score distribution: a quantile by hand") {
    const ScoreDistribution coins = number_right({.5, .5});  // 1/4, 1/2, 1/4
    CHECK(coins.quantile(0) == 0);
    CHECK(coins.quantile(.25) == 0);
    CHECK(coins.quantile(.2501) == 1);
    CHECK(coins.quantile(.75) == 1);
    CHECK(coins.quantile(1) == 2);
    CHECK(coins.mean() == 1);
    CHECK(coins.variance() == .5);
}

TEST_CASE("score distribution: sections add up, and a mixture is the average") {
    base::Random random{5};
    const auto one = any_chances(random, 6);
    const auto other = any_chances(random, 9);
    auto both = one;
    both.insert(both.end(), other.begin(), other.end());
    const auto sum = sum_of({number_right(one), number_right(other)});
    CHECK(widest(sum.chances(), number_right(both).chances()) < 1e-14);

    const auto mixed = mixture({number_right({1}), number_right({0, 0})});
    CHECK(mixed.chances() == std::vector<double>{.5, .5, 0});
    // Law of total variance: two equally likely means apart by d add d^2 / 4.
    const auto low = number_right(Chances(10, .2));
    const auto high = number_right(Chances(10, .8));
    CHECK(mixture({low, high}).variance() == doctest::Approx(1.6 + 9));
}

TEST_CASE("score distribution: nothing asked is none right") {
    CHECK(number_right({}).chances() == std::vector<double>{1});
    CHECK(number_right_drawn({}, 0).chances() == std::vector<double>{1});
    CHECK(number_right_drawn({.3}, 0).chances() == std::vector<double>{1});
    CHECK(sum_of({}).chances() == std::vector<double>{1});
    CHECK(mixture({}).chances() == std::vector<double>{1});
    CHECK(ScoreDistribution{}.mean() == 0);
    CHECK(ScoreDistribution{}.quantile(.5) == 0);
    CHECK(convolved({}, {1}).empty());
}

TEST_CASE("score distribution: refuses what is no chance") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const double p : {-1e-9, 1 + 1e-9, nan, std::numeric_limits<double>::infinity()}) {
        CHECK_THROWS_AS(static_cast<void>(number_right({.5, p})), std::domain_error);
        CHECK_THROWS_AS(static_cast<void>(number_right_drawn({.5, p}, 1)), std::domain_error);
        CHECK_THROWS_AS(static_cast<void>(number_right({.5}).quantile(p)), std::domain_error);
    }
    CHECK_THROWS_AS(static_cast<void>(number_right_drawn({}, 1)), std::domain_error);
    CHECK_THROWS_AS(static_cast<void>(number_right_without_one({}, 1)), std::domain_error);
    CHECK_THROWS_AS(static_cast<void>(number_right_without_one({.5}, 0)), std::domain_error);
    CHECK_THROWS_AS(ScoreDistribution{std::vector<double>{}}, std::domain_error);
    CHECK_THROWS_AS(ScoreDistribution({.5, .4}), std::domain_error);
    CHECK_THROWS_AS(ScoreDistribution({1.5, -.5}), std::domain_error);
    CHECK_THROWS_AS(ScoreDistribution({nan, 1}), std::domain_error);
}

TEST_CASE("score distribution: eighty of six hundred points stay exact") {
    // Against the moments of survey sampling, for a size no list of sets can reach.
    const auto chances = evenly(.2, .98, 600);
    const auto score = number_right_drawn(chances, 80);
    double spread = 0;
    double luck = 0;
    for (const double p : chances) {
        spread += (p - .59) * (p - .59) / 599;
        luck += p * (1 - p) / 600;
    }
    CHECK(std::abs(score.mean() - 80 * .59) < 1e-10);
    CHECK(std::abs(score.variance() - 80 * ((1 - 80.0 / 600) * spread + luck)) < 1e-9);
}
