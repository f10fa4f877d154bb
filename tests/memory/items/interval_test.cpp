#include "memory/items/interval.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "memory/normal.hpp"

using namespace memory;

TEST_CASE("share interval: its ends solve Wilson's quadratic") {
    // By definition the ends are the shares p at which k lies exactly z standard errors away: (k/n - p)^2 = z^2
    // p(1-p)/n.
    for (const double n : {1.0, 7.0, 60.0, 5000.0})
        for (const double share : {0.0, 0.1, 0.5, 0.97, 1.0})
            for (const double z : {1.0, 1.96, 2.58}) {
                const auto found = share_interval(share * n, n, z);
                CHECK(found.estimate == doctest::Approx(share));
                for (const double end : {found.low, found.high})
                    CHECK(std::abs(std::pow(share - end, 2) - z * z * end * (1 - end) / n) < 1e-12);
                CHECK(found.low <= share + 1e-12);
                CHECK(found.high >= share - 1e-12);
                CHECK(found.low >= 0);
                CHECK(found.high <= 1);
            }
    CHECK(share_interval(0, 0, 1.96).low == 0);
    CHECK(share_interval(0, 0, 1.96).high == 1);
}

TEST_CASE("correlation interval: holds the truth in nineteen cases of twenty, and small chances are as rare as said") {
    std::size_t held = 0;
    std::size_t rare = 0;
    constexpr std::size_t kCases = 2000;
    constexpr std::size_t kPairs = 20;
    base::Random random{3};
    const auto correlation = [&random](double truth) {
        double x = 0, y = 0, xx = 0, yy = 0, xy = 0;
        for (std::size_t n = 0; n < kPairs; ++n) {
            const double a = normal(random);
            const double b = truth * a + std::sqrt(1 - truth * truth) * normal(random);
            x += a, y += b, xx += a * a, yy += b * b, xy += a * b;
        }
        return (xy - x * y / kPairs) / std::sqrt((xx - x * x / kPairs) * (yy - y * y / kPairs));
    };
    for (std::size_t n = 0; n < kCases; ++n) {
        const auto interval = correlation_interval(correlation(0.4), kPairs, 1.96);
        held += interval.low <= 0.4 && 0.4 <= interval.high ? 1 : 0;
        rare += chance_of_correlation(correlation(0), kPairs) < 0.02 ? 1 : 0;
    }
    // Binomial standard deviations of .0049 and .0031; three of them, and .004 for the normal being an approximation.
    CHECK(std::abs(static_cast<double>(held) / kCases - 0.95) < 0.019);
    CHECK(std::abs(static_cast<double>(rare) / kCases - 0.02) < 0.0135);
}

TEST_CASE("correlation interval: few pairs and perfect ones are defined") {
    CHECK(correlation_interval(0.9, 3, 1.96).low == -1);
    CHECK(correlation_interval(0.9, 3, 1.96).high == 1);
    CHECK(chance_of_correlation(0.9, 3) == 1);
    const auto perfect = correlation_interval(1, 30, 1.96);
    CHECK(perfect.low > 0.99);
    CHECK(perfect.high <= 1);
    CHECK(chance_of_correlation(1, 30) < 1e-9);
    CHECK(chance_of_correlation(0, 30) == doctest::Approx(0.5));
    CHECK(chance_of_correlation(-1, 30) == doctest::Approx(1));
}
