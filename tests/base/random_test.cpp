#include "base/random.hpp"

#include <algorithm>
#include <numeric>
#include <set>

#include <doctest/doctest.h>

namespace {

// A second transcription of the two published generators (splitmix64 by Vigna, xoshiro256** 1.0 by Blackman and
// Vigna), written from their reference code in C, in its own words and order.
struct Published {
    std::uint64_t s[4];

    explicit Published(std::uint64_t x) {
        for (std::uint64_t& word : s) {
            std::uint64_t z = (x += 0x9e3779b97f4a7c15);
            z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
            z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
            word = z ^ (z >> 31);
        }
    }
    static std::uint64_t rotl(std::uint64_t x, int k) { return (x << k) | (x >> (64 - k)); }
    std::uint64_t next() {
        const std::uint64_t result = rotl(s[1] * 5, 7) * 9;
        const std::uint64_t t = s[1] << 17;
        s[2] ^= s[0];
        s[3] ^= s[1];
        s[1] ^= s[2];
        s[0] ^= s[3];
        s[2] ^= t;
        s[3] = rotl(s[3], 45);
        return result;
    }
};

}  // namespace

TEST_CASE("random: agrees with the published generators") {
    for (const base::Seed seed : {std::uint64_t{0}, std::uint64_t{1}, std::uint64_t{42}, ~std::uint64_t{0}}) {
        base::Random ours{seed};
        Published theirs{seed};
        for (int i = 0; i < 1000; ++i) REQUIRE(ours.next() == theirs.next());
    }
}

TEST_CASE("random: the first word of splitmix64 from zero is the published one") {
    CHECK(Published{0}.s[0] == 0xe220a8397b1dcdaf);
    CHECK(base::stable_hash("") == 0xcbf29ce484222325);
    CHECK(base::stable_hash("a") == 0xaf63dc4c8601ec8c);
    CHECK(base::stable_hash("foobar") == 0x85944171f73967e8);
}

TEST_CASE("random: below stays below and reaches every value") {
    base::Random random{5};
    for (std::uint64_t bound = 1; bound <= 40; ++bound) {
        std::set<std::uint64_t> seen;
        for (int i = 0; i < 1000; ++i) seen.insert(random.below(bound));
        CAPTURE(bound);
        CHECK(*seen.rbegin() == bound - 1);
        CHECK(seen.size() == bound);
    }
}

TEST_CASE("random: below is even, also for bounds that do not divide the range") {
    base::Random random{6};
    std::vector<int> counts(6);
    for (int i = 0; i < 60'000; ++i) ++counts[random.below(6)];
    for (const int count : counts) CHECK(std::abs(count - 10'000) < 500);
    const std::uint64_t two_thirds = ~std::uint64_t{0} / 3 * 2;
    int upper = 0;
    for (int i = 0; i < 10'000; ++i) upper += random.below(two_thirds) >= two_thirds / 2 ? 1 : 0;
    CHECK(std::abs(upper - 5000) < 300);
}

TEST_CASE("random: unit stays in its half-open range, with the mean of one") {
    base::Random random{7};
    double sum = 0;
    for (int i = 0; i < 20'000; ++i) {
        const double drawn = random.unit();
        REQUIRE(drawn >= 0.0);
        REQUIRE(drawn < 1.0);
        sum += drawn;
    }
    CHECK(sum / 20'000 == doctest::Approx(0.5).epsilon(0.02));
}

TEST_CASE("random: property: a shuffle is a permutation, the same for the same seed") {
    for (base::Seed seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        std::vector<int> items(base::Random{seed}.below(20));
        std::iota(items.begin(), items.end(), 0);
        auto once = items;
        auto again = items;
        base::Random{seed}.shuffle(once);
        base::Random{seed}.shuffle(again);
        CHECK(once == again);
        CHECK(std::is_permutation(once.begin(), once.end(), items.begin()));
    }
}

TEST_CASE("random: a shuffle reaches every order") {
    std::set<std::vector<int>> seen;
    base::Random random{8};
    for (int i = 0; i < 500; ++i) {
        std::vector<int> items = {0, 1, 2, 3};
        random.shuffle(items);
        seen.insert(items);
    }
    CHECK(seen.size() == 24);
}

TEST_CASE("random: seeds for different purposes differ") {
    std::set<base::Seed> seen;
    for (base::Seed from = 0; from < 100; ++from)
        for (const auto* purpose : {"options", "call", "ask 1", "ask 2"}) seen.insert(base::derive_seed(from, purpose));
    CHECK(seen.size() == 400);
    CHECK(base::derive_seed(1, "call") == base::derive_seed(1, "call"));
}
