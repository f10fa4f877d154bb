#pragma once

#include "base/random.hpp"
#include "memory/fit/fit.hpp"

namespace memory {

/// What is believed after a fit: a normal around the most probable values, spread by the inverse of the curvature there
/// (Laplace's approximation).
class Posterior {
public:
    /// Takes references that must outlive it.
    Posterior(const Observations& data, const Priors& priors, const Fitted& fitted);

    /// Standard deviation of each shared parameter.
    [[nodiscard]] Shared shared_sd() const;
    /// Variance of the weighted sum of unknowns. Takes the weights, in the order of Places.
    [[nodiscard]] double variance(const std::vector<double>& weights) const;

    /// One draw of all unknowns, by solving for a right side that is itself drawn with the curvature as its spread.
    /// Parameters that have a least value are kept at or above it.
    /// Source  perturbation sampling of a Gaussian whose precision is a sum of outer products (Papandreou & Yuille
    ///         2010, from memory); checked against the inverse in tests.
    [[nodiscard]] Unknowns draw(base::Seed seed) const;

private:
    const Observations* data_;
    const Priors* priors_;
    const Fitted* fitted_;
    Curvature curvature_;
};

}  // namespace memory
