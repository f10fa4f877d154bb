#pragma once

#include <optional>
#include <string>
#include <vector>

#include "trade/switching/fault.hpp"

namespace trade::switching {

/// What a person has to go by.
enum class Observe : std::uint8_t {
    loads,    ///< what the loads do; a tripped breaker shows as all of them off
    devices,  ///< loads, and whether breaker, GFCI and AFCI hold
    readings  ///< the same, and volts to ground at named points
};

/// True when the two cannot be told apart. Combinations are matched by handle: up on a three-way is on for a
/// single-pole. `points` count for `readings` only; volts within 1 V are the same, and a point that a table lacks reads
/// 0.
[[nodiscard]] bool same_outcome(const Table& one, const Table& other, Observe observe,
                                const std::vector<std::string>& points = {});

/// The loads and, unless `observe` is loads, the devices of every combination as one text, by handle: equal for two
/// tables of one arrangement exactly when same_outcome() says so without points.
[[nodiscard]] std::string outcome_key(const Table& table, Observe observe);

/// Faults that a symptom question about `fault` may offer beside it: those of `others`, in their order, whose tables
/// differ from that of `fault` and from each other under the observations. A second fault with a table already taken is
/// left out, so that exactly one answer is right.
[[nodiscard]] std::vector<Fault> distinguishable(const Arrangement& arrangement, const Fault& fault,
                                                 const std::vector<Fault>& others, Observe observe,
                                                 const std::vector<std::string>& points = {});

/// The first end, lead, screw or box whose reading to ground tells the two apart; nothing when none does.
[[nodiscard]] std::optional<std::string> telling_point(const Table& one, const Table& other);

}  // namespace trade::switching
