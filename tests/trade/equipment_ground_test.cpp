#include "trade/work/equipment_ground.hpp"

#include <array>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::Edition;
using trade::EquipmentGroundFacts;
using trade::Material;
using trade::Size;
using worked::json;

const trade::Calculator& calculator() {
    static const auto made = trade::equipment_ground_calculator();
    return made;
}

trade::Finding find(const json& facts, Edition edition = Edition::e2023) {
    return worked::find(calculator(), facts, edition);
}

json grown(double device, const char* from, const char* to) {
    return {{"device", device}, {"material", "cu"}, {"from", from}, {"to", to}};
}

constexpr std::array kDevices = {10.0,  15.0,  20.0,  30.0,  40.0,  60.0,  70.0,  100.0,  125.0,  150.0,
                                 200.0, 225.0, 300.0, 400.0, 500.0, 600.0, 800.0, 1000.0, 1200.0, 2000.0};

/// The place of the answer among the sizes; past the end when no size will do.
std::size_t place(const EquipmentGroundFacts& facts, Edition edition = Edition::e2020) {
    const auto finding = trade::equipment_ground(facts, {edition, &shipped_tables(), false});
    return finding.answer ? index_of(trade::parse_size(finding.answer->words).value()) : trade::kSizes;
}

EquipmentGroundFacts any_facts(Random& random) {
    EquipmentGroundFacts facts;
    facts.device = kDevices[random.below(kDevices.size())];
    facts.material = random.below(2) == 0 ? Material::cu : Material::al;
    const auto from = index_of(Size::awg14) + random.below(15);
    facts.from = trade::size_at(from);
    facts.to = trade::size_at(from + random.below(6));
    return facts;
}

}  // namespace

TEST_CASE("equipment ground: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_equipment_ground.json", 17);
}

TEST_CASE("equipment ground: what is missing is asked for by name") {
    worked::check_needs(calculator(), grown(40, "8", "4"), {"device", "material", "from", "to"});
    CHECK(find(json::object()).unknown == std::vector<std::string>{"device", "material"});
}

TEST_CASE("equipment ground: a device beyond the table is told, and where the table ends") {
    CHECK(find({{"device", 2000}, {"material", "cu"}}).answer->words == "250");
    const auto beyond = find({{"device", 2001}, {"material", "cu"}});
    CHECK_FALSE(beyond.answer.has_value());
    CHECK(beyond.unknown.empty());
    CHECK(beyond.findings == std::vector<std::string>{"beyond our table of equipment grounds, which ends at 2000 A: a "
                                                      "2001 A device; see 250.122 in the book"});
}

TEST_CASE("equipment ground: the row is the first that the device does not exceed") {
    const auto size = [](double device) { return find({{"device", device}, {"material", "cu"}}).answer->words; };
    CHECK(size(10) == "14");
    CHECK(size(15) == "14");
    CHECK(size(16) == "12");
    CHECK(size(20) == "12");
    CHECK(size(25) == "10");
    CHECK(size(60) == "10");
    CHECK(size(61) == "8");
    CHECK(size(200) == "6");
    CHECK(size(200.5) == "4");
}

TEST_CASE("equipment ground: equal steps of the gauge tie, and a tie is enough") {
    // Every start and growth by whole gauge numbers: the equipment ground grows by the same number of steps.
    constexpr std::array kEven = {Size::awg14, Size::awg12, Size::awg10,  Size::awg8,  Size::awg6,
                                  Size::awg4,  Size::awg2,  Size::awg1_0, Size::awg3_0};
    for (std::size_t from = 0; from < kEven.size(); ++from)
        for (std::size_t to = from + 1; to < kEven.size(); ++to)
            for (const double device : {15.0, 20.0, 60.0, 100.0}) {
                EquipmentGroundFacts facts;
                facts.device = device;
                facts.material = Material::cu;
                facts.from = kEven[from];
                facts.to = kEven[to];
                const auto base = trade::equipment_ground_row(device, shipped_tables())->size[0].value();
                const auto at = static_cast<std::size_t>(std::find(kEven.begin(), kEven.end(), base) - kEven.begin());
                if (at + to - from >= kEven.size()) continue;
                const Size wanted = std::min(kEven[at + to - from], kEven[to]);
                CAPTURE(trade::to_text(kEven[from]));
                CAPTURE(trade::to_text(kEven[to]));
                CAPTURE(device);
                CHECK(place(facts) == index_of(wanted));
            }
}

TEST_CASE("equipment ground: growth for correction and adjustment counts through 2017 only") {
    auto facts = grown(40, "8", "4");
    facts["derating"] = true;
    CHECK(find(facts, Edition::e2017).answer->words == "6");
    REQUIRE(find(facts, Edition::e2017).findings.size() == 1);
    CHECK(find(facts, Edition::e2017).findings.front().find("readings") != std::string::npos);
    CHECK(find(facts, Edition::e2020).findings.empty());
    for (const auto edition : {Edition::e2020, Edition::e2023, Edition::e2026})
        CHECK(find(facts, edition).answer->words == "10");
    facts["derating"] = false;
    for (const auto edition : trade::kEditions) CHECK(find(facts, edition).answer->words == "6");
}

TEST_CASE("equipment ground: never larger than the conductors of one raceway, and full size in parallel ones") {
    CHECK(find({{"device", 70}, {"material", "cu"}, {"circuit_conductor", "12"}}).answer->words == "12");
    CHECK(find({{"device", 70}, {"material", "cu"}}).answer->words == "8");
    CHECK(find(grown(70, "10", "8")).answer->words == "8");
    CHECK(find(grown(70, "10", "8")).find("capped")->words == "yes");
    // An area that no size comes to is no matter where the circuit conductors are the limit.
    CHECK(find(grown(400, "10", "1000")).answer->words == "1000");
    auto parallel = grown(1200, "1/0", "2/0");
    CHECK(find(parallel).answer->words == "2/0");
    parallel["raceways"] = 4;
    CHECK(find(parallel).answer->words == "4/0");
    CHECK(worked::cites(find(parallel), "250.122(F)"));
    parallel["to"] = "2000";
    CHECK(find(parallel).blocked());
    CHECK(find(parallel).unknown.empty());
}

TEST_CASE("equipment ground: facts that contradict each other are found") {
    CHECK(find(grown(40, "4", "8")).findings.size() == 1);
    auto facts = grown(40, "8", "4");
    facts["circuit_conductor"] = "6";
    CHECK(find(facts).findings.size() == 1);
    facts["circuit_conductor"] = "4";
    CHECK(find(facts).findings.empty());
    facts["raceways"] = 2;
    CHECK(find(facts).findings.size() == 1);
}

TEST_CASE("equipment ground: shows its working, names what comes, and is silent unasked") {
    const auto finding = find(grown(40, "8", "4"));
    CHECK(finding.steps.front() == "device of 40 A, row of 60 A: 10 AWG copper");
    worked::check_names(calculator(), finding);
    worked::check_silent(calculator(), grown(40, "8", "4"));
}

TEST_CASE("equipment ground: property: a larger device, more growth or aluminium never needs a smaller one") {
    for (base::Seed seed = 1; seed <= 4000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const auto facts = any_facts(random);
        const auto before = place(facts);
        auto harder = facts;
        *harder.device += static_cast<double>(random.below(300));
        CHECK(place(harder) >= before);
        harder = facts;
        harder.to = trade::size_at(index_of(*facts.to) + 1);
        CHECK(place(harder) >= before);
        harder = facts;
        harder.material = Material::al;
        CHECK(place(harder) >= before);
        harder = facts;
        harder.raceways = 2.0;
        CHECK(place(harder) >= before);
        auto never = facts;
        never.from = facts.to;
        CHECK(place(never) <= before);
        if (before < trade::kSizes) CHECK(before <= index_of(*facts.to));
    }
}
