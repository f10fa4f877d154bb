#include "memory/fit/belief.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "memory/fit/crew.hpp"
#include "memory/fit/posterior.hpp"

namespace {

using memory::Asked;
using memory::Belief;

constexpr std::size_t kMany = 400;
const base::Instant kWhen = base::after_days({}, 80);

double log_odds(double p) {
    return std::log(p / (1 - p));
}

double width(const memory::Chance& chance) {
    return log_odds(chance.high) - log_odds(chance.low);
}

memory::RecallState once(double days_ago) {
    return memory::advance({}, base::after_days(kWhen, -days_ago), 1.0, memory::Sure::fairly);
}

}  // namespace

TEST_CASE("belief: with no answers the shipped parameters speak, as uncertain as the priors are") {
    const auto priors = memory::shipped_priors();
    const Belief belief{memory::observe({}, 2, {0, 0, 1}), priors, kMany, 7};
    const auto chance = belief.recall({}, kWhen, {1, 2, 0});
    CHECK(chance.middle == doctest::Approx(memory::recall_probability({}, kWhen, {})).epsilon(1e-6));
    // By hand: a point never answered weighs "unseen", the form, and all eases once each.
    const auto& shared = memory::shared_parameters();
    double variance = 0;
    for (const double sd : {shared[1].sd, shared[memory::kActivationFeatures + memory::kDecayFeatures].sd,
                            priors.learner_ease, priors.point_ease, priors.family_ease, priors.branch_ease})
        variance += sd * sd;
    CHECK(width(chance) == doctest::Approx(2 * 1.645 * std::sqrt(variance)).epsilon(0.12));
    CHECK(chance.low < chance.middle);
    CHECK(chance.middle < chance.high);
}

TEST_CASE("belief: the most probable chance is that of the fit, form and all eases counted") {
    const auto crew = crew::draw({6, 30, 3, 120, 60}, memory::shipped_priors(), 3);
    const Belief belief{crew.observed(), memory::shipped_priors(), 2, 1};
    const auto& data = belief.data();
    for (std::size_t n = 0; n < data.pairs.size(); n += 7) {
        const auto& pair = data.pairs[n];
        const auto& row = data.rows[pair.begin];
        const auto chance = belief.recall({}, kWhen, {pair.learner, pair.point, row.form});
        const double odds = memory::log_odds(data, pair, row, belief.fitted().at);
        CHECK(chance.middle == doctest::Approx(1 / (1 + std::exp(-odds))).epsilon(1e-6));
    }
}

TEST_CASE("belief: draws spread as the curvature says") {
    const auto crew = crew::draw({6, 30, 3, 120, 60}, memory::shipped_priors(), 4);
    const auto priors = memory::shipped_priors();
    const Belief belief{crew.observed(), priors, kMany, 11};
    const memory::Posterior posterior{belief.data(), priors, belief.fitted()};
    const auto& pair = belief.data().pairs.front();
    const memory::Places places{belief.data()};
    std::vector<double> weights(places.size(), 0.0);
    weights[1] = 1;  // the chance before any answer
    weights[memory::kActivationFeatures + memory::kDecayFeatures] = 1;
    weights[places.learner_ease(pair.learner)] = 1;
    weights[places.point_ease(pair.point)] = 1;
    weights[places.family_ease(belief.data().family_of_point[pair.point])] = 1;
    weights[places.branch_ease(pair.branch)] = 1;
    const double exact = 2 * 1.645 * std::sqrt(posterior.variance(weights));
    CHECK(width(belief.recall({}, kWhen, {pair.learner, pair.point, 0})) == doctest::Approx(exact).epsilon(0.12));
}

TEST_CASE("belief: what was asked often is known more narrowly than what was never asked") {
    auto crew = crew::draw({4, 20, 2, 200, 60}, memory::shipped_priors(), 5);
    crew.family_of_point.push_back(0);  // in a family that is known
    crew.family_of_point.push_back(2);  // in one that is not
    const Belief belief{crew.observed(), memory::shipped_priors(), kMany, 2};
    const auto state = once(5);
    const double asked = width(belief.recall(state, kWhen, {0, 0, 0}));
    const double sibling = width(belief.recall(state, kWhen, {0, 20, 0}));
    const double stranger = width(belief.recall(state, kWhen, {0, 21, 0}));
    CHECK(asked < sibling);
    CHECK(sibling < stranger);
}

TEST_CASE("belief: the same seed gives the same interval, another seed another") {
    const auto crew = crew::draw({3, 10, 2, 40, 30}, memory::shipped_priors(), 6);
    const auto chance = [&](base::Seed seed) {
        return Belief{crew.observed(), memory::shipped_priors(), 20, seed}.recall(once(2), kWhen, {0, 0, 0});
    };
    CHECK(chance(1).low == chance(1).low);
    CHECK(chance(1).low != chance(2).low);
    CHECK(chance(1).middle == chance(2).middle);
}
