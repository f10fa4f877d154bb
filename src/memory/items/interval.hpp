#pragma once

#include <cstddef>

namespace memory {

/// A figure with the range that holds the true one in a stated share of cases.
struct Interval {
    double estimate = 0, low = 0, high = 0;
};

/// A share seen k times out of n.
/// Takes   k <= n; n = 0 gives an estimate of 0 and the whole range 0..1. Counts may be fractions. z: how many standard
///         errors the interval reaches, 1.96 for 95 %.
/// Source  Wilson 1927 (from memory; checked by solving his quadratic in tests).
[[nodiscard]] Interval share_interval(double k, double n, double z);

/// A correlation r from n pairs.
/// Gives   the whole range -1..1 for n < 4.
/// Source  Fisher's z: atanh r is about normal with standard deviation 1 / sqrt(n - 3) (from memory).
[[nodiscard]] Interval correlation_interval(double r, std::size_t n, double z);

/// How likely r or more is among n pairs without any connection, by the same; 1 for n < 4.
[[nodiscard]] double chance_of_correlation(double r, std::size_t n);

}  // namespace memory
