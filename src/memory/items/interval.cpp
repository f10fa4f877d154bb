#include "memory/items/interval.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace memory {
namespace {

constexpr std::size_t kLeastPairs = 4;
constexpr double kAlmostOne = 1 - 1e-12;

double fisher(double r) {
    return std::atanh(std::clamp(r, -kAlmostOne, kAlmostOne));
}

double spread(std::size_t n) {
    return 1 / std::sqrt(static_cast<double>(n) - 3);
}

}  // namespace

Interval share_interval(double k, double n, double z) {
    if (!(n > 0)) return {0, 0, 1};
    const double p = k / n;
    const double square = z * z / n;
    const double middle = (p + square / 2) / (1 + square);
    const double half = z / (1 + square) * std::sqrt(p * (1 - p) / n + square / (4 * n));
    return {p, std::max(0.0, middle - half), std::min(1.0, middle + half)};
}

Interval correlation_interval(double r, std::size_t n, double z) {
    if (n < kLeastPairs) return {r, -1, 1};
    return {r, std::tanh(fisher(r) - z * spread(n)), std::tanh(fisher(r) + z * spread(n))};
}

double chance_of_correlation(double r, std::size_t n) {
    if (n < kLeastPairs) return 1;
    return 0.5 * std::erfc(fisher(r) / spread(n) / std::numbers::sqrt2);
}

}  // namespace memory
