#pragma once

#include <cstddef>

#include "base/random.hpp"
#include "memory/fit/posterior.hpp"

namespace memory {

/// Draws from what is believed itself, where the normal around the most probable values is too rough: with few answers
/// on a point, most of them right, the belief leans to the easy side, and the normal does not.
///
/// Source  Hamiltonian Monte Carlo (Duane et al. 1987; Neal 2011; both from memory) with the curvature as mass, so that
///         a quarter of an oscillation leads to an all but independent place; checked in tests against a grid.
struct Sampled {
    Unknowns at;
    std::size_t taken = 0, proposed = 0;
};

/// One draw: from a draw of the normal, a few proposals on.
/// Takes   proposals >= 1, each of which costs a few passes over the answers and as many solves.
[[nodiscard]] Sampled sample(const Posterior& posterior, std::size_t proposals, base::Seed seed);

}  // namespace memory
