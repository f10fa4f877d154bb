#include "trade/switching/solve.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "reference/json_file.hpp"
#include "trade/switching/fault.hpp"

namespace {

using namespace trade::switching;

const Arrangement& arrangement(const char* id) {
    const auto* found = find_arrangement(id);
    REQUIRE(found != nullptr);
    return *found;
}

Table solved(const char* id, const char* fault = "sound") {
    const auto found = find_fault(arrangement(id), fault);
    REQUIRE(found.has_value());
    return solve(arrangement(id), *found);
}

double volts(const Table& table, std::size_t row, const char* from, const char* to = "ground") {
    return reading(table, row, from, to).value();
}

Live live(const Table& table, std::size_t row, const char* name) {
    return table.rows[row].live[table.circuit.find_node(name).value()];
}

}  // namespace

TEST_CASE("switching solve: a single light by hand") {
    const Table table = solved("single-pole-feed-at-switch");
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[0].loads[0] == LoadState::off);
    CHECK(table.rows[1].loads[0] == LoadState::on);
    CHECK(table.rows[0].amps.hot_a == 0.0);
    CHECK(table.rows[1].amps.hot_a == doctest::Approx(120.0 / 240.0));
    CHECK(table.rows[1].amps.neutral == doctest::Approx(0.5));
    CHECK(volts(table, 0, "S line screw", "S load screw") == doctest::Approx(120.0));
    CHECK(volts(table, 1, "S line screw", "S load screw") == doctest::Approx(0.0));
    CHECK(volts(table, 0, "light black lead") == 0.0);
    CHECK(volts(table, 1, "light black lead", "light white lead") == doctest::Approx(120.0));
}

TEST_CASE("switching solve: readings refuse what does not exist") {
    const Table table = solved("single-pole-feed-at-switch");
    CHECK(reading(table, 0, "no such screw").error().front().what.find("no such screw") != std::string::npos);
    CHECK(reading(table, 0, "ground", "elsewhere").error().front().what.find("elsewhere") != std::string::npos);
    CHECK_FALSE(reading(table, 2, "ground").has_value());
}

TEST_CASE("switching solve: two lights in series share the voltage by their resistance") {
    Circuit circuit = with_fault(arrangement("two-lights-in-parallel").circuit,
                                 find_fault(arrangement("two-lights-in-parallel"), "lights-in-series").value());
    circuit.loads[0].ohms = 240.0;
    circuit.loads[1].ohms = 120.0;
    const Table table = solve(circuit);
    CHECK(volts(table, 1, "light 2 black lead") == doctest::Approx(40.0));
    CHECK(volts(table, 1, "light 1 black lead", "light 1 white lead") == doctest::Approx(80.0));
    CHECK(table.rows[1].amps.hot_a == doctest::Approx(120.0 / 360.0));
    CHECK(table.rows[1].loads[0] == LoadState::dim);
    CHECK(live(table, 1, "light 2 black lead") == Live::through_load);
}

TEST_CASE("switching solve: the white behind an open neutral is live through the lamp, and floats when it is off") {
    const Table table = solved("single-pole-feed-at-light", "neutral-open.feed-neutral");
    CHECK(volts(table, 1, "light white lead") == doctest::Approx(120.0));
    CHECK(volts(table, 1, "light black lead", "light white lead") == doctest::Approx(0.0));
    CHECK(live(table, 1, "light screw shell") == Live::through_load);
    CHECK(volts(table, 0, "light white lead") == 0.0);
    CHECK(live(table, 0, "light white lead") == Live::dead);
    CHECK(table.rows[1].breaker == Trip::holds);
}

TEST_CASE("switching solve: the open neutral of a multiwire circuit as the trade teaches it") {
    const auto known = reference::json_file("switching.json").at("open_neutral");
    Arrangement changed = arrangement("multiwire-shared-neutral");
    for (std::size_t i = 0; i < 2; ++i) changed.circuit.loads[i].ohms = known.at("ohms").at(i).get<double>();
    const Table sound = solve(changed);
    CHECK(sound.rows[3].amps.hot_a == doctest::Approx(known.at("sound_amps").at(0).get<double>()).epsilon(1e-4));
    CHECK(-sound.rows[3].amps.hot_b == doctest::Approx(known.at("sound_amps").at(1).get<double>()).epsilon(1e-4));
    const Table open = solve(changed, find_fault(changed, "shared-neutral-open.shared-neutral").value());
    CHECK(volts(open, 3, "receptacle 1 brass screw", "receptacle 1 silver screw") ==
          doctest::Approx(known.at("open_volts").at(0).get<double>()));
    CHECK(volts(open, 3, "receptacle 2 brass screw", "receptacle 2 silver screw") ==
          doctest::Approx(known.at("open_volts").at(1).get<double>()));
    CHECK(volts(open, 3, "receptacle 1 brass screw", "receptacle 2 brass screw") == doctest::Approx(240.0));
    CHECK(open.rows[3].loads[0] == LoadState::bright);
    CHECK(open.rows[3].loads[1] == LoadState::dim);
    CHECK(open.rows[2].loads[0] == LoadState::off);
    CHECK(live(open, 2, "receptacle 2 silver screw") == Live::through_load);
}

TEST_CASE("switching solve: legs on one side add up in the neutral and no breaker sees it") {
    const Table sound = solved("multiwire-shared-neutral");
    CHECK(sound.rows[3].amps.neutral == doctest::Approx(120.0 / 9.6 - 120.0 / 30.0));
    CHECK_FALSE(sound.rows[3].neutral_overloaded);
    CHECK(volts(sound, 0, "breaker", "second breaker") == doctest::Approx(240.0));
    const Table one_leg = solved("multiwire-shared-neutral", "both-legs-on-one");
    CHECK(one_leg.rows[3].amps.neutral == doctest::Approx(120.0 / 9.6 + 120.0 / 30.0));
    CHECK(one_leg.rows[3].neutral_overloaded);
    CHECK_FALSE(one_leg.rows[1].neutral_overloaded);
    CHECK(one_leg.rows[3].breaker == Trip::holds);
    CHECK(volts(one_leg, 0, "breaker", "second breaker") == 0.0);
}

TEST_CASE("switching solve: what a GFCI sees and what it does not") {
    SUBCASE("a neutral on ground trips it with nothing on") {
        const Table table = solved("single-pole-feed-at-switch", "neutral-grounded.light-box");
        CHECK(table.rows[0].gfci == Trip::trips);
        CHECK(table.rows[1].gfci == Trip::trips);
        CHECK(table.rows[1].breaker == Trip::holds);
    }
    SUBCASE("a foreign neutral trips it when current flows") {
        const Table table = solved("single-pole-feed-at-switch", "foreign-neutral.light");
        CHECK(table.rows[0].gfci == Trip::holds);
        CHECK(table.rows[1].gfci == Trip::trips);
        CHECK(table.rows[1].loads[0] == LoadState::on);
        CHECK(table.rows[1].amps.other_neutral == doctest::Approx(0.5));
        CHECK(table.rows[1].amps.neutral == 0.0);
    }
    SUBCASE("a short from hot to neutral comes back by the sensor") {
        const Table table = solved("single-pole-feed-at-switch", "switch-across");
        CHECK(table.rows[1].breaker == Trip::trips);
        CHECK(table.rows[1].gfci == Trip::holds);
    }
    SUBCASE("6 mA trips and less does not") {
        Circuit circuit =
            with_fault(arrangement("single-pole-feed-at-switch").circuit,
                       find_fault(arrangement("single-pole-feed-at-switch"), "foreign-neutral.light").value());
        circuit.loads[0].ohms = 120.0 / 0.0060;
        CHECK(solve(circuit).rows[1].gfci == Trip::trips);
        circuit.loads[0].ohms = 120.0 / 0.0059;
        CHECK(solve(circuit).rows[1].gfci == Trip::holds);
    }
    SUBCASE("a box that is live without a path draws nothing") {
        const Table table = solved("single-pole-feed-at-switch", "live-box.light-box");
        CHECK(table.rows[1].gfci == Trip::holds);
        CHECK(table.rows[1].breaker == Trip::holds);
        CHECK(live(table, 1, "light box") == Live::hot);
        CHECK(live(table, 0, "light box") == Live::dead);
    }
}

TEST_CASE("switching solve: after a trip everything is dead") {
    const Table table = solved("three-way-feed-at-s1-light-after-s2", "traveler-grounded.traveler-1");
    CHECK(table.rows[0].breaker == Trip::trips);
    CHECK(table.rows[0].afci == Trip::trips);
    for (std::size_t i = 0; i < table.circuit.points.size(); ++i) {
        CHECK(table.rows[0].live[i] == Live::dead);
        CHECK(table.rows[0].volts[i] == 0.0);
    }
    CHECK(table.rows[3].loads[0] == LoadState::on);
}

TEST_CASE("switching solve: a short between the legs trips both") {
    Circuit circuit = arrangement("multiwire-shared-neutral").circuit;
    circuit.links.push_back({kHotA, kHotB, Link::Kind::contact_by_fault});
    CHECK(solve(circuit).rows[0].breaker == Trip::trips);
    CHECK(solve(circuit).rows[0].gfci == Trip::holds);
}

TEST_CASE("switching solve: a loose neutral flickers under load and an AFCI may take notice") {
    const Table table = solved("single-pole-feed-at-switch", "neutral-loose.light-neutral");
    CHECK(table.rows[0].loads[0] == LoadState::off);
    CHECK(table.rows[0].afci == Trip::holds);
    CHECK(table.rows[1].loads[0] == LoadState::flickers);
    CHECK(table.rows[1].afci == Trip::may_trip);
    CHECK(table.rows[1].breaker == Trip::holds);
    CHECK(live(table, 1, "light white lead") == Live::through_load);
    CHECK(volts(table, 1, "light white lead") == doctest::Approx(0.0));
}

TEST_CASE("switching solve: thresholds between off, dim, on and too bright") {
    Circuit circuit = arrangement("single-pole-feed-at-switch").circuit;
    const auto at = [&](double source) {
        circuit.volts_a = source;
        return solve(circuit).rows[1].loads[0];
    };
    CHECK(at(5.9) == LoadState::off);
    CHECK(at(6.1) == LoadState::dim);
    CHECK(at(101.9) == LoadState::dim);
    CHECK(at(102.1) == LoadState::on);
    CHECK(at(132.0) == LoadState::on);
    CHECK(at(132.1) == LoadState::bright);
}
