#pragma once

#include <cmath>

namespace report {

/// A number with so many decimals, for documents that programs read.
template <int places>
[[nodiscard]] double rounded(double value) {
    double scale = 1;
    for (int n = 0; n < places; ++n) scale *= 10;
    return std::round(value * scale) / scale;
}

}  // namespace report
