#include "memory/normal.hpp"

#include <cmath>
#include <numbers>

namespace memory {

double normal(base::Random& random) {
    const double radius = std::sqrt(-2 * std::log1p(-random.unit()));
    return radius * std::cos(2 * std::numbers::pi * random.unit());
}

double normal_quantile(double p) {
    double low = -40;
    double high = 40;
    for (int step = 0; step < 60; ++step) {
        const double middle = (low + high) / 2;
        (0.5 * std::erfc(-middle / std::numbers::sqrt2) < p ? low : high) = middle;
    }
    return (low + high) / 2;
}

}  // namespace memory
