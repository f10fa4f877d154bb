#include "trade/work/working_space.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::WorkingSpaceFacts;
using worked::json;
using Opposite = WorkingSpaceFacts::Opposite;

const trade::Calculator& calculator() {
    static const auto made = trade::working_space_calculator();
    return made;
}

json panel() {
    return {{"volts_to_ground", 120}, {"opposite", "grounded"}, {"width", 20}, {"height", 70}};
}

double depth(double volts, Opposite opposite) {
    WorkingSpaceFacts facts;
    facts.volts_to_ground = volts;
    facts.opposite = opposite;
    const auto finding = trade::working_space(facts, {trade::Edition::e2023, &shipped_tables(), false});
    REQUIRE(finding.answer.has_value());
    return finding.answer->number;
}

}  // namespace

TEST_CASE("working space: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_working_space.json", 8);
}

TEST_CASE("working space: each fact that is missing is asked for by name") {
    worked::check_needs(calculator(), panel(), {"volts_to_ground", "opposite"});
    json by_system = panel();
    by_system.erase("volts_to_ground");
    by_system["system"] = "wye-208-120";
    CHECK(worked::find(calculator(), by_system).answer->number == 3);
}

TEST_CASE("working space: every system of the help has its voltage to ground, not the one between wires") {
    const std::map<std::string, double> volts = {
        {"single-phase-120-240", 120}, {"wye-208-120", 120},      {"wye-480-277", 277},    {"corner-grounded-240", 240},
        {"corner-grounded-480", 480},  {"high-leg-240-120", 208}, {"ungrounded-240", 240}, {"ungrounded-480", 480}};
    const auto& specs = calculator().facts;
    const auto spec = std::find_if(specs.begin(), specs.end(), [](const auto& s) { return s.name == "system"; });
    REQUIRE(spec != specs.end());
    const auto systems = base::split(spec->choices, '|');
    CHECK(systems.size() == volts.size());
    for (const auto& system : systems) {
        CAPTURE(system);
        const auto finding = worked::find(calculator(), {{"system", system}, {"opposite", "live-parts"}});
        CHECK(finding.find("volts")->number == volts.at(system));
        CHECK(finding.answer->number == (volts.at(system) > 150 ? 4.0 : 3.0));
    }
}

TEST_CASE("working space: the bands end at 150 and 600 V, and what lies between two belongs to the upper one") {
    CHECK(depth(150, Opposite::live_parts) == 3.0);
    CHECK(depth(150.5, Opposite::live_parts) == 4.0);
    CHECK(depth(151, Opposite::live_parts) == 4.0);
    CHECK(depth(600, Opposite::live_parts) == 4.0);
    CHECK(depth(600.5, Opposite::live_parts) == 5.0);
    WorkingSpaceFacts beyond;
    beyond.volts_to_ground = 1001.0;
    beyond.opposite = Opposite::grounded;
    const auto finding = trade::working_space(beyond, {trade::Edition::e2023, &shipped_tables(), false});
    CHECK_FALSE(finding.answer.has_value());
    CHECK(finding.unknown.empty());
    CHECK(finding.findings.size() == 1);
}

TEST_CASE("working space: a system and a voltage that do not agree are told, and the larger counts") {
    json facts = panel();
    facts["system"] = "corner-grounded-240";
    const auto finding = worked::find(calculator(), facts);
    CHECK(finding.findings.size() == 1);
    CHECK(finding.find("volts")->number == 240);
    CHECK(finding.answer->number == 3.5);
}

TEST_CASE("working space: property: never less depth for more volts or a worse side opposite, nor a narrower space") {
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const double volts = 1000.0 * random.unit();
        const auto opposite = static_cast<Opposite>(random.below(3));
        const double before = depth(volts, opposite);
        CHECK(before >= 3.0);
        CHECK(depth(volts + (1000.0 - volts) * random.unit(), opposite) >= before);
        if (opposite != Opposite::live_parts)
            CHECK(depth(volts, static_cast<Opposite>(static_cast<int>(opposite) + 1)) >= before);
        WorkingSpaceFacts facts;
        facts.volts_to_ground = volts;
        facts.opposite = opposite;
        facts.width = 1.0 + 99.0 * random.unit();
        facts.height = 1.0 + 119.0 * random.unit();
        const auto finding = trade::working_space(facts, {trade::Edition::e2023, &shipped_tables(), false});
        CHECK(finding.find("width")->number >= std::max(30.0, *facts.width));
        CHECK(finding.find("height_ft")->number * 12.0 >= std::max(78.0, *facts.height) - 1e-9);
    }
}

TEST_CASE("working space: silent without a working, and every further value is named in the help") {
    worked::check_silent(calculator(), panel());
    worked::check_names(calculator(), worked::find(calculator(), panel()));
    CHECK(worked::cites(worked::find(calculator(), panel()), "110.26(A)(1)"));
}
