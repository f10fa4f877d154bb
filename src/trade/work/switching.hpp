#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/fault.hpp"
#include "trade/switching/outcome.hpp"
#include "trade/work/calculator.hpp"

namespace trade {

/// What is asked of a switched circuit.
struct SwitchedCircuit {
    std::string_view arrangement;
    std::string_view fault;      ///< empty: nothing is wrong
    std::string_view positions;  ///< "S1 up, S2 down"; empty: every combination
    std::string_view from, to;   ///< points of a reading; `to` empty: ground
    bool draw = false;           ///< the wiring drawing among the steps
};

/// What a circuit of switches and loads does.
/// Gives   the states of the loads, one word for each, in the combination named or in all of them in order; also
///         `symptom`, `breaker`, `gfci`, `afci`, `reading` (V) with points, `fault` and `find` in words.
/// Errors  go to `findings` of the finding: names that the arrangement does not have.
/// Model   trade/switching/solve.hpp
[[nodiscard]] Finding switched_circuit(const SwitchedCircuit& facts, const Setting& setting);

/// The combination that "S1 up, S2 down" names. Errors: a switch or position there is not, one left out.
[[nodiscard]] base::Checked<std::size_t> find_combination(const switching::Circuit& circuit, std::string_view text);

[[nodiscard]] Calculator switching_calculator();

}  // namespace trade
