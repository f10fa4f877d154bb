#pragma once

#include <optional>
#include <string_view>

#include "trade/work/calculator.hpp"

namespace trade {

/// A service and the electrode its grounding electrode conductor runs to.
struct GroundingElectrodeFacts {
    std::optional<Size> service;  ///< largest ungrounded service conductor
    double sets = 1.0;            ///< parallel sets: their areas count together
    std::optional<Material> service_material;
    std::optional<Material> material;  ///< of the grounding electrode conductor
    std::string_view electrode;        ///< table, rod-pipe-plate, concrete-encased, ring; empty: not said
    std::optional<Size> ring;          ///< conductor of the ring; empty: 2 AWG, the least it may be
};

/// The row for supply conductors of an area; null when the table is missing.
/// Takes   circular mils of all parallel sets together.
[[nodiscard]] const Tables::ElectrodeRow* electrode_row(double cmil, Material supply, const Tables& tables);

/// The area of the largest supply conductor with its parallel sets, circular mils; nothing without a table value.
[[nodiscard]] std::optional<double> supply_area(Size size, double sets, const Tables& tables);

/// The least grounding electrode conductor.
/// Gives   a size by the area of the service conductors, and no more than an electrode of that kind alone asks for:
///         6 AWG copper or 4 AWG aluminium to rods, pipes and plates, 4 AWG copper to a concrete-encased electrode,
///         copper as large as the ring to a ring. Also `area`, `table`, `limit`, `capped`.
/// Errors  unknown: what is missing, or a size without an area.
/// Source  grounding-electrode table and its limits; 250.66 as the trade tells it.
[[nodiscard]] Finding grounding_electrode(const GroundingElectrodeFacts& facts, const Setting& setting);

[[nodiscard]] Calculator grounding_electrode_calculator();

}  // namespace trade
