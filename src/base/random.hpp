#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <utility>
#include <vector>

namespace base {

/// Where a run of random numbers starts. The same seed gives the same run on every machine, which the
/// distributions of the standard library do not promise.
using Seed = std::uint64_t;

/// A seed for a purpose: mixes a seed with a name, so that unrelated draws do not move together.
[[nodiscard]] Seed derive_seed(Seed from, std::string_view purpose);

/// 64-bit hash of bytes, the same everywhere (FNV-1a, published constants).
[[nodiscard]] std::uint64_t stable_hash(std::string_view bytes);

/// Portable generator: xoshiro256** by Blackman and Vigna (2018), seeded through splitmix64.
class Random {
public:
    explicit Random(Seed seed);

    /// Uniform over all 64-bit values.
    std::uint64_t next();

    /// Uniform in [0, bound), without bias; bound must be at least 1.
    std::uint64_t below(std::uint64_t bound);

    /// Uniform in [0, 1), 53 bits.
    double unit();

    template <class T>
    void shuffle(std::vector<T>& items) {
        for (std::size_t left = items.size(); left > 1; --left) {
            using std::swap;
            swap(items[left - 1], items[static_cast<std::size_t>(below(left))]);
        }
    }

private:
    std::array<std::uint64_t, 4> state_{};
};

}  // namespace base
