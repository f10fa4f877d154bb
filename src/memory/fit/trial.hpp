#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "memory/fit/baselines.hpp"
#include "memory/fit/fit.hpp"

namespace memory {

/// A fit held against answers it has not seen, beside three simpler ways of foreseeing them.
struct Trial {
    static constexpr std::size_t kWays = 4;
    /// The fit; the shipped parameters with nothing learned; one share for everything; halving with time.
    enum Way : std::uint8_t { fitted, prior, constant, half_life };

    std::size_t learned_from = 0;        ///< answers
    std::vector<std::uint8_t> recalled;  ///< of each held-back answer, 1 or 0, by learner, point and time
    std::vector<std::uint32_t> learner;  ///< who gave it
    std::array<Chances, kWays> chances;  ///< what each way foresaw

    [[nodiscard]] std::size_t held_back() const { return recalled.size(); }
};

[[nodiscard]] std::string_view to_text(Trial::Way way);

/// Learns from the answers not held back and foresees the others one after the other: each is foreseen from the answers
/// before it, held back or not, with parameters that never saw a held-back one.
[[nodiscard]] Trial try_out(const Observations& all, const Priors& priors);

}  // namespace memory
