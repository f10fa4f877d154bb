#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "memory/fit/observations.hpp"
#include "memory/fit/unknowns.hpp"

namespace memory {

/// The expected second derivatives (Fisher information) of the loss over all unknowns, priors included.
///
/// Every answer touches the shared parameters and five effects, so the matrix is dense only in the rows of the shared
/// parameters; of the rest it keeps one weight (and one for the learner's forgetting) for each learner and point that
/// have met. It is never written out: multiply() and solve() are all a fit needs. Symmetric, positive definite.
class Curvature {
public:
    Curvature(const Observations& data, std::vector<double> precision);

    /// Starts again from the priors alone.
    void clear();

    /// matrix * vector; both of Places::size().
    [[nodiscard]] std::vector<double> multiply(const std::vector<double>& vector) const;

    /// Solves matrix * x = right by conjugate gradients, blocks of the diagonal as the preconditioner.
    /// Takes   `held`: unknowns that stay at zero (empty: none); stops once the rest is below `share` of the right
    /// side.
    [[nodiscard]] std::vector<double> solve(const std::vector<double>& right, const std::vector<bool>& held,
                                            double share) const;

    [[nodiscard]] const Places& places() const { return places_; }

    using Sums = std::array<double, kShared>;
    /// What an effect that enters the log odds unscaled has gathered from its answers.
    struct Unit {
        double weight = 0;  ///< sum of p (1 - p)
        Sums shared{};      ///< sum of the same times each shared parameter's slope
    };
    /// The same for a learner, whose forgetting enters through the decay.
    struct Learner {
        Unit ease;
        Sums shared_forgets{};
        double forgets = 0;  ///< sum of weight * slope * slope
        double across = 0;   ///< sum of weight * slope
    };
    struct Branch {
        Unit ease;
        double across = 0;
        std::uint32_t learner = 0, family = 0;
    };
    struct Met {
        double weight = 0, across = 0;
    };

    std::array<Sums, kShared> shared{};
    std::vector<Learner> learners;
    std::vector<Branch> branches;
    std::vector<Unit> points, families;
    std::vector<Met> met;  ///< one for each pair of the observations

    /// Adds what the pairs and branches have gathered to the points, families and learners they belong to.
    void gather();

private:
    struct Preconditioner;
    [[nodiscard]] Preconditioner preconditioner(const std::vector<bool>& held) const;
    void multiply_shared(const std::vector<double>& vector, std::vector<double>& out) const;
    void multiply_branches(const std::vector<double>& vector, std::vector<double>& out) const;
    void multiply_pairs(const std::vector<double>& vector, std::vector<double>& out) const;

    const Observations* data_;
    Places places_;
    std::vector<double> precision_;
};

}  // namespace memory
