#pragma once

#include "base/random.hpp"

namespace memory {

/// A standard normal deviate. Source: Box and Muller 1958, the cosine branch alone; portable as base::Random is.
[[nodiscard]] double normal(base::Random& random);

/// Quantile of the standard normal. Takes p in (0, 1). Source: bisection of the complementary error function, to 1e-12.
[[nodiscard]] double normal_quantile(double p);

}  // namespace memory
