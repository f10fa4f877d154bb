#include "trade/work/grounding_electrode.hpp"

#include <array>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::GroundingElectrodeFacts;
using trade::Material;
using trade::Size;
using worked::json;

const trade::Calculator& calculator() {
    static const auto made = trade::grounding_electrode_calculator();
    return made;
}

json service(const char* size, const char* electrode) {
    return {{"service_conductor", size}, {"service_material", "cu"}, {"material", "cu"}, {"electrode", electrode}};
}

trade::Finding find(const json& facts) {
    return worked::find(calculator(), facts);
}

constexpr std::array<std::string_view, 4> kElectrodes = {"table", "rod-pipe-plate", "concrete-encased", "ring"};

Material any_material(Random& random) {
    return random.below(2) == 0 ? Material::cu : Material::al;
}

std::size_t place(const GroundingElectrodeFacts& facts) {
    const auto finding = trade::grounding_electrode(facts, {trade::Edition::e2020, &shipped_tables(), false});
    REQUIRE(finding.answer.has_value());
    return index_of(trade::parse_size(finding.answer->words).value());
}

}  // namespace

TEST_CASE("grounding electrode: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_grounding_electrode.json", 11);
}

TEST_CASE("grounding electrode: what is missing is asked for by name") {
    worked::check_needs(calculator(), service("2/0", "table"),
                        {"service_conductor", "service_material", "material", "electrode"});
    const trade::Tables empty;
    const auto bare = calculator().run(worked::facts_of(calculator(), service("2/0", "table")),
                                       {trade::Edition::e2023, &empty, true});
    CHECK_FALSE(bare.answer.has_value());
    CHECK(bare.unknown.empty());
    REQUIRE(bare.findings.size() == 1);
    CHECK(bare.findings.front().find("service conductors of 2/0 AWG") != std::string::npos);
}

TEST_CASE("grounding electrode: each row ends at its largest conductor, in either metal") {
    const auto size = [](const char* conductor, const char* metal) {
        auto facts = service(conductor, "table");
        facts["service_material"] = metal;
        return find(facts).answer->words;
    };
    CHECK(size("2", "cu") == "8");
    CHECK(size("1", "cu") == "6");
    CHECK(size("1/0", "cu") == "6");
    CHECK(size("3/0", "cu") == "4");
    CHECK(size("4/0", "cu") == "2");
    CHECK(size("350", "cu") == "2");
    CHECK(size("400", "cu") == "1/0");
    CHECK(size("600", "cu") == "1/0");
    CHECK(size("700", "cu") == "2/0");
    CHECK(size("1000", "cu") == "2/0");
    CHECK(size("1250", "cu") == "3/0");
    CHECK(size("1", "al") == "8");
    CHECK(size("3/0", "al") == "6");
    CHECK(size("250", "al") == "4");
    CHECK(size("300", "al") == "2");
    CHECK(size("1750", "al") == "2/0");
    CHECK(size("2000", "al") == "3/0");
}

TEST_CASE("grounding electrode: a ring asks for no more than itself, and is of 2 AWG at least") {
    auto facts = service("500", "ring");
    facts["ring"] = "1/0";
    CHECK(find(facts).answer->words == "1/0");
    facts["ring"] = "4/0";
    CHECK(find(facts).answer->words == "1/0");
    CHECK(find(facts).find("capped")->words == "no");
    facts["ring"] = "4";
    CHECK(find(facts).findings.size() == 1);
    CHECK(find(service("2/0", "ring")).answer->words == "4");
}

TEST_CASE("grounding electrode: aluminium into earth or concrete has no lesser size, and is doubted") {
    for (const char* electrode : {"concrete-encased", "ring"}) {
        auto facts = service("400", electrode);
        facts["material"] = "al";
        CHECK(find(facts).answer->words == "3/0");
        CHECK(find(facts).findings.size() == 1);
        CHECK(find(facts).find("limit") == nullptr);
    }
}

TEST_CASE("grounding electrode: shows its working, cites the kind of electrode, and is silent unasked") {
    auto facts = service("3/0", "rod-pipe-plate");
    facts["sets"] = 2;
    const auto finding = find(facts);
    CHECK(finding.steps == std::vector<std::string>{"service conductors: 2 x 3/0 AWG = 335600 cmil copper",
                                                    "by the table: 2 AWG copper",
                                                    "to that electrode alone no more than 6 AWG"});
    CHECK(finding.articles == std::vector<std::string>{"250.66", "250.66(A)"});
    CHECK(worked::cites(find(service("4", "concrete-encased")), "250.66(B)"));
    CHECK(worked::cites(find(service("4", "ring")), "250.66(C)"));
    worked::check_names(calculator(), finding);
    worked::check_silent(calculator(), facts);
    CHECK(find({{"service_conductor", "4"},
                {"service_material", "cu"},
                {"material", "cu"},
                {"electrode", "table"},
                {"sets", 2}})
              .findings.size() == 1);
}

TEST_CASE("grounding electrode: property: a larger service never needs less, and no electrode more than the table") {
    for (base::Seed seed = 1; seed <= 4000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        GroundingElectrodeFacts facts;
        facts.service = trade::size_at(index_of(Size::awg8) + random.below(24));
        facts.sets = 1.0 + static_cast<double>(random.below(4));
        facts.service_material = any_material(random);
        facts.material = any_material(random);
        facts.electrode = kElectrodes[random.below(kElectrodes.size())];
        const auto before = place(facts);
        auto larger = facts;
        larger.service = trade::size_at(index_of(*facts.service) + 1);
        CHECK(place(larger) >= before);
        larger = facts;
        larger.sets += 1.0;
        CHECK(place(larger) >= before);
        auto any = facts;
        any.electrode = "table";
        CHECK(place(any) >= before);
        auto copper = facts;
        copper.service_material = Material::cu;
        CHECK(place(copper) >= before);
        auto aluminium = facts;
        aluminium.material = Material::al;
        CHECK(place(aluminium) >= before);
    }
}
