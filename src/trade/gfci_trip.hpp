#pragma once

#include <cmath>
#include <optional>

namespace trade {

/// mA up to which a class A ground-fault protector stays closed, and from which it must open.
inline constexpr double kGfciHoldsTo = 4.0;
inline constexpr double kGfciTripsFrom = 6.0;
/// mA up to which the formula is told.
inline constexpr double kGfciFormulaTo = 264.0;

/// The longest time in seconds that a class A ground-fault protector may take, for a current to ground in mA.
/// Gives   (20 / mA) to the power of 1.43; over 264 mA the time at 264 mA; nothing under 6 mA, where it need not open.
/// Source  a breaker maker's FAQ FA105578 and a forum post, as table "gfci-trip" names them; over 264 mA practice.
[[nodiscard]] inline std::optional<double> gfci_trip_seconds(double milliamps) {
    if (!(milliamps >= kGfciTripsFrom)) return std::nullopt;
    return std::pow(20.0 / (milliamps < kGfciFormulaTo ? milliamps : kGfciFormulaTo), 1.43);
}

}  // namespace trade
