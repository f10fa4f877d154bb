#pragma once

namespace memory {

/// 1 / (1 + e^-x) by the sign of x, so that neither tail overflows. Gives [0, 1].
[[nodiscard]] double logistic(double x);

/// Its inverse, ln(p / (1 - p)). Takes p in [0, 1]; 0 and 1 give infinities.
[[nodiscard]] double logit(double p);

}  // namespace memory
