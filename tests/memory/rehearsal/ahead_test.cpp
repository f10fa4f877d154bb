#include "memory/rehearsal/ahead.hpp"

#include <numeric>

#include <doctest/doctest.h>

namespace {

using memory::Parameters;
using memory::rehearsal::Ahead;

constexpr std::size_t kPoints = 20;

Ahead small() {
    Ahead ahead;
    ahead.first_day = base::from_milliseconds(1'767'225'600'000);
    ahead.days = 10;
    ahead.seconds_a_day = 120;
    ahead.exam = base::after_days(ahead.first_day, 10.375);
    ahead.states.resize(kPoints);
    for (std::uint32_t n = 0; n < kPoints; ++n) ahead.families.push_back(n % 2);
    ahead.weights.assign(kPoints, 1.0);
    return ahead;
}

std::vector<std::vector<Parameters>> draws(std::size_t count) {
    std::vector<std::vector<Parameters>> all(count, std::vector<Parameters>(kPoints));
    for (std::size_t draw = 0; draw < count; ++draw)
        for (auto& params : all[draw]) params.learner_ease = -0.5 + 0.2 * static_cast<double>(draw);
    return all;
}

double mean(const std::vector<double>& chances) {
    return std::accumulate(chances.begin(), chances.end(), 0.0) / static_cast<double>(chances.size());
}

}  // namespace

TEST_CASE("ahead: no days of study leave every point where it stands") {
    Ahead ahead = small();
    ahead.days = 0;
    ahead.states[3] = memory::advance({}, base::after_days(ahead.first_day, -2), 1, memory::Sure::fairly);
    const auto params = draws(2);
    const auto chances = memory::rehearsal::look_ahead(ahead, params);
    for (std::size_t draw = 0; draw < 2; ++draw)
        for (std::size_t n = 0; n < kPoints; ++n)
            CHECK(chances[draw][n] == memory::recall_probability(ahead.states[n], ahead.exam, params[draw][n]));
}

TEST_CASE("ahead: the same for any number of threads, and each draw for itself") {
    Ahead ahead = small();
    const auto alone = memory::rehearsal::look_ahead(ahead, draws(5));
    ahead.threads = 4;
    CHECK(memory::rehearsal::look_ahead(ahead, draws(5)) == alone);
    CHECK(memory::rehearsal::look_ahead(ahead, draws(3))[2] == alone[2]);
    ahead.seed = 2;
    CHECK(memory::rehearsal::look_ahead(ahead, draws(5)) != alone);
}

TEST_CASE("ahead: more time a day and an easier draw lead to more") {
    Ahead ahead = small();
    const auto little = memory::rehearsal::look_ahead(ahead, draws(4));
    ahead.seconds_a_day = 600;
    const auto much = memory::rehearsal::look_ahead(ahead, draws(4));
    for (std::size_t draw = 0; draw < 4; ++draw) CHECK(mean(much[draw]) > mean(little[draw]));
    CHECK(mean(little[3]) > mean(little[0]));
}
