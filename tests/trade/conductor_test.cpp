#include "trade/work/conductor.hpp"

#include <array>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::ConductorFacts;
using trade::Edition;
using trade::Material;
using trade::Rating;
using trade::Size;
using worked::json;

const trade::Calculator& calculator() {
    static const auto made = trade::conductor_calculator();
    return made;
}

/// A size to rate under the conditions of the table.
json rated(const std::string& size) {
    return {{"material", "cu"}, {"rating", "75"}, {"terminals", "75"}, {"ambient", 30}, {"ccc", 3}, {"size", size}};
}

/// A load to size for under the conditions of the table.
json loaded(double load, double continuous) {
    return {{"material", "cu"}, {"rating", "90"}, {"terminals", "75"},    {"ambient", 30},
            {"ccc", 3},         {"load", load},   {"receptacles", false}, {"continuous", continuous}};
}

trade::Finding find(const json& facts, Edition edition = Edition::e2023) {
    return worked::find(calculator(), facts, edition);
}

json with(json facts, const std::string& name, const json& value) {
    facts[name] = value;
    return facts;
}

double number(const trade::Finding& finding, std::string_view name) {
    REQUIRE(finding.find(name) != nullptr);
    return finding.find(name)->number;
}
std::string words(const trade::Finding& finding, std::string_view name) {
    REQUIRE(finding.find(name) != nullptr);
    return finding.find(name)->words;
}

constexpr std::array kRatings = {Rating::c60, Rating::c75, Rating::c90};

ConductorFacts any_facts(Random& random) {
    ConductorFacts facts;
    facts.conditions.material = random.below(2) == 0 ? Material::cu : Material::al;
    facts.conditions.insulation = kRatings[random.below(3)];
    facts.conditions.terminals = kRatings[random.below(3)];
    facts.conditions.ambient = static_cast<double>(random.below(56));
    facts.conditions.ccc = 1.0 + static_cast<double>(random.below(45));
    facts.protection.receptacles = random.below(2) == 0;
    return facts;
}

trade::Setting quiet(Edition edition = Edition::e2020) {
    return {edition, &shipped_tables(), false};
}

/// Amperes; nothing where the tables have no value.
std::optional<double> ampacity(const ConductorFacts& facts) {
    const auto finding = trade::conductor(facts, quiet());
    return finding.answer ? std::optional{finding.answer->number} : std::nullopt;
}

/// The place of the answer among the sizes; past the end when no single size will do.
std::size_t least(const ConductorFacts& facts) {
    const auto finding = trade::conductor(facts, quiet());
    return finding.answer ? index_of(trade::parse_size(finding.answer->words).value()) : trade::kSizes;
}

/// No answer, nothing still to be told, and a finding that says why.
void check_refused(const trade::Finding& finding, std::string_view why) {
    CHECK_FALSE(finding.answer.has_value());
    CHECK(finding.unknown.empty());
    REQUIRE_FALSE(finding.findings.empty());
    CHECK(finding.findings.back().find(why) != std::string::npos);
}

}  // namespace

TEST_CASE("conductor: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_conductor.json", 16);
}

TEST_CASE("conductor: what is missing is asked for by name") {
    worked::check_needs(calculator(), rated("8"), {"material", "rating", "terminals", "ambient", "ccc"});
    worked::check_needs(calculator(), loaded(0, 16),
                        {"material", "rating", "terminals", "ambient", "ccc", "load", "continuous"});
    auto service = rated("8");
    service.erase("size");
    service["dwelling_service"] = true;
    service["service"] = 200;
    worked::check_needs(calculator(), service, {"service"});
    CHECK(find(json::object()).unknown ==
          std::vector<std::string>{"load", "continuous", "material", "rating", "terminals", "ambient", "ccc"});
    check_refused(find(loaded(0, 0)), "a load of 0 A");
}

TEST_CASE("conductor: terminations are not asked for where they cannot change the answer") {
    auto sixty = rated("8");
    sixty["rating"] = "60";
    sixty.erase("terminals");
    CHECK(find(sixty).answer->number == 40);
    auto cable = rated("12");
    cable.erase("rating");
    cable.erase("terminals");
    CHECK(find(cable).unknown == std::vector<std::string>{"rating", "terminals"});
    cable["cable"] = "nm";
    CHECK(find(cable).answer->number == 20);
}

TEST_CASE("conductor: receptacles are asked for only where the least size turns on them") {
    // 38.5 A: 40 A by the next rating up, 35 A where several receptacles are fed.
    auto eight = loaded(0, 30);
    eight["ccc"] = 8;
    eight.erase("receptacles");
    CHECK(find(eight).unknown == std::vector<std::string>{"receptacles"});
    eight["receptacles"] = true;
    CHECK(find(eight).answer->words == "6");
    eight["receptacles"] = false;
    CHECK(find(eight).answer->words == "8");
    auto plain = loaded(0, 16);
    plain.erase("receptacles");
    CHECK(find(plain).answer->words == "12");
}

TEST_CASE("conductor: a rated conductor leaves the device open where receptacles decide it, and says so") {
    auto facts = rated("14");
    facts["rating"] = "90";
    facts["ccc"] = 8;
    facts["ambient"] = 45;
    const auto finding = find(facts);
    CHECK(finding.answer->number == doctest::Approx(25 * 0.87 * 0.7));
    CHECK(finding.find("overcurrent")->number == 15);
    facts["ccc"] = 10;
    const auto open = find(facts);
    CHECK(open.find("overcurrent") == nullptr);
    CHECK(open.findings.size() == 1);
    CHECK(number(find(with(facts, "receptacles", false)), "overcurrent") == 15);
    const auto fed = find(with(facts, "receptacles", true));
    CHECK(fed.find("overcurrent") == nullptr);
    CHECK(fed.findings.size() == 1);
    CHECK(words(find(with(with(facts, "receptacles", true), "device", 15)), "device_allowed") == "no");
}

TEST_CASE("conductor: a 14 AWG on a 60 A device is found, whatever it feeds") {
    for (const auto& facts : {rated("14"), with(rated("14"), "receptacles", true)}) {
        const auto finding = find(with(facts, "device", 60));
        CHECK(finding.answer->number == 20);
        CHECK(words(finding, "device_allowed") == "no");
        REQUIRE(finding.findings.size() == 1);
        CHECK(finding.findings.front().find("too large") != std::string::npos);
    }
    CHECK(find(with(rated("14"), "device", 15)).findings.empty());
    CHECK(find(with(with(rated("1/0"), "device", 137), "receptacles", false)).findings.size() == 1);
}

TEST_CASE("conductor: bands of temperature and of count end where the tables say") {
    auto facts = rated("8");
    facts["rating"] = "90";
    CHECK(number(find(with(facts, "ambient", 30)), "ambient_factor") == 1);
    CHECK(number(find(with(facts, "ambient", 30.5)), "ambient_factor") == 0.96);
    CHECK(number(find(with(facts, "ambient", 35)), "ambient_factor") == 0.96);
    CHECK(number(find(with(facts, "ccc", 3)), "adjustment") == 100);
    CHECK(number(find(with(facts, "ccc", 4)), "adjustment") == 80);
    CHECK(number(find(with(facts, "ccc", 41)), "adjustment") == 35);
    // Cold air never lifts the ampacity over the terminations.
    CHECK(find(with(facts, "ambient", 5)).answer->number == 50);
    CHECK(number(find(with(facts, "ambient", 5)), "adjusted") == doctest::Approx(63.25));
}

TEST_CASE("conductor: heat beyond the insulation and sizes beyond the table are told, never 0") {
    auto hot = rated("8");
    hot["rating"] = "60";
    hot["ambient"] = 56;
    check_refused(find(hot), "60 C insulation has no ampacity at 56 C");
    auto small = rated("14");
    small["material"] = "al";
    check_refused(find(small), "no value for 14 AWG aluminum");
    check_refused(find(loaded(0, 3000)), "use parallel sets");
    check_refused(find(with(loaded(810, 0), "sets", 2)), "in 2 parallel sets: use more of them");
    check_refused(find(loaded(0, 5000)), "beyond our table of standard ratings: 6250 A");
    auto cable = loaded(150, 0);
    cable["cable"] = "nm";
    check_refused(find(cable), "made up to 2 AWG");
}

TEST_CASE("conductor: a roof adds its heat only close above it, and closer since 2023") {
    auto facts = rated("8");
    facts["rating"] = "90";
    facts["ambient"] = 35;
    CHECK(number(find(with(facts, "above_roof", 0.874), Edition::e2020), "ambient_used") == 68);
    CHECK(number(find(with(facts, "above_roof", 0.875), Edition::e2020), "ambient_used") == 35);
    CHECK(number(find(with(facts, "above_roof", "7/8 in"), Edition::e2017), "ambient_used") == 35);
    CHECK(number(find(with(facts, "above_roof", 0.749)), "ambient_used") == 68);
    CHECK(number(find(with(facts, "above_roof", "3/4 in")), "ambient_used") == 35);
    CHECK(number(find(facts), "ambient_used") == 35);
}

TEST_CASE("conductor: nonmetallic-sheathed cable starts at 90 C and ends at 60 C") {
    auto facts = rated("12");
    facts["cable"] = "nm";
    facts.erase("rating");
    const auto finding = find(facts);
    CHECK(number(finding, "table") == 30);
    CHECK(finding.answer->number == 20);
    CHECK(worked::cites(finding, "334.80"));
    CHECK(find(with(facts, "rating", "60")).findings.size() == 1);
    CHECK(find(with(facts, "above_roof", 2)).findings.size() == 1);
    CHECK(find(with(with(facts, "size", "1/0"), "receptacles", false)).findings.size() == 1);
}

TEST_CASE("conductor: the next rating up ends at 800 A") {
    auto facts = rated("600");
    facts["sets"] = 2;
    CHECK(find(facts).answer->number == 840);
    CHECK(number(find(facts), "overcurrent") == 800);
    facts["size"] = "500";
    CHECK(find(facts).answer->number == 760);
    CHECK(number(find(facts), "overcurrent") == 800);
    facts["sets"] = 3;
    CHECK(find(facts).answer->number == 1140);
    CHECK(number(find(facts), "overcurrent") == 1000);
}

TEST_CASE("conductor: parallel sets start at 1/0 and count together") {
    auto facts = loaded(400, 0);
    facts["sets"] = 2;
    const auto finding = find(facts);
    CHECK(finding.answer->words == "3/0");
    CHECK(number(finding, "ampacity") == 400);
    CHECK(find(with(facts, "load", 40)).answer->words == "1/0");
    // No ampacity of wires that may not be run so: 230 A would be taken for one.
    const auto thin = find(with(with(rated("2"), "sets", 2), "receptacles", false));
    check_refused(thin, "under 1/0 AWG");
    CHECK(thin.also.empty());
    CHECK(worked::cites(find(with(rated("2"), "sets", 2), Edition::e2017), "310.10(H)"));
    CHECK(worked::cites(find(with(rated("2"), "sets", 2), Edition::e2020), "310.10(G)"));
}

TEST_CASE("conductor: the device follows the load, or is told and judged") {
    const auto finding = find(loaded(10, 20));
    CHECK(number(finding, "required") == 35);
    CHECK(number(finding, "load_total") == 30);
    CHECK(number(finding, "overcurrent") == 35);
    CHECK(finding.answer->words == "8");
    // A larger device asks for a larger conductor.
    CHECK(find(with(loaded(10, 20), "device", 60)).answer->words == "6");
    CHECK(find(with(loaded(10, 20), "device", 30)).findings.size() == 1);
    CHECK(number(find(with(loaded(10, 20), "listed_100", true)), "required") == 30);
    // 10 A ratings of later editions are not offered.
    for (const auto edition : trade::kEditions) CHECK(number(find(loaded(5, 0), edition), "overcurrent") == 15);
}

TEST_CASE("conductor: the part of 240.4 that decided is cited") {
    CHECK(worked::cites(find(rated("12")), "240.4(D)"));
    CHECK_FALSE(worked::cites(find(rated("3")), "240.4(B)"));
    CHECK(worked::cites(find(rated("8")), "240.4"));
    CHECK(worked::cites(find(rated("6")), "240.4(B)"));
    CHECK(worked::cites(find(with(rated("600"), "sets", 2)), "240.4(C)"));
    CHECK(worked::cites(find(loaded(0, 16)), "240.4(D)"));
}

TEST_CASE("conductor: motors and air conditioners are not held to the small-conductor limits") {
    auto facts = loaded(28, 0);
    facts.erase("receptacles");
    facts["terminals"] = "75";
    CHECK(find(facts).answer->words == "10");
    CHECK(find(with(facts, "use", "ac")).answer->words == "10");
    facts["load"] = 33;
    CHECK(find(with(facts, "receptacles", false)).answer->words == "8");
    const auto cooled = find(with(with(facts, "use", "ac"), "marked", 50));
    CHECK(cooled.answer->words == "10");
    CHECK(number(cooled, "overcurrent") == 50);
    CHECK(worked::cites(cooled, "240.4(G)"));
}

TEST_CASE("conductor: the 83 % rule agrees with the shipped table of it and ends at its limits") {
    const auto contents = content::load_contents(std::vector<std::string>{PROJECT_FOLDER});
    const auto* table = contents.value().table("dwelling-service");
    REQUIRE(table != nullptr);
    REQUIRE(table->rows.size() >= 11);
    for (const auto& row : table->rows)
        for (const std::string material : {"cu", "al"}) {
            CAPTURE(row.keys.at("rating"));
            auto facts = with(with(rated("8"), "dwelling_service", true), "material", material);
            facts["service"] = row.keys.at("rating");
            facts.erase("size");
            const auto finding = find(facts);
            CHECK(finding.answer->words == row.values.at(material));
            CHECK(number(finding, "service_required") == doctest::Approx(std::stod(row.values.at("required"))));
            facts["size"] = row.values.at(material);
            CHECK(words(find(facts), "fits") == "yes");
            CHECK(number(find(facts), "service_most") >= std::stod(row.keys.at("rating")));
        }
    auto facts = with(with(rated("8"), "dwelling_service", true), "service", 90);
    facts.erase("size");
    CHECK(number(find(facts), "service_required") == 90);
    CHECK(find(facts).findings.size() == 1);
    CHECK(number(find(with(facts, "service", 600)), "service_required") == 600);
}

TEST_CASE("conductor: references move with the edition, values do not") {
    const auto facts = with(rated("8"), "above_roof", 2);
    const auto old = find(facts, Edition::e2017);
    for (const auto* article : {"310.15(B)(16)", "310.15(B)(2)(a)", "310.15(B)(3)(a)", "310.15(B)(3)(c)"})
        CHECK(worked::cites(old, article));
    for (const auto edition : {Edition::e2020, Edition::e2023, Edition::e2026}) {
        const auto later = find(facts, edition);
        for (const auto* article : {"310.16", "310.15(B)(1)", "310.15(C)(1)", "310.15(B)(2)"})
            CHECK(worked::cites(later, article));
        CHECK(later.answer == old.answer);
        CHECK(later.steps == old.steps);
    }
    const auto service = with(with(rated("2/0"), "dwelling_service", true), "service", 200);
    CHECK(worked::cites(find(service, Edition::e2017), "310.15(B)(7)"));
    CHECK(worked::cites(find(service, Edition::e2020), "310.12"));
}

TEST_CASE("conductor: shows its working, names what comes, and is silent unasked") {
    const auto finding = find(with(loaded(0, 30), "ccc", 8));
    CHECK(finding.steps == std::vector<std::string>{
                               "device and terminations: 30 A x 1.25 + 0 A = 37.5 A; the load itself 30 A",
                               "overcurrent device: 40 A", "10 AWG: too little at the terminations",
                               "8 AWG copper, 90 C column: 55 A", "ambient 30 C: factor 1", "8 current-carrying: 70 %",
                               "55 A x 1 x 70 % = 38.5 A", "terminations, not above the 75 C column: 50 A",
                               "ampacity: 38.5 A", "least size: 8 AWG"});
    worked::check_names(calculator(), finding);
    worked::check_names(calculator(), find(with(with(loaded(0, 30), "size", "8"), "device", 40)));
    worked::check_silent(calculator(), loaded(0, 30));
    worked::check_silent(calculator(), rated("8"));
}

TEST_CASE("conductor: property: more wires together, more heat or lower terminations never leave more ampacity") {
    for (base::Seed seed = 1; seed <= 4000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        auto facts = any_facts(random);
        facts.size = trade::size_at(index_of(Size::awg12) + random.below(15));
        const auto before = ampacity(facts);
        if (!before) continue;
        const auto never_more = [&](const ConductorFacts& harder) {
            if (const auto after = ampacity(harder)) CHECK(*after <= *before + 1e-9);
        };
        auto harder = facts;
        *harder.conditions.ccc += 1.0;
        never_more(harder);
        harder = facts;
        *harder.conditions.ambient += static_cast<double>(random.below(30));
        never_more(harder);
        harder = facts;
        harder.conditions.terminals = Rating::c60;
        never_more(harder);
        harder = facts;
        harder.conditions.nm = true;
        never_more(harder);
        auto thicker = facts;
        thicker.size = trade::size_at(index_of(*facts.size) + 1);
        CHECK(*ampacity(thicker) > *before - 1e-9);
    }
}

TEST_CASE("conductor: property: a larger load, a harder condition or a larger device never needs a thinner conductor") {
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        auto facts = any_facts(random);
        facts.load = static_cast<double>(random.below(200));
        facts.continuous = 1.0 + static_cast<double>(random.below(100));
        const auto before = least(facts);
        auto harder = facts;
        *harder.load += 1.0 + static_cast<double>(random.below(20));
        CHECK(least(harder) >= before);
        harder = facts;
        *harder.conditions.ccc += 1.0 + static_cast<double>(random.below(10));
        CHECK(least(harder) >= before);
        // What was not continuous becomes so.
        harder = facts;
        harder.continuous = *facts.continuous + *facts.load;
        harder.load = 0.0;
        CHECK(least(harder) >= before);
        harder = facts;
        harder.protection.receptacles = true;
        CHECK(least(harder) >= before);
        harder = facts;
        harder.device = 400.0;
        CHECK(least(harder) >= before);
    }
}

TEST_CASE("conductor: property: the least size serves, by its own rating, and the one below does not") {
    int sized = 0;
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        auto facts = any_facts(random);
        facts.load = static_cast<double>(random.below(150));
        facts.continuous = 1.0 + static_cast<double>(random.below(80));
        const auto found = trade::conductor(facts, quiet());
        if (!found.answer) continue;
        ++sized;
        auto check = facts;
        check.device = found.find("overcurrent")->number;
        check.size = trade::parse_size(found.answer->words);
        const auto rated_one = trade::conductor(check, quiet());
        CHECK(words(rated_one, "fits") == "yes");
        CHECK(words(rated_one, "device_allowed") == "yes");
        CHECK(rated_one.findings.empty());
        if (*check.size <= Size::awg12) continue;
        check.size = trade::size_at(index_of(*check.size) - 1);
        const auto below = trade::conductor(check, quiet());
        const bool serves = words(below, "fits") == "yes" && words(below, "device_allowed") == "yes";
        CHECK_FALSE(serves);
    }
    CHECK(sized > 2000);
}
