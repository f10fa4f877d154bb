#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "trade/work/calculator.hpp"

namespace trade {

/// One motor, a feeder for several, or an air conditioner with a compressor. Empty: not said.
struct MotorFacts {
    enum class Device : std::uint8_t { breaker, fuse, dual_element_fuse, instantaneous };

    std::optional<double> hp, volts;  ///< horsepower, V of the motor or of the system
    int phases = 0;                   ///< 1 or 3; 0: not said
    Device device = Device::breaker;
    std::optional<double> nameplate_amps;    ///< A, for the overload; never for conductor or protection
    std::optional<double> service_factor;    ///< as marked, for the overload
    std::optional<double> temperature_rise;  ///< degrees C as marked, for the overload
    std::vector<double> others, others_hp;   ///< further motors on the feeder: table currents in A, or horsepower
    std::optional<double> rated_load, fan;   ///< A of a compressor and its fan: an air conditioner
    std::optional<Rating> terminals;         ///< for the conductor's size
    Material material = Material::cu;
};

/// Conductor, protection and overload of a motor circuit.
/// Gives   the least ampacity of the conductor in A, of the feeder where there are other motors; also `table_amps`,
///         `table_volts`, `conductor` (A for the motor itself), `size` (with terminals), `device_percent`,
///         `device_most` (A), `device` (A, the standard rating for the branch circuit), `overload` (A),
///         `overload_percent`, and of a feeder `largest` (A), `feeder_most` and `feeder_device` (A). Of an air
///         conditioner the minimum circuit ampacity, `device_most` and `device`, the largest standard rating not over
///         it, and `most_if_no_start` and `device_if_no_start`, which count only then.
/// Errors  lacks `hp`, `volts`, `phases`, `fan`; refused with a finding: a motor that the table does not have.
/// Source  tables "motor-current" and "motor-protection". Published: conductor 125 % of the table current, breaker
///         250 %, next standard rating up (EC&M on a single motor); feeder 125 % of the largest and 100 % of the
///         others, device not over the largest branch device and the other currents (a trade forum). Practice: overload
///         125 % of the nameplate at a service factor of 1.15 or more or a rise of 40 C or less, else 115 %; air
///         conditioner 125 % of the compressor for the conductor and at most 225 % for the device, with 100 % of the
///         fan, not exceeded. Recalled: that the device is 175 % first, and more only where the unit does not start.
///         Recalled: system voltages of 110 to 120, 220 to 240 and 440 to 480 V read at 115, 230 and 460 V; a device
///         under an air conditioner need not be under 15 A.
[[nodiscard]] Finding motor_circuit(const MotorFacts& facts, const Setting& setting);

[[nodiscard]] Calculator motor_circuit_calculator();

}  // namespace trade
