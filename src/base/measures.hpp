#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"

namespace base {

/// A number with its unit, found in running text.
struct Measure {
    Quantity quantity;  ///< wire sizes past 1 AWG go on downwards: 1/0 is 0, 4/0 is -3
    std::string text;   ///< as it stands there: "4-1/2 ft", "15", "1/0 AWG"
};

/// The numbers with units in a text for people: "6 ft 7 in" is one; in "15 and 20 A", "120/240 V" and "4 to 6 mA" each
/// number has the unit at the end. References such as 210.8(A), years, and numbers without a unit are left out.
[[nodiscard]] std::vector<Measure> measures_in(std::string_view text);

/// Every number in a text, with a unit or without, and the small ones that are written as words: "two" is 2.
[[nodiscard]] std::vector<double> numbers_in(std::string_view text);

/// True when two quantities are the same amount, whatever units they are told in.
[[nodiscard]] bool same_amount(const Quantity& a, const Quantity& b);

}  // namespace base
