#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "trade/work/calculator.hpp"

namespace trade {

/// One dwelling unit, new, on a service or feeder of its own. Empty: not said.
struct DwellingFacts {
    enum class Method : std::uint8_t { standard, optional };

    std::optional<Method> method;
    std::optional<double> area;  ///< ft2 of floor by outside measures, without open porches, garages, unused spaces
    double small_appliance_circuits = 2;  ///< 20 A circuits of kitchen and dining areas
    double laundry_circuits = 1;
    std::vector<double> fastened;      ///< VA of appliances fastened in place that use the neutral (120 V, 120/240 V)
    std::vector<double> fastened_240;  ///< VA of those that do not, such as a water heater; ranges, dryers, heating and
                                       ///< cooling belong to neither
    std::vector<double> range_kw, dryer_kw;        ///< nameplates
    std::optional<double> heating_va, cooling_va;  ///< electric, without neutral; 0: none
    std::optional<double> heaters;                 ///< separately controlled heating units; 1: central
    double heat_pump_va = 0.0;             ///< compressor of a heat pump whose supplement is heating_va; 0: none
    double largest_motor_va = 0.0;         ///< the largest motor among what counts, for the quarter more; 0: none
    std::optional<bool> motor_on_neutral;  ///< does that motor run from one hot wire to neutral?
    std::optional<double> volts;           ///< V between the hot wires, single-phase, for the currents
};

/// Load of a dwelling by the standard or the optional calculation.
/// Gives   VA; also `by_area`, `lighting` (general load before demand), `after_demand`, `appliances`, `climate`;
///         `range`, `dryer`, `motor`, `neutral` (standard); `general` (optional: what the first step and the rest are
///         taken of); with volts `amps`, `service` (A, least standard rating, 100 at least), `neutral_amps`; up to the
///         2023 edition `circuits_15` and `circuits_20` (lighting circuits of either rating).
/// Errors  lacks `method`, `area`, `heating_va`, `cooling_va`, `heaters` (optional, with electric heat); refused with a
///         finding: a demand or a rule that the tables do not have.
/// Source  table "dwelling-load" with its rows' sources; method as in the handbook excerpts of examples D1(a), D2(a)
/// and
///         D2(b) and as worked in tests/reference/worked_dwelling.json. Practice: on the neutral the 75 % holds only
///         where enough of the appliances use it. Left out: existing dwellings with added load, vehicle charging,
///         energy management, the reduction of a neutral over 200 A.
[[nodiscard]] Finding dwelling_load(const DwellingFacts& facts, const Setting& setting);

[[nodiscard]] Calculator dwelling_load_calculator();

}  // namespace trade
