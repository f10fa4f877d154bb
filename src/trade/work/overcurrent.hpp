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
/// Gives   with `rating`: yes or no, whether the conductor, the load and the receptacle that was told allow it; with a
///         load: the least standard rating, A, or the words "no device fits: ..." where the conductor is too small for
///         it (`least` has the rating all the same); with a conductor alone: the largest device, A, or such words; with
///         `rating` and `receptacle` alone: the largest cord-and-plug load, A.
///         A receptacle alone on its circuit has at least the circuit's rating; among several the table decides. Also
///         `ampacity`, `required`, `load_total`, `least`, `most`, `allowed`, `cord_load` and what protection.hpp lists.
/// Errors  unknown: what is missing. Refused with a finding: what the tables do not reach; wires too small to be run in
///         parallel. A rating is never judged without the conductor.
/// Source  standard-rating, small-conductor, ampacity, receptacle-load and receptacle-rating tables; rules as in
/// protection.hpp.
[[nodiscard]] Finding overcurrent(const OvercurrentFacts& facts, const Setting& setting);

[[nodiscard]] Calculator overcurrent_calculator();

}  // namespace trade
