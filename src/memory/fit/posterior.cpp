#include "memory/fit/posterior.hpp"

#include <algorithm>
#include <cmath>

#include "memory/logistic.hpp"
#include "memory/normal.hpp"

namespace memory {
namespace {

constexpr double kFine = 1e-8;
constexpr std::size_t kMostTries = 40;

}  // namespace

bool within_limits(const Unknowns& drawn) {
    const auto& shared = shared_parameters();
    for (std::size_t k = 0; k < kShared; ++k)
        if (drawn[k] < shared[k].least) return false;
    return true;
}

Posterior::Posterior(const Observations& data, const Priors& priors, const Fitted& fitted)
    : data_{&data}, priors_{&priors}, fitted_{&fitted}, curvature_{data, prior_precision(Places{data}, priors)} {
    static_cast<void>(loss_at(data, fitted.at, priors, curvature_));
}

double Posterior::variance(const std::vector<double>& weights) const {
    const auto solved = curvature_.solve(weights, {}, kFine);
    double sum = 0;
    for (std::size_t n = 0; n < weights.size(); ++n) sum += weights[n] * solved[n];
    return sum;
}

Shared Posterior::shared_sd() const {
    Shared sd{};
    std::vector<double> weights(curvature_.places().size(), 0.0);
    for (std::size_t k = 0; k < kShared; ++k) {
        weights[k] = 1;
        sd[k] = std::sqrt(variance(weights));
        weights[k] = 0;
    }
    return sd;
}

Unknowns Posterior::draw(base::Seed seed) const {
    base::Random random{seed};
    Unknowns drawn = draw_unlimited(random);
    // The priors of limited parameters are normals cut off at the limit, and what is beyond it is drawn anew; after
    // many misses the limit itself has to do.
    for (std::size_t tries = 1; tries < kMostTries && !within_limits(drawn); ++tries) drawn = draw_unlimited(random);
    const auto& shared = shared_parameters();
    for (std::size_t k = 0; k < kShared; ++k) drawn[k] = std::max(drawn[k], shared[k].least);
    return drawn;
}

Unknowns Posterior::draw_unlimited(base::Random& random) const {
    Unknowns drawn = curvature_.solve(push(random), {}, 1e-4);
    for (std::size_t n = 0; n < drawn.size(); ++n) drawn[n] += fitted_->at[n];
    return drawn;
}

std::vector<double> Posterior::push(base::Random& random) const {
    const auto& places = curvature_.places();
    std::vector<double> right = prior_precision(places, *priors_);
    for (auto& cell : right) cell = std::sqrt(cell) * normal(random);
    for (const auto& pair : data_->pairs) {
        double by_ease = 0;
        for (std::size_t r = pair.begin; r < pair.end; ++r) {
            const auto at = slopes(*data_, pair, data_->rows[r], fitted_->at);
            const double p = logistic(at.log_odds);
            const double push = std::sqrt(p * (1 - p)) * normal(random);
            by_ease += push;
            right[places.learner_forgets(pair.learner)] += push * at.forgets;
            for (std::size_t k = 0; k < kShared; ++k) right[k] += push * at.shared[k];
        }
        right[places.learner_ease(pair.learner)] += by_ease;
        right[places.point_ease(pair.point)] += by_ease;
        right[places.family_ease(data_->family_of_point[pair.point])] += by_ease;
        right[places.branch_ease(pair.branch)] += by_ease;
    }
    return right;
}

}  // namespace memory
