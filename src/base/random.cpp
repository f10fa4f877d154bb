#include "base/random.hpp"

#include <bit>
#include <cassert>

namespace base {
namespace {

std::uint64_t splitmix(std::uint64_t& state) {
    state += 0x9e3779b97f4a7c15U;
    std::uint64_t z = state;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31U);
}

}  // namespace

std::uint64_t stable_hash(std::string_view bytes) {
    std::uint64_t hash = 0xcbf29ce484222325U;
    for (const char c : bytes) {
        hash ^= static_cast<unsigned char>(c);
        hash *= 0x100000001b3U;
    }
    return hash;
}

Seed derive_seed(Seed from, std::string_view purpose) {
    std::uint64_t state = from ^ stable_hash(purpose);
    return splitmix(state);
}

Random::Random(Seed seed) {
    for (auto& word : state_) word = splitmix(seed);
}

std::uint64_t Random::next() {
    const std::uint64_t result = std::rotl(state_[1] * 5, 7) * 9;
    const std::uint64_t shifted = state_[1] << 17U;
    state_[2] ^= state_[0];
    state_[3] ^= state_[1];
    state_[1] ^= state_[2];
    state_[0] ^= state_[3];
    state_[2] ^= shifted;
    state_[3] = std::rotl(state_[3], 45);
    return result;
}

std::uint64_t Random::below(std::uint64_t bound) {
    assert(bound >= 1);
    // Values under the threshold would make some remainders likelier than others.
    const std::uint64_t threshold = (0 - bound) % bound;
    for (;;) {
        const std::uint64_t drawn = next();
        if (drawn >= threshold) return drawn % bound;
    }
}

double Random::unit() {
    return static_cast<double>(next() >> 11U) * 0x1.0p-53;
}

}  // namespace base
