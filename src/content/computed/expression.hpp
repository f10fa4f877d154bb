#pragma once

#include <map>
#include <string>
#include <string_view>

#include "base/fault.hpp"

namespace content {

/// The facts of a story as text, by name.
using FactTexts = std::map<std::string, std::string>;

/// Works out a small sum over facts that are numbers: "2*cables + 1", "min(a, b) >= 3".
/// Knows + - * / ( ), comparisons (1 when they hold, else 0) and = for equal, min, max, ceil, floor, round, and names
/// of facts. A fact that is no number can only be compared with a word in quotes: size = '12'.
/// Errors  an unknown name, a fact that is no number, a broken expression, a division by zero.
[[nodiscard]] base::Checked<double> work_out(std::string_view expression, const FactTexts& facts);

/// Fills slots: "{n}x{size}" with facts, "{=2*n}" with a sum. A slot that has no fact stays as it is.
/// Errors  of the sums.
[[nodiscard]] base::Checked<std::string> fill(std::string_view text, const FactTexts& facts);

}  // namespace content
