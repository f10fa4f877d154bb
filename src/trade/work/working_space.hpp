#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "trade/work/calculator.hpp"

namespace trade {

/// Equipment of up to 1000 V that someone may work on while it is live. Empty: not said.
struct WorkingSpaceFacts {
    enum class Opposite : std::uint8_t {
        insulated,   ///< nothing live and nothing grounded, or live parts well guarded
        grounded,    ///< grounded parts; walls of concrete, brick or tile count as grounded
        live_parts,  ///< exposed live parts on both sides
    };

    std::optional<double> volts_to_ground;  ///< V; picks the row, not the voltage between wires
    std::string_view system;                ///< in its place, by name; empty: not said
    std::optional<Opposite> opposite;
    std::optional<double> width, height;  ///< in, of the equipment; height of its top over the floor
};

/// The clear space in front of equipment.
/// Gives   the depth in ft; also `depth_in`, `condition` (1 to 3), `volts` (to ground), and with the equipment's
///         measures `width` (in) and `height_ft`. Of two voltages to ground that disagree the larger counts.
/// Errors  lacks `volts_to_ground`, `opposite`, or a depth in the table; no answer then.
/// Source  table "working-space" (state copy of the federal table; the row over 600 V recalled); width the larger of
///         30 in and the equipment (federal letter of 28 May 1999; EC&M), height the larger of 6.5 ft and the equipment
///         (EC&M). Recalled: voltage to ground of an ungrounded system is the voltage between its wires.
[[nodiscard]] Finding working_space(const WorkingSpaceFacts& facts, const Setting& setting);

[[nodiscard]] Calculator working_space_calculator();

}  // namespace trade
