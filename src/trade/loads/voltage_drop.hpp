#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "trade/work/calculator.hpp"

namespace trade {

/// A run of conductors and the current in it. Empty: not said.
struct VoltageDropFacts {
    enum class Method : std::uint8_t {
        resistance,  ///< table of direct-current resistance at 75 C
        k,           ///< constant K and the area in circular mils
        impedance,   ///< table of alternating-current resistance and reactance, with the power factor
    };

    int phases = 0;                ///< 1 (two wires) or 3; 0: not said
    std::optional<double> volts;   ///< V, nominal, between the wires of the circuit; > 0
    std::optional<double> amps;    ///< A of the load; > 0
    std::optional<double> length;  ///< ft one way; without it the longest run is asked for
    std::optional<Material> material;
    std::optional<Size> size;                        ///< without it the least size is asked for
    std::optional<double> ohms;                      ///< ohm per 1000 ft as read elsewhere, in place of size and table
    double sets = 1.0;                               ///< conductors in parallel per phase
    std::optional<double> most_percent, most_volts;  ///< %, V that may drop; the smaller counts when both are there
    Method method = Method::resistance;
    bool solid = false;                  ///< resistance: solid conductors, else stranded
    std::optional<Tables::Run> run;      ///< impedance: what the wires run in
    std::optional<double> power_factor;  ///< impedance: of the load, lagging; over 0, at most 1
};

/// Voltage drop along a run, the least size for a drop, or the longest run for it.
/// Gives   V with size and length; also `percent`, `volts_at_load`, `ohms_per_kft` of one conductor, and by impedance
///         `exact`. With a limit also `most_volts`, `longest` (ft) and `fits`. Without a length the answer is the
///         longest run. Without a size the answer is the least size whose drop keeps within the limit (12 AWG and up
///         in aluminium), with its `volts`, `percent`, `ohms_per_kft`, and by `cmil` the area that the K formula asks
///         for. The drop alone is judged: a size that cannot carry the current is a finding.
/// Errors  lacks a fact; refused with a finding: a size without a resistance, a limit that no size keeps, and a drop of
///         all of the voltage or more. That the limit is advice and no requirement is always a finding.
/// Source  2 x L x I x R / 1000 for two wires, square root of 3 in place of 2 for three-phase (EC&M on voltage drop,
/// see
///         tests/reference/worked_voltage_drop.json); R from table "conductor-resistance"; K from table
///         "voltage-drop-constant"; R cos + X sin from table "conductor-impedance" (approximate formula as told of
///         UFC 3-520-01, B-2.1); `exact` is the magnitude of load voltage plus I Z less that of the load voltage, with
///         the nominal voltage at the load.
[[nodiscard]] Finding voltage_drop(const VoltageDropFacts& facts, const Setting& setting);

[[nodiscard]] Calculator voltage_drop_calculator();

}  // namespace trade
