#pragma once

#include <cstddef>
#include <optional>

#include "memory/fit/loss.hpp"

namespace memory {

struct Fitted {
    Unknowns at;             ///< the most probable values under priors and answers
    double value = 0;        ///< the loss there
    double of_answers = 0;   ///< the part of it that comes from the answers
    std::size_t steps = 0;   ///< Newton steps taken
    std::size_t passes = 0;  ///< passes over the answers
    bool converged = false;
    double left = 0;         ///< how much lower the loss could still be, by the last quadratic model
    std::vector<bool> held;  ///< shared parameters that stand at the least they may be
};

/// Maximum a posteriori estimate of all unknowns: Newton's method with the expected curvature (Fisher scoring), the
/// steps by conjugate gradients, halved until the loss falls; parameters that have a least value stay at or above it.
/// Takes   any observations, none included: the priors then answer. `start`: where to begin, the prior means if absent.
/// Gives   converged when a further step would lower the loss by less than 1e-7.
[[nodiscard]] Fitted fit(const Observations& data, const Priors& priors, std::optional<Unknowns> start = std::nullopt);

}  // namespace memory
