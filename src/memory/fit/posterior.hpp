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
    /// Draws with a parameter below the least it may be are drawn anew.
    /// Source  perturbation sampling of a Gaussian whose precision is a sum of outer products (Papandreou & Yuille
    ///         2010, from memory); checked against the inverse in tests.
    [[nodiscard]] Unknowns draw(base::Seed seed) const;

    /// A normal vector whose covariance is the curvature.
    [[nodiscard]] std::vector<double> push(base::Random& random) const;
    /// The inverse of the curvature times a vector, to the share of its size given.
    [[nodiscard]] std::vector<double> solve(const std::vector<double>& right, double share) const {
        return curvature_.solve(right, {}, share);
    }
    [[nodiscard]] const Observations& data() const { return *data_; }
    [[nodiscard]] const Priors& priors() const { return *priors_; }
    [[nodiscard]] std::size_t unknowns() const { return curvature_.places().size(); }

private:
    [[nodiscard]] Unknowns draw_unlimited(base::Random& random) const;

    const Observations* data_;
    const Priors* priors_;
    const Fitted* fitted_;
    Curvature curvature_;
};

/// True when no shared parameter is below the least it may be.
[[nodiscard]] bool within_limits(const Unknowns& drawn);

}  // namespace memory
