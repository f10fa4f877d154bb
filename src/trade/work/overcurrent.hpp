#pragma once

#include <optional>

#include "trade/work/ampacity.hpp"
#include "trade/work/calculator.hpp"
#include "trade/work/protection.hpp"

namespace trade {

/// A conductor, a load or both, and perhaps a device to judge.
struct OvercurrentFacts {
    std::optional<double> ampacity;  ///< A after correction and adjustment; empty: worked out from size and conditions
    std::optional<Size> size;
    Conditions conditions;
    std::optional<double> load, continuous;  ///< A; both or neither
    bool listed_100 = false;                 ///< no 125 % for continuous loads
    std::optional<double> rating;            ///< A, device to judge
    std::optional<double> receptacle;        ///< A, receptacle on that device
    ProtectionFacts protection;
};

/// The overcurrent device for a conductor and a load.
/// Gives   with `rating`: yes or no, whether the conductor and the load allow it; with a load: the least standard
///         rating, A; with a conductor alone: the largest device, A; with `rating` and `receptacle` alone: the largest
///         cord-and-plug load, A. Also `ampacity`, `required`, `load_total`, `least`, `most`, `allowed`, `cord_load`
///         and what protection.hpp lists.
/// Errors  unknown: what is missing. A rating is never judged without the conductor.
/// Source  standard-rating, small-conductor, ampacity and receptacle-load tables; rules as in protection.hpp.
[[nodiscard]] Finding overcurrent(const OvercurrentFacts& facts, const Setting& setting);

[[nodiscard]] Calculator overcurrent_calculator();

}  // namespace trade
