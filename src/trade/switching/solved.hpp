#pragma once

#include <string_view>

#include "trade/switching/arrangement.hpp"
#include "trade/switching/fault.hpp"
#include "trade/switching/solve.hpp"

namespace trade::switching {

/// A circuit with a fault, and what it does.
struct Solved {
    Fault fault;
    Table table;
};

/// The sound circuit ("sound" or empty) or one with a fault, solved. There are a few hundred of them in all, so each
/// arrangement is solved through once, when it is first asked for, and kept.
/// Takes  an arrangement of arrangements(). Gives null for exactly the faults that find_fault refuses.
[[nodiscard]] const Solved* find_solved(const Arrangement& arrangement, std::string_view fault);

}  // namespace trade::switching
