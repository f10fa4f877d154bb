#pragma once

#include "base/fault.hpp"
#include "trade/switching/circuit.hpp"

namespace trade::switching {

/// By the voltage across the load (thresholds are the model's own): off under 6 V, dim under 102 V, on up to 132 V (10
/// % over nominal), bright above. `flickers`: a loose joint makes and breaks, and the load changes with it.
enum class LoadState : std::uint8_t { off, dim, on, bright, flickers };
/// Against ground: dead, live only by way of a load (as behind an open neutral), or joined to a hot by copper.
enum class Live : std::uint8_t { dead, through_load, hot };
enum class Trip : std::uint8_t { holds, may_trip, trips };

[[nodiscard]] std::string_view to_text(LoadState state);
[[nodiscard]] std::string_view to_text(Live live);
[[nodiscard]] std::string_view to_text(Trip trip);

/// Currents at the source in amperes, positive out of a hot and into the others. All 0 when the breaker has tripped.
/// Between a neutral and a ground that are tied at the load side the division is not known; all is told as neutral.
struct Amps {
    double hot_a = 0.0;
    double hot_b = 0.0;  ///< negative leg: its current as it flows, so negative
    double neutral = 0.0;
    double ground = 0.0;
    double other_neutral = 0.0;
};

/// One combination of switch positions.
struct Row {
    std::vector<LoadState> loads;
    std::vector<double> volts;  ///< by node, against ground, signed by leg; floating copper reads 0
    std::vector<Live> live;     ///< by node
    Trip breaker = Trip::holds;
    Trip gfci = Trip::holds;
    Trip afci = Trip::holds;
    Amps amps;
    bool neutral_overloaded = false;  ///< neutral current over the breaker's rating, which no breaker sees
};

/// A circuit and what it does in every combination.
struct Table {
    Circuit circuit;
    std::vector<Row> rows;  ///< by combination
};

/// What the circuit does in every combination of its switches.
/// Takes   up to 8 switches and 16 loads above 0 ohms.
/// Model   ideal sources, copper without resistance, loads of constant resistance; union-find over the copper, then
///         node voltages by elimination. No capacitance: floating copper reads 0 V where a tester of high impedance may
///         show a ghost voltage.
/// Breaker trips when a hot is joined to neutral, to ground or to the other leg by copper alone; both poles open and
///         everything is told as after the trip. Overload is told by `neutral_overloaded`, not by the breaker.
/// GFCI    what one at the source end of the circuit (two-pole for two legs) would do; the loads are told as on an
///         ordinary breaker. Trips on
///         6 mA or more that do not come back by the circuit's own neutral, on a hot joined to ground, and on a neutral
///         joined to ground or to another neutral on its load side, whatever the load draws.
/// AFCI    trips on the same copper faults as the breaker; `may_trip` where a joint marked loose carries current (a
///         series arc, which it may or may not take for one). Says nothing of clean breaks, of leakage or of shared
///         neutrals, to which makes differ.
/// Loose   the circuit is solved with the joint closed and open: a load that differs flickers, a conductor counts as
///         live when it is so in either; volts and amps are those with the joint closed.
[[nodiscard]] Table solve(Circuit circuit);

/// Volts between two points of a combination as an ideal tester reads them, never negative.
/// Refuses an unknown point and an unknown combination. "ground" is always a point.
[[nodiscard]] base::Checked<double> reading(const Table& table, std::size_t combination, std::string_view from,
                                            std::string_view to = "ground");

}  // namespace trade::switching
