#include "trade/loads/motor_circuit.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::MotorFacts;
using worked::json;

const trade::Calculator& calculator() {
    static const auto made = trade::motor_circuit_calculator();
    return made;
}

json motor() {
    return {{"hp", 5}, {"volts", 230}, {"phases", "1"}};
}

double number(const json& facts, std::string_view name, trade::Edition edition = trade::Edition::e2023) {
    const auto finding = worked::find(calculator(), facts, edition);
    const auto* value = finding.find(name);
    REQUIRE(value != nullptr);
    return value->number;
}

/// A motor of the table, told by the voltage that the table has.
MotorFacts any_motor(Random& random) {
    const auto& rows = shipped_tables().motor_currents;
    const auto& row = rows[random.below(rows.size())];
    MotorFacts facts;
    facts.hp = row.hp;
    facts.volts = row.volts;
    facts.phases = row.phase;
    facts.device = static_cast<MotorFacts::Device>(random.below(4));
    facts.terminals = random.below(2) == 0 ? trade::Rating::c60 : trade::Rating::c75;
    return facts;
}

trade::Finding work(const MotorFacts& facts) {
    return trade::motor_circuit(facts, {trade::Edition::e2023, &shipped_tables(), false});
}

}  // namespace

TEST_CASE("motor circuit: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_motor_circuit.json", 12);
}

TEST_CASE("motor circuit: each fact that is missing is asked for by name") {
    worked::check_needs(calculator(), motor(), {"hp", "volts", "phases"});
    worked::check_needs(calculator(), {{"rated_load", 18}, {"fan", 1.2}}, {"fan"});
}

TEST_CASE("motor circuit: the nameplate goes into the overload alone") {
    json facts = motor();
    const auto before = worked::find(calculator(), facts);
    facts["nameplate_amps"] = 24;
    facts["temperature_rise"] = 40;
    const auto after = worked::find(calculator(), facts);
    CHECK(after.answer == before.answer);
    CHECK(*after.find("device") == *before.find("device"));
    CHECK(after.find("overload")->number == doctest::Approx(30));
    facts["temperature_rise"] = 50;
    CHECK(number(facts, "overload") == doctest::Approx(27.6));
    facts["service_factor"] = 1.15;
    CHECK(number(facts, "overload") == doctest::Approx(30));
    facts.erase("temperature_rise");
    facts.erase("service_factor");
    const auto unmarked = worked::find(calculator(), facts);
    CHECK(unmarked.find("overload") == nullptr);
    CHECK(unmarked.findings.size() == 1);
    facts.update({{"nameplate_amps", 40}, {"service_factor", 1.15}});
    CHECK(worked::find(calculator(), facts).findings.size() == 1);
}

TEST_CASE("motor circuit: system voltages are read at the voltage of the table, others are not guessed") {
    for (const double volts : {220.0, 230.0, 240.0}) {
        json facts = motor();
        facts["volts"] = volts;
        CHECK(number(facts, "table_amps") == 28.0);
    }
    for (const double volts : {219.0, 241.0, 277.0, 480.0, 575.0}) {
        CAPTURE(volts);
        json facts = motor();
        facts["volts"] = volts;
        const auto finding = worked::find(calculator(), facts);
        CHECK_FALSE(finding.answer.has_value());
        CHECK(finding.unknown.empty());
        REQUIRE(finding.findings.size() == 1);
        CHECK(finding.findings.front().starts_with("beyond our table of motor currents: 5 hp"));
    }
    json unlisted = motor();
    unlisted["hp"] = 4;
    CHECK_FALSE(worked::find(calculator(), unlisted).answer.has_value());
    json other = motor();
    other["others_hp"] = {4};
    CHECK_FALSE(worked::find(calculator(), other).answer.has_value());
    const auto large = worked::find(calculator(), {{"hp", 500}, {"volts", 460}, {"phases", "3"}});
    CHECK_FALSE(large.answer.has_value());
    REQUIRE(large.findings.size() == 1);
    CHECK(large.findings.front().find("which ends at 200 hp for this voltage: 500 hp at 460 V, three-phase; see Table "
                                      "430.250") != std::string::npos);
}

TEST_CASE("motor circuit: each kind of protection has its percent, and only a breaker that is set has no rating") {
    const auto device = [](const char* kind) {
        json facts = motor();
        facts["device"] = kind;
        return worked::find(calculator(), facts);
    };
    CHECK(device("breaker").find("device")->number == 70);
    CHECK(device("fuse").find("device_most")->number == doctest::Approx(84));
    CHECK(device("fuse").find("device")->number == 90);
    CHECK(device("dual-element-fuse").find("device")->number == 50);
    CHECK(device("instantaneous").find("device")->number == doctest::Approx(224));
    CHECK(device("instantaneous").findings.size() == 1);
}

TEST_CASE("motor circuit: the smallest breaker is 15 A, and 10 A from 2023") {
    const json facts = {{"hp", "1/2"}, {"volts", 460}, {"phases", "3"}};
    CHECK(number(facts, "device", trade::Edition::e2020) == 15);
    CHECK(number(facts, "device", trade::Edition::e2023) == 10);
}

TEST_CASE("motor circuit: the terminals pick the size, and without them there is none") {
    json facts = {{"hp", 10}, {"volts", 208}, {"phases", "3"}};
    CHECK(worked::find(calculator(), facts).find("size") == nullptr);
    facts["terminals"] = "75";
    CHECK(worked::find(calculator(), facts).find("size")->words == "8");
    facts["terminals"] = "60";
    CHECK(worked::find(calculator(), facts).find("size")->words == "8");
    facts["material"] = "al";
    CHECK(worked::find(calculator(), facts).find("size")->words == "6");
}

TEST_CASE("motor circuit: an air conditioner's device is not exceeded, and need not be under 15 A") {
    CHECK(number({{"rated_load", 20}, {"fan", 0}}, "device") == 35);
    CHECK(number({{"rated_load", 19.9}, {"fan", 0}}, "device") == 30);
    CHECK(number({{"rated_load", 20}, {"fan", 0}}, "device_most") == doctest::Approx(35));
    CHECK(number({{"rated_load", 20}, {"fan", 0}}, "device_if_no_start") == 45);
    CHECK(number({{"rated_load", 19.9}, {"fan", 0}}, "device_if_no_start") == 40);
    CHECK(number({{"rated_load", 20}, {"fan", 1}}, "most_if_no_start") == doctest::Approx(46));
    CHECK(number({{"rated_load", 5}, {"fan", 0.5}}, "device", trade::Edition::e2017) == 15);
    CHECK(number({{"rated_load", 5}, {"fan", 0.5}}, "device", trade::Edition::e2023) == 15);
    CHECK(worked::find(calculator(), {{"rated_load", 20}, {"fan", 0}, {"hp", 3}}).findings.size() == 1);
    CHECK(worked::find(calculator(), {{"rated_load", 20}, {"fan", 0}, {"terminals", "75"}}).find("size")->words ==
          "12");
}

TEST_CASE("motor circuit: the governing article is the conductor's") {
    CHECK(worked::find(calculator(), motor()).articles.front() == "430.22");
    json feeder = motor();
    feeder["others"] = {10};
    const auto finding = worked::find(calculator(), feeder);
    CHECK(finding.articles.front() == "430.24");
    CHECK(worked::cites(finding, "430.62"));
    CHECK(worked::find(calculator(), {{"rated_load", 18}, {"fan", 1}}).articles.front() == "440.32");
}

TEST_CASE("motor circuit: property: conductor, protection and size hold for every motor of the table") {
    for (base::Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const MotorFacts facts = any_motor(random);
        const auto finding = work(facts);
        REQUIRE(finding.answer.has_value());
        const double amps = finding.find("table_amps")->number;
        CHECK(finding.answer->number == doctest::Approx(1.25 * amps));
        if (const auto* device = finding.find("device"))
            CHECK(device->number >= finding.find("device_most")->number - 1e-9);
        if (const auto* size = finding.find("size")) {
            const auto wire = trade::parse_size(size->words).value();
            CHECK(shipped_tables().ampacity_of(facts.material, *facts.terminals, wire).value() >= 1.25 * amps - 1e-6);
        }
    }
}

TEST_CASE("motor circuit: property: a feeder does not depend on the order, and never shrinks with a motor more") {
    for (base::Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const auto& rows = shipped_tables().motor_currents;
        std::vector<double> hp;
        while (hp.size() < 3) {
            const auto& row = rows[random.below(rows.size())];
            if (row.phase == 3 && row.volts == 460.0) hp.push_back(row.hp);
        }
        MotorFacts facts;
        facts.volts = 480.0;
        facts.phases = 3;
        facts.hp = hp[0];
        facts.others_hp = {hp[1]};
        const auto two = work(facts);
        facts.others_hp = {hp[1], hp[2]};
        const auto three = work(facts);
        facts.hp = hp[2];
        facts.others_hp = {hp[0], hp[1]};
        const auto turned = work(facts);
        CHECK(three.answer->number > two.answer->number);
        CHECK(turned.answer->number == doctest::Approx(three.answer->number));
        REQUIRE(three.find("feeder_most") != nullptr);
        CHECK(turned.find("feeder_most")->number == doctest::Approx(three.find("feeder_most")->number));
        CHECK(three.find("feeder_device")->number <= three.find("feeder_most")->number + 1e-9);
        CHECK(three.find("feeder_device")->number >= two.find("feeder_device")->number);
    }
}

TEST_CASE("motor circuit: silent without a working, and every further value is named in the help") {
    json facts = motor();
    facts.update({{"nameplate_amps", 24}, {"service_factor", 1.15}, {"others", {10}}, {"terminals", "75"}});
    worked::check_silent(calculator(), facts);
    worked::check_names(calculator(), worked::find(calculator(), facts));
    worked::check_names(calculator(), worked::find(calculator(), {{"rated_load", 18}, {"fan", 1}}));
}
