#include "memory/fit/posterior.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "memory/fit/crew.hpp"

using namespace memory;

TEST_CASE("posterior: draws spread as the inverse of the curvature says") {
    const Priors priors = shipped_priors();
    const auto data = crew::draw({5, 20, 2, 100, 60}, priors, 41).observed();
    const auto fitted = fit(data, priors);
    const Posterior posterior{data, priors, fitted};
    const Places places{data};
    constexpr std::size_t kDraws = 1500;
    std::vector<Unknowns> draws;
    for (std::size_t n = 0; n < kDraws; ++n) draws.push_back(posterior.draw(n + 1));
    // A learner's ease, a point's, and the two together: what a prediction is made of.
    std::vector<std::vector<double>> weights(3, std::vector<double>(places.size(), 0.0));
    weights[0][places.learner_ease(1)] = 1;
    weights[1][places.point_ease(7)] = 1;
    weights[2] = weights[0];
    weights[2][places.point_ease(7)] = 1;
    weights[2][0] = 1;
    for (const auto& weight : weights) {
        double sum = 0;
        double squares = 0;
        for (const auto& draw : draws) {
            double value = 0;
            for (std::size_t n = 0; n < weight.size(); ++n) value += weight[n] * (draw[n] - fitted.at[n]);
            sum += value;
            squares += value * value;
        }
        const double variance = posterior.variance(weight);
        CHECK(std::abs(sum / kDraws) < 4 * std::sqrt(variance / kDraws));
        // The standard error of a variance from n normal draws is sqrt(2 / n) of it; four of them.
        CHECK(std::abs(squares / kDraws / variance - 1) < 4 * std::sqrt(2.0 / kDraws));
    }
}

TEST_CASE("posterior: answers narrow what is believed, and never widen it") {
    const Priors priors = shipped_priors();
    const auto crew = crew::draw({}, priors, 42);
    const auto data = crew.observed();
    const auto sd = Posterior{data, priors, fit(data, priors)}.shared_sd();
    for (std::size_t k = 0; k < kShared; ++k) CHECK(sd[k] <= priors.sd[k] * (1 + 1e-9));
    CHECK(sd[0] < 0.7 * priors.sd[0]);
}

TEST_CASE("posterior: simulated parameters are found again within the stated uncertainty") {
    // Truth from the priors, answers from the truth: of the 90 % intervals, 85 to 95 % must hold it.
    const Priors priors = shipped_priors();
    const double wide = normal_quantile(0.95);
    std::size_t held = 0;
    std::size_t all = 0;
    for (base::Seed seed = 1; seed <= 200; ++seed) {
        const auto crew = crew::draw({6, 30, 3, 120, 60}, priors, 1000 + seed);
        const auto data = crew.observed();
        const auto fitted = fit(data, priors);
        CHECK(fitted.converged);
        const auto sd = Posterior{data, priors, fitted}.shared_sd();
        for (std::size_t k = 0; k < kShared; ++k) {
            if (priors.sd[k] < 0.01) continue;  // the measure of the others, not estimated
            held += std::abs(fitted.at[k] - crew.truth[k]) <= wide * sd[k] ? 1 : 0;
            ++all;
        }
        const Places places{data};
        std::vector<double> weight(places.size(), 0.0);
        for (std::size_t l = 0; l < 6; ++l) {
            weight[places.learner_ease(l)] = 1;
            const double spread = std::sqrt(Posterior{data, priors, fitted}.variance(weight));
            weight[places.learner_ease(l)] = 0;
            held += std::abs(fitted.at[places.learner_ease(l)] - crew.learner_ease[l]) <= wide * spread ? 1 : 0;
            ++all;
        }
    }
    const double coverage = static_cast<double>(held) / static_cast<double>(all);
    CAPTURE(coverage);
    CHECK(coverage >= 0.85);
    CHECK(coverage <= 0.95);
}
