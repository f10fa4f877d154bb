#pragma once

#include <string>
#include <vector>

#include "trade/switching/outcome.hpp"

namespace trade::switching {

/// What the user of the circuit sees, in plain words, one sentence each: first the loads, then what trips.
/// "With S1 up and S2 down the light is on; in the other combinations it is off."
/// `loads` leaves the protective devices out. With `devices` GFCI and AFCI are told as those that would be at the
/// source end, and only where they do something of their own.
[[nodiscard]] std::vector<std::string> symptom(const Table& table, Observe observe = Observe::devices);

/// One combination: "S1 up, S2 down".
[[nodiscard]] std::string combination_text(const Circuit& circuit, std::size_t combination);

}  // namespace trade::switching
