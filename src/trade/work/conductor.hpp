#pragma once

#include <optional>

#include "trade/work/ampacity.hpp"
#include "trade/work/calculator.hpp"
#include "trade/work/protection.hpp"

namespace trade {

/// A conductor to rate, or a load to find the least conductor for.
struct ConductorFacts {
    Conditions conditions;
    std::optional<Size> size;                ///< empty: the least size is asked for
    std::optional<double> load, continuous;  ///< A; both or neither
    bool listed_100 = false;                 ///< no 125 % for continuous loads
    std::optional<double> device;            ///< A, overcurrent device already chosen
    bool dwelling_service = false;           ///< service or main feeder with the whole load of one dwelling
    std::optional<double> service;           ///< A, its rating
    ProtectionFacts protection;
};

/// The ampacity of a conductor under its conditions, or the least conductor for a load.
/// Gives   with a size A: table value x correction x adjustment, never above the column of the lowest termination (for
///         nonmetallic-sheathed cable: the 60 C column), of all parallel sets together; without one the least size
///         that passes each check for itself: 125 % of the continuous load and the rest at the terminations, the
///         plain load under the conditions of use, and the device that follows. The two are never multiplied.
///         For a dwelling service of 100 to 400 A: 83 % of its rating.
///         Also as condition_facts and protection have them, and `ampacity`, `overcurrent`, `required`, `load_total`,
///         `fits`, `device_allowed`, `service_required`, `service_most`.
/// Errors  unknown: what is missing; `receptacles` when the answer depends on it. Refused with a finding: what the
///         tables do not reach; a size too small to be run in parallel.
/// Source  ampacity, ambient, adjustment, small-conductor and standard-rating tables; the rules are common practice
///         (worked examples in tests/reference/worked_conductor.json).
[[nodiscard]] Finding conductor(const ConductorFacts& facts, const Setting& setting);

[[nodiscard]] Calculator conductor_calculator();

}  // namespace trade
