#pragma once

#include <cstddef>
#include <vector>

#include "memory/features.hpp"
#include "memory/fit/observations.hpp"

namespace memory {

/// Where each unknown of a fit stands in the one long vector that holds them all:
/// shared parameters, ease of learners, forgetting of learners, ease of points, ease of families, ease of branches
/// (one learner in one family).
struct Places {
    std::size_t learners = 0, points = 0, families = 0, branches = 0;

    explicit Places(const Observations& data)
        : learners{data.learners}, points{data.points}, families{data.families}, branches{data.branches} {}

    [[nodiscard]] std::size_t learner_ease(std::size_t learner) const { return kShared + learner; }
    [[nodiscard]] std::size_t learner_forgets(std::size_t learner) const { return kShared + learners + learner; }
    [[nodiscard]] std::size_t point_ease(std::size_t point) const { return kShared + 2 * learners + point; }
    [[nodiscard]] std::size_t family_ease(std::size_t family) const { return point_ease(points) + family; }
    [[nodiscard]] std::size_t branch_ease(std::size_t branch) const { return family_ease(families) + branch; }
    [[nodiscard]] std::size_t size() const { return branch_ease(branches); }
};

/// A value for each unknown, in the order of Places.
using Unknowns = std::vector<double>;

/// What is believed of the unknowns before any answer: independent normals.
struct Priors {
    Shared mean{}, sd{};        ///< of the shared parameters; sd > 0
    double learner_ease = 0.8;  ///< standard deviations of the effects, mean 0; chosen
    double learner_forgets = 0.3;
    double point_ease = 0.9;
    double family_ease = 0.4;
    double branch_ease = 0.4;
};

/// The shipped beliefs: means and spreads of shared_parameters(), and the standard deviations above.
[[nodiscard]] Priors shipped_priors();

/// The unknowns at their prior means.
[[nodiscard]] Unknowns at_prior(const Places& places, const Priors& priors);

/// 1 / variance of each unknown under the priors, in the order of Places.
[[nodiscard]] std::vector<double> prior_precision(const Places& places, const Priors& priors);

}  // namespace memory
