#pragma once

#include <optional>
#include <string_view>

#include "trade/work/calculator.hpp"

namespace trade {

/// A bonding jumper and what its size follows from.
struct BondingJumperFacts {
    std::string_view kind;       ///< main, system, supply-side, load-side; empty: not said
    std::optional<Size> supply;  ///< all but load-side: largest ungrounded supply conductor
    double sets = 1.0;           ///< parallel sets: their areas count together
    bool per_raceway = false;    ///< supply-side: one jumper with each raceway, by the conductors in it
    std::optional<Material> supply_material;
    std::optional<Material> material;  ///< of the jumper
    std::optional<Size> equivalent;    ///< supply conductor of the jumper's material with the same ampacity
    std::optional<double> device;      ///< A, load-side: overcurrent device ahead of it
};

/// The least bonding jumper.
/// Gives   a size: on the supply side by the area of the supply conductors, over 1100 kcmil of copper or 1750 kcmil of
///         aluminium at least 12.5 % of it, and never more than the largest of them; on the load side like an
///         equipment ground. Also `area`, `table`, `required_cmil`, `capped`.
/// Errors  unknown: what is missing; `equivalent` where jumper and supply are of different metals and over those
/// limits. Source  grounding-electrode and equipment-ground tables; notes to Table 250.102(C)(1) as quoted in a trade
/// forum
///         (thread '250.66'), here in our own words.
[[nodiscard]] Finding bonding_jumper(const BondingJumperFacts& facts, const Setting& setting);

[[nodiscard]] Calculator bonding_jumper_calculator();

}  // namespace trade
