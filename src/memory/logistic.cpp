#include "memory/logistic.hpp"

#include <cmath>

namespace memory {

double logistic(double x) {
    if (x >= 0) return 1 / (1 + std::exp(-x));
    const double odds = std::exp(x);
    return odds / (1 + odds);
}

double logit(double p) {
    return std::log(p) - std::log1p(-p);
}

}  // namespace memory
