#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "trade/work/calculator.hpp"

namespace trade {

/// A cable or raceway under ground, up to 1000 V. Empty: not said.
struct BurialFacts {
    enum class Method : std::uint8_t { direct_burial, rmc_imc, pvc };

    std::optional<Method> method;
    std::string_view place;          ///< as table "burial-cover" names it; empty: not said
    std::optional<bool> dwelling;    ///< a branch circuit of a dwelling
    std::optional<double> volts;     ///< V, nominal
    std::optional<double> amps;      ///< A of the overcurrent device
    std::optional<bool> gfci;        ///< protected by a GFCI where it starts
    std::optional<bool> landscape;   ///< control of irrigation or landscape lighting, in cable or raceway fit for it
    std::optional<double> diameter;  ///< in, outside of raceway or cable, for the depth of the trench
};

/// Least cover over what is buried.
/// Gives   inches from the top of cable or raceway to the finished surface; also `column` in words, `plain` (in, of the
///         wiring method alone), and with a diameter `trench` (in, to the bottom of it).
///         A dwelling's branch circuit of 120 V or less, 20 A or less, with GFCI has a column of its own, and so has
///         irrigation and landscape lighting of 30 V or less. All of a column's conditions have to hold; they are asked
///         for only where a smaller cover hangs on them.
/// Errors  lacks `method`, `place`, or a condition; no answer then.
/// Source  table "burial-cover" (state-adopted residential code). Cover is measured to the top (a county's hand-out).
[[nodiscard]] Finding burial_depth(const BurialFacts& facts, const Setting& setting);

[[nodiscard]] Calculator burial_depth_calculator();

}  // namespace trade
