#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "trade/work/calculator.hpp"

namespace trade {

/// A run of cable or raceway that has to be held. Empty: not said.
struct SupportFacts {
    enum class Box : std::uint8_t {
        clamped,                  ///< the cable is held by a clamp or connector of the box
        single_gang_nonmetallic,  ///< a single-gang nonmetallic box without a clamp
    };

    /// What SE cable is there for.
    enum class SeUse : std::uint8_t { service, interior };

    std::string_view method;           ///< nm, uf, ac, mc, se, emt, imc, rmc, ent, fmc, lfmc, pvc; empty: not said
    std::optional<SeUse> se_use;       ///< of SE cable
    std::optional<double> trade_size;  ///< in, of PVC conduit
    std::optional<Box> box;            ///< what a nonmetallic cable enters
    std::optional<double> length;      ///< ft from box to box along the run
    std::optional<double> distance;    ///< in from the box to the first support, to be judged
};

/// How a run is secured and supported.
/// Gives   the farthest distance between supports in ft; also `spacing_in`, `from_box` (in, to the first support),
///         `supports` (the least count for a run between two boxes), `fits` for a first support that is stated.
/// Errors  lacks `method`, `use` (SE cable), `trade_size` (PVC), `box` (nonmetallic cable with a length or distance);
///         refused with a finding: what the table does not have.
/// Source  table "support"; a nonmetallic cable into a single-gang nonmetallic box without a clamp is held within 8 in
///         (practice, as the table's own row says); sizes of PVC over 1 in recalled, and so is that
///         SE cable inside goes by the rules of nonmetallic-sheathed cable. The count is geometry.
[[nodiscard]] Finding support(const SupportFacts& facts, const Setting& setting);

[[nodiscard]] Calculator support_calculator();

}  // namespace trade
