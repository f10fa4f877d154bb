#pragma once

#include <vector>

#include "memory/fit/observations.hpp"
#include "memory/fit/unknowns.hpp"

namespace memory {

/// Chance of a right answer for each observation, in the order of their rows.
using Chances = std::vector<double>;

/// What the model foresees at the values given.
[[nodiscard]] Chances foreseen(const Observations& data, const Unknowns& at);

/// Baseline: the share right among the observations learned from, whatever is asked. No observations: one half.
[[nodiscard]] Chances constant_baseline(const Observations& learned_from, const Observations& data);

/// Baseline: recall halves with time, p = 2^(-days / half-life), and the logarithm of the half-life is linear in
/// ln(1 + recalled) and ln(1 + failed); for first answers the share right among first answers. Its three numbers are
/// fitted to the observations learned from by maximum likelihood, held lightly (sd 3) near a half-life of one day.
/// Source  exponential forgetting with a half-life by counts, common in the literature (form from memory).
[[nodiscard]] Chances half_life_baseline(const Observations& learned_from, const Observations& data);

}  // namespace memory
