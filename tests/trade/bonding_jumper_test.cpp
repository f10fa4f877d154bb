#include "trade/work/bonding_jumper.hpp"

#include <array>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::BondingJumperFacts;
using trade::Material;
using trade::Size;
using worked::json;

const trade::Calculator& calculator() {
    static const auto made = trade::bonding_jumper_calculator();
    return made;
}

json supply(const char* kind, const char* size) {
    return {{"kind", kind}, {"supply_conductor", size}, {"supply_material", "cu"}, {"material", "cu"}};
}

trade::Finding find(const json& facts) {
    return worked::find(calculator(), facts);
}

constexpr std::array<std::string_view, 3> kKinds = {"main", "system", "supply-side"};

trade::Finding quiet(const BondingJumperFacts& facts) {
    return trade::bonding_jumper(facts, {trade::Edition::e2020, &shipped_tables(), false});
}

/// The place of the answer among the sizes; past the end when no size will do.
std::size_t place(const BondingJumperFacts& facts) {
    const auto finding = quiet(facts);
    return finding.answer ? index_of(trade::parse_size(finding.answer->words).value()) : trade::kSizes;
}

}  // namespace

TEST_CASE("bonding jumper: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_bonding_jumper.json", 9);
}

TEST_CASE("bonding jumper: what is missing is asked for by name") {
    worked::check_needs(calculator(), supply("main", "2/0"),
                        {"kind", "supply_conductor", "supply_material", "material"});
    worked::check_needs(calculator(), {{"kind", "load-side"}, {"device", 60}, {"material", "cu"}},
                        {"device", "material"});
    CHECK(find(json::object()).unknown == std::vector<std::string>{"kind", "material"});
    const auto beyond = find({{"kind", "load-side"}, {"device", 2500}, {"material", "cu"}});
    CHECK(beyond.blocked());
    CHECK(beyond.unknown.empty());
    CHECK(beyond.findings.size() == 1);
}

TEST_CASE("bonding jumper: the part of an eighth begins over 1100 kcmil of copper and 1750 of aluminium") {
    auto facts = supply("main", "350");
    facts["sets"] = 3;
    CHECK(find(facts).answer->words == "2/0");
    CHECK(find(facts).find("required_cmil") == nullptr);
    facts = supply("main", "600");
    facts["sets"] = 2;
    CHECK(find(facts).answer->words == "3/0");
    CHECK(find(facts).find("required_cmil")->number == 150000);
    facts = supply("main", "350");
    facts["supply_material"] = "al";
    facts["material"] = "al";
    facts["sets"] = 5;
    CHECK(find(facts).answer->words == "4/0");
    facts["sets"] = 6;
    CHECK(find(facts).answer->words == "300");
    CHECK(find(facts).find("required_cmil")->number == 262500);
}

TEST_CASE("bonding jumper: beyond the table another metal is asked for in its own terms") {
    auto facts = supply("main", "600");
    facts["sets"] = 2;
    facts["material"] = "al";
    CHECK(find(facts).unknown == std::vector<std::string>{"equivalent"});
    facts["equivalent"] = "900";
    CHECK(find(facts).find("required_cmil")->number == 225000);
    CHECK(find(facts).answer->words == "250");
    // In aluminium terms within the table again.
    facts["equivalent"] = "800";
    CHECK(find(facts).answer->words == "4/0");
}

TEST_CASE("bonding jumper: one with each raceway goes by the conductors in it, on the supply side alone") {
    auto facts = supply("supply-side", "250");
    facts["sets"] = 3;
    CHECK(find(facts).answer->words == "2/0");
    facts["per_raceway"] = true;
    CHECK(find(facts).answer->words == "2");
    facts["kind"] = "main";
    CHECK(find(facts).answer->words == "2/0");
    facts = supply("main", "4");
    facts["sets"] = 2;
    CHECK(find(facts).findings.size() == 1);
}

TEST_CASE("bonding jumper: shows its working, cites its kind, and is silent unasked") {
    auto facts = supply("main", "500");
    facts["sets"] = 4;
    const auto finding = find(facts);
    CHECK(finding.steps == std::vector<std::string>{"supply conductors: 4 x 500 kcmil = 2000000 cmil copper",
                                                    "beyond the table: 12.5 % of 2000000 = 250000 cmil",
                                                    "least size of that area: 250 kcmil"});
    worked::check_names(calculator(), finding);
    worked::check_names(calculator(), find(supply("main", "4")));
    worked::check_silent(calculator(), facts);
    CHECK(worked::cites(finding, "250.28(D)"));
    CHECK(worked::cites(find(supply("supply-side", "4")), "250.102(C)"));
    CHECK(worked::cites(find({{"kind", "load-side"}, {"device", 60}, {"material", "cu"}}), "250.102(D)"));
}

TEST_CASE("bonding jumper: property: larger supply conductors or more sets never need less, one a raceway never more") {
    for (base::Seed seed = 1; seed <= 4000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        BondingJumperFacts facts;
        facts.kind = kKinds[random.below(kKinds.size())];
        facts.supply = trade::size_at(index_of(Size::awg1_0) + random.below(15));
        facts.sets = 1.0 + static_cast<double>(random.below(6));
        facts.material = random.below(2) == 0 ? Material::cu : Material::al;
        facts.supply_material = facts.material;
        const auto before = place(facts);
        auto larger = facts;
        larger.supply = trade::size_at(index_of(*facts.supply) + 1);
        CHECK(place(larger) >= before);
        larger = facts;
        larger.sets += 1.0;
        CHECK(place(larger) >= before);
        auto single = facts;
        single.per_raceway = true;
        CHECK(place(single) <= before);
        // Never thinner than an eighth of the supply where that rule holds.
        const auto found = quiet(facts);
        const auto* needs = found.find("required_cmil");
        if (needs != nullptr && found.answer)
            CHECK(shipped_tables().cmil(trade::size_at(before)).value() >= needs->number);
    }
}
