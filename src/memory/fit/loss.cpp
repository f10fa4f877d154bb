#include "memory/fit/loss.hpp"

#include <algorithm>
#include <cmath>

namespace memory {
namespace {

constexpr std::size_t kDense = kActivationFeatures + kDecayFeatures;
constexpr double kLimit = 700;  // beyond it e^x leaves double

/// The sum of the eases that all answers of a pair share.
double eases(const Observations& data, const Places& places, const Pair& pair, const Unknowns& at) {
    return at[places.learner_ease(pair.learner)] + at[places.point_ease(pair.point)] +
           at[places.family_ease(data.family_of_point[pair.point])] + at[places.branch_ease(pair.branch)];
}

/// Sums over the answers of one pair, added to the rest once the pair is through.
struct PairSums {
    double residual = 0, residual_forgets = 0;
    double weight = 0, across = 0, forgets = 0;
    std::array<double, kShared> shared{}, shared_forgets{};
};

struct Point {
    std::array<double, kDense> slope{};  ///< of the log odds by activation and decay parameters
    double forgets = 0;                  ///< and by the logarithm of the decay
    double log_odds = 0;
};

inline Point point_at(const Observation& row, const Unknowns& at, double ease, double log_decay_of_learner) {
    Point point;
    double activation = ease + at[kDense + row.form];
    for (std::size_t k = 0; k < kActivationFeatures; ++k) {
        point.slope[k] = static_cast<double>(row.activation[k]);
        activation += point.slope[k] * at[k];
    }
    if (row.delay > 0) {
        double log_decay = log_decay_of_learner;
        for (std::size_t k = 0; k < kDecayFeatures; ++k)
            log_decay += static_cast<double>(row.decay[k]) * at[kActivationFeatures + k];
        point.forgets = -std::exp(std::clamp(log_decay, -kLimit, kLimit)) * static_cast<double>(row.delay);
        for (std::size_t k = 0; k < kDecayFeatures; ++k)
            point.slope[kActivationFeatures + k] = point.forgets * static_cast<double>(row.decay[k]);
    }
    point.log_odds = activation + point.forgets;
    return point;
}

struct Chance {
    double p = 0, loss = 0;
};

inline Chance chance_of(double log_odds, bool recalled) {
    const double small = std::exp(-std::abs(log_odds));
    const double p = (log_odds >= 0 ? 1.0 : small) / (1 + small);
    const double against = recalled ? -log_odds : log_odds;
    return {p, std::max(against, 0.0) + std::log1p(small)};
}

void add_curvature(const Point& point, std::size_t form, double weight, PairSums& sums,
                   std::array<Curvature::Sums, kShared>& shared) {
    const double across = weight * point.forgets;
    sums.weight += weight;
    sums.across += across;
    sums.forgets += across * point.forgets;
    for (std::size_t j = 0; j < kDense; ++j) {
        const double slope = weight * point.slope[j];
        sums.shared[j] += slope;
        sums.shared_forgets[j] += slope * point.forgets;
        for (std::size_t k = 0; k <= j; ++k) shared[j][k] += slope * point.slope[k];
        shared[kDense + form][j] += slope;
    }
    shared[kDense + form][kDense + form] += weight;
    sums.shared[kDense + form] += weight;
    sums.shared_forgets[kDense + form] += across;
}

void keep(const PairSums& sums, const Pair& pair, Curvature& curvature, Curvature::Met& met) {
    met = {sums.weight, sums.across};
    auto& learner = curvature.learners[pair.learner];
    auto& branch = curvature.branches[pair.branch];
    auto& point = curvature.points[pair.point];
    branch.across += sums.across;
    branch.ease.weight += sums.weight;
    point.weight += sums.weight;
    learner.forgets += sums.forgets;
    for (std::size_t k = 0; k < kShared; ++k) {
        branch.ease.shared[k] += sums.shared[k];
        point.shared[k] += sums.shared[k];
        learner.shared_forgets[k] += sums.shared_forgets[k];
    }
}

void keep(const PairSums& sums, const Observations& data, const Places& places, const Pair& pair,
          std::vector<double>& gradient) {
    gradient[places.learner_ease(pair.learner)] += sums.residual;
    gradient[places.learner_forgets(pair.learner)] += sums.residual_forgets;
    gradient[places.point_ease(pair.point)] += sums.residual;
    gradient[places.family_ease(data.family_of_point[pair.point])] += sums.residual;
    gradient[places.branch_ease(pair.branch)] += sums.residual;
}

void add_priors(const Places& places, const Unknowns& at, const Priors& priors, Loss& loss) {
    const auto precision = prior_precision(places, priors);
    for (std::size_t n = 0; n < at.size(); ++n) {
        const double off = at[n] - (n < kShared ? priors.mean[n] : 0.0);
        loss.value += 0.5 * precision[n] * off * off;
        loss.gradient[n] += precision[n] * off;
    }
}

template <bool kWithCurvature>
Loss pass(const Observations& data, const Unknowns& at, const Priors& priors, Curvature* curvature) {
    const Places places{data};
    Loss loss;
    loss.gradient.assign(places.size(), 0.0);
    for (std::size_t n = 0; n < data.pairs.size(); ++n) {
        const auto& pair = data.pairs[n];
        const double ease = eases(data, places, pair, at);
        const double forgets = at[places.learner_forgets(pair.learner)];
        PairSums sums;
        for (std::size_t r = pair.begin; r < pair.end; ++r) {
            const auto& row = data.rows[r];
            const Point point = point_at(row, at, ease, forgets);
            const Chance chance = chance_of(point.log_odds, row.recalled);
            const double residual = chance.p - (row.recalled ? 1 : 0);
            loss.of_answers += chance.loss;
            sums.residual += residual;
            sums.residual_forgets += residual * point.forgets;
            for (std::size_t k = 0; k < kDense; ++k) loss.gradient[k] += residual * point.slope[k];
            loss.gradient[kDense + row.form] += residual;
            if constexpr (kWithCurvature)
                add_curvature(point, row.form, chance.p * (1 - chance.p), sums, curvature->shared);
        }
        keep(sums, data, places, pair, loss.gradient);
        if constexpr (kWithCurvature) keep(sums, pair, *curvature, curvature->met[n]);
    }
    loss.value = loss.of_answers;
    add_priors(places, at, priors, loss);
    return loss;
}

}  // namespace

Loss loss_at(const Observations& data, const Unknowns& at, const Priors& priors) {
    return pass<false>(data, at, priors, nullptr);
}

Loss loss_at(const Observations& data, const Unknowns& at, const Priors& priors, Curvature& curvature) {
    curvature.clear();
    Loss loss = pass<true>(data, at, priors, &curvature);
    for (std::size_t j = 0; j < kShared; ++j)
        for (std::size_t k = 0; k < j; ++k) curvature.shared[k][j] = curvature.shared[j][k];
    curvature.gather();
    return loss;
}

double log_odds(const Observations& data, const Pair& pair, const Observation& row, const Unknowns& at) {
    return slopes(data, pair, row, at).log_odds;
}

Slopes slopes(const Observations& data, const Pair& pair, const Observation& row, const Unknowns& at) {
    const Places places{data};
    const Point point = point_at(row, at, eases(data, places, pair, at), at[places.learner_forgets(pair.learner)]);
    Slopes slopes;
    std::copy(point.slope.begin(), point.slope.end(), slopes.shared.begin());
    slopes.shared[kDense + row.form] = 1;
    slopes.forgets = point.forgets;
    slopes.log_odds = point.log_odds;
    return slopes;
}

}  // namespace memory
