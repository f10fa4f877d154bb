#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "trade/edition.hpp"
#include "trade/facts.hpp"
#include "trade/finding.hpp"
#include "trade/tables.hpp"
#include "trade/working.hpp"

namespace trade {

/// What a calculator works under, beside the facts.
struct Setting {
    Edition edition = Edition::e2023;
    const Tables* tables = nullptr;  ///< never null
    bool explain = true;             ///< false: no steps are written, which saves most of the time
};

/// A calculator for people and scripts: facts by name in, finding out. Each has a typed function of its own besides.
struct Calculator {
    std::string_view name;        ///< "box-fill"
    std::string_view does;        ///< one line
    std::string_view answers;     ///< what the answer is, and the names of further values
    std::vector<FactSpec> facts;  ///< every fact it knows
    Finding (*run)(const Facts&, const Setting&);
};

/// Every calculator, in the order help lists them.
[[nodiscard]] const std::vector<Calculator>& calculators();
/// Null when there is none of that name.
[[nodiscard]] const Calculator* find_calculator(std::string_view name);

}  // namespace trade
