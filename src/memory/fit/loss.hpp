#pragma once

#include <vector>

#include "memory/fit/curvature.hpp"
#include "memory/fit/observations.hpp"
#include "memory/fit/unknowns.hpp"

namespace memory {

/// What a fit makes small, at one place: the negative log of likelihood times priors, constants left out.
struct Loss {
    double value = 0;              ///< nats
    double of_answers = 0;         ///< the part that comes from the answers
    std::vector<double> gradient;  ///< by each unknown, in the order of Places
};

/// One pass over the answers.
/// Source  sum of ln(1 + e^m) - recalled m, and half the squared distances from the prior means in standard deviations;
///         m and its slopes as docs/model.md has them.
[[nodiscard]] Loss loss_at(const Observations& data, const Unknowns& at, const Priors& priors);

/// The same, and the curvature there, which is cleared first.
[[nodiscard]] Loss loss_at(const Observations& data, const Unknowns& at, const Priors& priors, Curvature& curvature);

/// Log odds that observation n of a pair is recalled.
[[nodiscard]] double log_odds(const Observations& data, const Pair& pair, const Observation& row, const Unknowns& at);

/// What one answer adds to the loss per step in each direction: its slopes, sparse.
struct Slopes {
    std::array<double, kShared> shared{};
    double forgets = 0;  ///< by the learner's forgetting; by all eases it is 1
    double log_odds = 0;
};
[[nodiscard]] Slopes slopes(const Observations& data, const Pair& pair, const Observation& row, const Unknowns& at);

}  // namespace memory
