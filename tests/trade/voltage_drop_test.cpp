#include "trade/loads/voltage_drop.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::Material;
using trade::Size;
using trade::VoltageDropFacts;
using worked::json;
using Method = VoltageDropFacts::Method;

const trade::Calculator& calculator() {
    static const auto made = trade::voltage_drop_calculator();
    return made;
}

json circuit() {
    return {{"phases", "1"}, {"volts", 120}, {"amps", 16}, {"length", 100}, {"material", "cu"}, {"size", "12"}};
}

trade::Finding work(const VoltageDropFacts& facts) {
    return trade::voltage_drop(facts, {trade::Edition::e2023, &shipped_tables(), false});
}

/// The drop; all of the voltage where there is no answer since that much is dropped.
double volts(const VoltageDropFacts& facts) {
    const auto finding = work(facts);
    if (finding.answer) return finding.answer->number;
    REQUIRE(finding.blocked());
    REQUIRE(finding.unknown.empty());
    return *facts.volts;
}

/// Any circuit of a size that every table has.
VoltageDropFacts any_circuit(Random& random) {
    VoltageDropFacts facts;
    facts.phases = random.below(2) == 0 ? 1 : 3;
    facts.volts = 100.0 + 380.0 * random.unit();
    facts.amps = 1.0 + 99.0 * random.unit();
    facts.length = 1.0 + 499.0 * random.unit();
    facts.material = random.below(2) == 0 ? Material::cu : Material::al;
    facts.size = trade::size_at(index_of(Size::awg12) + random.below(13));
    facts.method = static_cast<Method>(random.below(3));
    facts.run = static_cast<trade::Tables::Run>(random.below(3));
    if (facts.method == Method::impedance) facts.power_factor = 0.5 + 0.5 * random.unit();
    return facts;
}

std::size_t least_size(const VoltageDropFacts& facts) {
    const auto finding = work(facts);
    if (!finding.answer) return trade::kSizes;
    return index_of(trade::parse_size(finding.answer->words).value());
}

bool tells(const trade::Finding& finding, std::string_view part) {
    return std::any_of(finding.findings.begin(), finding.findings.end(),
                       [&](const std::string& line) { return line.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("voltage drop: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_voltage_drop.json", 15);
}

TEST_CASE("voltage drop: the shipped resistances follow from the gauge and the temperature") {
    const json known = reference::json_file("worked_voltage_drop.json").at("resistance");
    const json& warm = known.at("VD16");
    const double at_75 = warm.at("ohm_20c").get<double>() * (1.0 + warm.at("alpha").get<double>() * 55.0);
    CHECK(at_75 == doctest::Approx(warm.at("ohm_75c").get<double>()).epsilon(1e-4));
    CHECK(std::abs(shipped_tables().resistance[index_of(Size::awg14)].solid[0] - at_75) < 0.005);
    for (std::size_t i = index_of(Size::awg14); i <= index_of(Size::k500); ++i) {
        const auto& row = shipped_tables().resistance[i];
        CAPTURE(trade::to_text(trade::size_at(i)));
        const double k = row.stranded[0] * row.cmil / 1000.0;
        CHECK(k >= known.at("VD17").at("k_least").get<double>());
        CHECK(k <= known.at("VD17").at("k_most").get<double>());
    }
}

TEST_CASE("voltage drop: each fact that is missing is asked for by name") {
    worked::check_needs(calculator(), circuit(), {"phases", "volts", "amps", "material", "length", "size"});
    json impedance = circuit();
    impedance.update({{"method", "impedance"}, {"run", "steel"}, {"power_factor", 0.9}});
    worked::check_needs(calculator(), impedance, {"run", "power_factor", "material"});
    json sized = circuit();
    sized.erase("size");
    sized["most_percent"] = 3;
    worked::check_needs(calculator(), sized, {"phases", "volts", "amps", "material", "length"});
}

TEST_CASE("voltage drop: ohms that are stated need neither material nor size") {
    json facts = circuit();
    facts.erase("size");
    facts.erase("material");
    facts["ohms"] = 2.0;
    const auto finding = worked::find(calculator(), facts);
    CHECK(finding.answer->number == doctest::Approx(2.0 * 100 * 16 * 2.0 / 1000));
}

TEST_CASE("voltage drop: without a length the answer is the longest run, and that run drops just the limit") {
    json facts = circuit();
    facts.erase("length");
    facts["most_percent"] = 3;
    const auto longest = worked::find(calculator(), facts);
    REQUIRE(longest.answer.has_value());
    CHECK(longest.answer->unit == base::Unit::ft);
    facts["length"] = longest.answer->number;
    const auto drop = worked::find(calculator(), facts);
    CHECK(drop.answer->number == doctest::Approx(3.6).epsilon(1e-9));
    CHECK(drop.find("fits")->words == "yes");
    facts["length"] = longest.answer->number + 0.1;
    CHECK(worked::find(calculator(), facts).find("fits")->words == "no");
}

TEST_CASE("voltage drop: of two limits the smaller counts") {
    json facts = circuit();
    facts["most_percent"] = 5;
    facts["most_volts"] = 3.0;
    CHECK(worked::find(calculator(), facts).find("most_volts")->number == doctest::Approx(3.0));
    facts["most_volts"] = 30.0;
    CHECK(worked::find(calculator(), facts).find("most_volts")->number == doctest::Approx(6.0));
}

TEST_CASE("voltage drop: a size that keeps the drop small but not itself cool is told") {
    json facts = circuit();
    facts.erase("size");
    facts["amps"] = 40;
    facts["length"] = 5;
    facts["most_percent"] = 3;
    const auto finding = worked::find(calculator(), facts);
    CHECK(finding.answer->words == "14");
    CHECK(tells(finding, "ampacity comes first"));
    facts["amps"] = 15;
    CHECK_FALSE(tells(worked::find(calculator(), facts), "ampacity"));
}

TEST_CASE("voltage drop: aluminium starts at 12 AWG, and parallel sets at 1/0") {
    json facts = circuit();
    facts.erase("size");
    facts["material"] = "al";
    facts["amps"] = 1;
    facts["most_percent"] = 3;
    CHECK(worked::find(calculator(), facts).answer->words == "12");
    json parallel = circuit();
    parallel["sets"] = 2;
    CHECK(tells(worked::find(calculator(), parallel), "1/0"));
    parallel["size"] = "1/0";
    CHECK_FALSE(tells(worked::find(calculator(), parallel), "1/0"));
    parallel["amps"] = 300;
    CHECK_FALSE(tells(worked::find(calculator(), parallel), "ampacity"));
    parallel["amps"] = 301;
    CHECK(tells(worked::find(calculator(), parallel), "ampacity"));
}

TEST_CASE("voltage drop: a value that the table lacks is no zero") {
    json solid = circuit();
    solid["size"] = "6";
    solid["stranding"] = "solid";
    const auto finding = worked::find(calculator(), solid);
    CHECK_FALSE(finding.answer.has_value());
    CHECK(finding.unknown.empty());
    CHECK(tells(finding, "no resistance of 6 AWG"));
    json far = circuit();
    far.erase("size");
    far["length"] = 100000;
    far["most_percent"] = 1;
    CHECK_FALSE(worked::find(calculator(), far).answer.has_value());
    CHECK(tells(worked::find(calculator(), far), "no size of our table keeps within this drop"));
    const trade::Tables none;
    const auto empty =
        calculator().run(worked::facts_of(calculator(), circuit()), {trade::Edition::e2023, &none, true});
    CHECK_FALSE(empty.answer.has_value());
    CHECK(empty.blocked());
}

TEST_CASE("voltage drop: no answer where all of the voltage would be dropped") {
    json facts = circuit();
    facts["length"] = 1893;
    CHECK(worked::find(calculator(), facts).find("percent")->number < 100);
    facts["length"] = 1895;
    const auto finding = worked::find(calculator(), facts);
    CHECK_FALSE(finding.answer.has_value());
    CHECK(finding.unknown.empty());
    CHECK(tells(finding, "the wires would drop"));
    facts["most_percent"] = 3;
    CHECK_FALSE(worked::find(calculator(), facts).answer.has_value());
}

TEST_CASE("voltage drop: that it is advice is always told") {
    json facts = circuit();
    CHECK(tells(worked::find(calculator(), facts), "advice, no requirement"));
    facts.erase("size");
    facts["most_percent"] = 3;
    CHECK(tells(worked::find(calculator(), facts), "advice, no requirement"));
}

TEST_CASE("voltage drop: a power factor that does not count is told") {
    json facts = circuit();
    facts["power_factor"] = 0.8;
    CHECK(tells(worked::find(calculator(), facts), "power factor"));
    facts["method"] = "impedance";
    facts["run"] = "pvc";
    CHECK_FALSE(tells(worked::find(calculator(), facts), "power factor"));
}

TEST_CASE("voltage drop: property: the drop grows with length, current and resistance, and sizes shrink it") {
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const VoltageDropFacts facts = any_circuit(random);
        const double before = volts(facts);
        CHECK(before > 0.0);
        VoltageDropFacts more = facts;
        *more.length *= 1.0 + random.unit();
        CHECK(volts(more) >= before);
        more = facts;
        *more.amps *= 1.0 + random.unit();
        CHECK(volts(more) >= before);
        more = facts;
        more.size = trade::size_at(index_of(*facts.size) + 1);
        CHECK(volts(more) <= before);
        more = facts;
        more.sets = 2.0;
        if (before < *facts.volts) CHECK(volts(more) == doctest::Approx(before / 2.0));
        more = facts;
        more.material = Material::al;
        CHECK(volts(more) >= before);
    }
}

TEST_CASE(
    "voltage drop: property: the least size keeps the limit, the one below does not, and it grows with the load") {
    int found = 0;
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        VoltageDropFacts facts = any_circuit(random);
        facts.size.reset();
        facts.most_percent = 1.0 + 4.0 * random.unit();
        const std::size_t size = least_size(facts);
        VoltageDropFacts heavier = facts;
        *heavier.amps *= 1.0 + random.unit();
        CHECK(least_size(heavier) >= size);
        VoltageDropFacts longer = facts;
        *longer.length *= 1.0 + random.unit();
        CHECK(least_size(longer) >= size);
        if (size == trade::kSizes) continue;
        ++found;
        const double most = *facts.volts * *facts.most_percent / 100.0;
        VoltageDropFacts rated = facts;
        rated.size = trade::size_at(size);
        CHECK(volts(rated) <= most * (1.0 + 1e-9));
        const std::size_t first = index_of(*facts.material == Material::cu ? Size::awg14 : Size::awg12);
        if (size == first) continue;
        rated.size = trade::size_at(size - 1);
        CHECK(volts(rated) > most);
    }
    CHECK(found > 1500);
}

TEST_CASE("voltage drop: property: the exact drop is the approximate one and a little more") {
    for (base::Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        VoltageDropFacts facts = any_circuit(random);
        facts.method = Method::impedance;
        facts.power_factor = 0.5 + 0.5 * random.unit();
        const auto finding = work(facts);
        if (!finding.answer) continue;
        const double exact = finding.find("exact")->number;
        const double approximate = finding.answer->number;
        CHECK(exact >= approximate - 1e-9);
        // What is neglected is at most the square of the impedance voltage over twice the voltage.
        const auto& z = shipped_tables().impedance[index_of(*facts.size)];
        const auto at = static_cast<std::size_t>(*facts.run);
        const double ohms = std::hypot(z.resistance[static_cast<std::size_t>(*facts.material)][at], z.reactance[at]);
        const double across = (facts.phases == 3 ? std::sqrt(3.0) : 2.0) * *facts.length * *facts.amps * ohms / 1000.0;
        CHECK(exact - approximate <= across * across / (2.0 * *facts.volts) + 1e-9);
    }
}

TEST_CASE("voltage drop: silent without a working, and every further value is named in the help") {
    json facts = circuit();
    facts.update({{"method", "impedance"}, {"run", "pvc"}, {"power_factor", 0.9}, {"most_percent", 3}});
    worked::check_silent(calculator(), facts);
    worked::check_names(calculator(), worked::find(calculator(), facts));
    facts.erase("size");
    worked::check_silent(calculator(), facts);
    worked::check_names(calculator(), worked::find(calculator(), facts));
}
