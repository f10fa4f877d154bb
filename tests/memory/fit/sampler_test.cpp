#include "memory/fit/sampler.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "memory/fit/crew.hpp"

namespace {

using memory::Posterior;

/// One learner, one point: everything but the ease of the point is held all but fixed, so that a grid can tell the
/// truth.
memory::Priors all_but_the_point() {
    auto priors = memory::shipped_priors();
    for (auto& sd : priors.sd) sd = 1e-4;
    priors.learner_ease = priors.learner_forgets = priors.family_ease = priors.branch_ease = 1e-4;
    priors.point_ease = 2.0;
    return priors;
}

memory::Observations five_right() {
    std::vector<memory::FitAnswer> answers(5);
    for (std::size_t n = 0; n < answers.size(); ++n) {
        answers[n].mark = 1;
        answers[n].at = base::after_days({}, 3.0 * static_cast<double>(n));
    }
    return memory::observe(answers, 1, {0});
}

struct Moments {
    double mean = 0, sd = 0, low = 0, high = 0;  ///< low, high: 5 and 95 % quantile
};

Moments by_grid(const memory::Observations& data, const memory::Priors& priors) {
    const memory::Places places{data};
    auto at = memory::at_prior(places, priors);
    std::vector<double> ease;
    std::vector<double> weight;
    for (int n = -1200; n <= 1200; ++n) {
        ease.push_back(0.01 * n);
        at[places.point_ease(0)] = ease.back();
        weight.push_back(std::exp(-memory::loss_at(data, at, priors).value));
    }
    Moments moments;
    double all = 0;
    for (std::size_t n = 0; n < ease.size(); ++n) {
        all += weight[n];
        moments.mean += weight[n] * ease[n];
        moments.sd += weight[n] * ease[n] * ease[n];
    }
    moments.mean /= all;
    moments.sd = std::sqrt(moments.sd / all - moments.mean * moments.mean);
    double below = 0;
    for (std::size_t n = 0; n < ease.size(); ++n) {
        if (below < 0.05 * all) moments.low = ease[n];
        if (below < 0.95 * all) moments.high = ease[n];
        below += weight[n];
    }
    return moments;
}

Moments of(std::vector<double> sample) {
    std::sort(sample.begin(), sample.end());
    Moments moments;
    const auto count = static_cast<double>(sample.size());
    for (const double one : sample) moments.mean += one / count;
    for (const double one : sample) moments.sd += (one - moments.mean) * (one - moments.mean) / count;
    moments.sd = std::sqrt(moments.sd);
    moments.low = sample[sample.size() / 20];
    moments.high = sample[sample.size() - sample.size() / 20];
    return moments;
}

}  // namespace

TEST_CASE("sampler: five right answers lean to the easy side, as a grid has it and the normal does not") {
    const auto data = five_right();
    const auto priors = all_but_the_point();
    const auto fitted = memory::fit(data, priors);
    const Posterior posterior{data, priors, fitted};
    const memory::Places places{data};
    const Moments truth = by_grid(data, priors);
    std::vector<double> normal;
    std::vector<double> sampled;
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        normal.push_back(posterior.draw(seed)[places.point_ease(0)]);
        sampled.push_back(memory::sample(posterior, 4, seed).at[places.point_ease(0)]);
    }
    const double error = truth.sd / std::sqrt(3000.0);
    CHECK(std::abs(of(sampled).mean - truth.mean) < 4 * error);
    CHECK(of(sampled).sd == doctest::Approx(truth.sd).epsilon(0.06));
    CHECK(std::abs(of(sampled).low - truth.low) < 0.12 * truth.sd);
    CHECK(std::abs(of(sampled).high - truth.high) < 0.12 * truth.sd);
    CHECK(of(normal).mean < truth.mean - 8 * error);
}

TEST_CASE("sampler: most proposals are taken, also with many unknowns, and limits are kept") {
    for (const std::size_t points : {20U, 300U}) {
        const auto crew = crew::draw({4, points, 3, 200, 60}, memory::shipped_priors(), 9);
        const auto data = crew.observed();
        const auto priors = memory::shipped_priors();
        const auto fitted = memory::fit(data, priors);
        const Posterior posterior{data, priors, fitted};
        std::size_t taken = 0;
        std::size_t proposed = 0;
        for (base::Seed seed = 1; seed <= 15; ++seed) {
            const auto one = memory::sample(posterior, 4, seed);
            taken += one.taken;
            proposed += one.proposed;
            CHECK(memory::within_limits(one.at));
        }
        CHECK(static_cast<double>(taken) > 0.4 * static_cast<double>(proposed));
    }
}

TEST_CASE("sampler: the same seed gives the same draw, and no answers give the priors") {
    const auto data = memory::observe({}, 1, {0});
    const auto priors = memory::shipped_priors();
    const auto fitted = memory::fit(data, priors);
    const Posterior posterior{data, priors, fitted};
    CHECK(memory::sample(posterior, 2, 5).at == memory::sample(posterior, 2, 5).at);
    std::vector<double> ease;
    for (base::Seed seed = 1; seed <= 1500; ++seed)
        ease.push_back(memory::sample(posterior, 2, seed).at[memory::Places{data}.point_ease(0)]);
    CHECK(std::abs(of(ease).mean) < 0.1);
    CHECK(of(ease).sd == doctest::Approx(priors.point_ease).epsilon(0.08));
}
