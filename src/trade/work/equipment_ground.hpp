#pragma once

#include <optional>

#include "trade/work/calculator.hpp"

namespace trade {

/// A circuit whose equipment ground is asked for.
struct EquipmentGroundFacts {
    std::optional<double> device;      ///< A, rating or setting of the overcurrent device
    std::optional<Material> material;  ///< of the equipment ground
    std::optional<Size> from, to;      ///< circuit conductors: what would do, and what is installed; both or neither
    bool derating = false;             ///< they grew only because of correction or adjustment
    std::optional<Size> circuit;       ///< ungrounded circuit conductors as installed, where nothing grew
    double raceways = 1.0;             ///< parallel raceways or cables
};

/// The row of the equipment-ground table for a device; null beyond the table.
[[nodiscard]] const Tables::GroundRow* equipment_ground_row(double device, const Tables& tables);

/// That the table has no equipment ground for a device, and where it ends.
[[nodiscard]] std::string beyond_equipment_ground(double device, const Tables& tables);

/// The least size of wire whose area comes to `cmil`, in circular mils; nothing beyond the table.
/// Takes   `slack`, the part by which it may fall short (0 for none).
[[nodiscard]] std::optional<Size> least_size(double cmil, double slack, const Tables& tables);

/// The least wire-type equipment ground.
/// Gives   a size, by the device; grown with the circuit conductors in proportion to their areas; never larger than
///         the circuit conductors of a single raceway; in parallel raceways that size in full in each. Also `table`,
///         `ratio`, `table_cmil`, `required_cmil`, `capped`, `raceways`.
///         An area that falls short by 0.5 % or less is taken as reached: where conductors and equipment ground grow
///         by the same number of gauge steps the areas tie by the law of the gauge, and only the rounding of the table
///         tells them apart.
/// Errors  unknown: what is missing. Refused with a finding: a device or an area beyond the tables.
/// Source  equipment-ground table; areas from the resistance table; 250.122(A), (B) and (F) as the trade tells them:
///         through 2017 any growth counts (readings differ, which is said), from 2020 not what correction and
///         adjustment ask for.
[[nodiscard]] Finding equipment_ground(const EquipmentGroundFacts& facts, const Setting& setting);

[[nodiscard]] Calculator equipment_ground_calculator();

}  // namespace trade
