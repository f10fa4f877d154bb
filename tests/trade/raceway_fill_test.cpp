#include "trade/work/raceway_fill.hpp"

#include <array>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::Item;
using trade::RacewayFillFacts;
using trade::Size;
using worked::json;

const trade::Calculator& calculator() {
    static const auto made = trade::raceway_fill_calculator();
    return made;
}

json wires(const std::string& conductors) {
    return {{"raceway", "emt"}, {"insulation", "thhn"}, {"conductors", conductors}};
}

/// The place of the least trade size among those of its kind; the count of them when none holds it all.
std::size_t place(const RacewayFillFacts& facts) {
    const auto finding = trade::raceway_fill(facts, {trade::Edition::e2023, &shipped_tables(), false});
    std::size_t at = 0;
    for (const auto& raceway : shipped_tables().raceways) {
        if (raceway.kind != facts.raceway) continue;
        if (finding.answer && raceway.trade_size == finding.answer->words) return at;
        ++at;
    }
    REQUIRE_FALSE(finding.answer.has_value());
    return at;
}

constexpr std::array<std::string_view, 7> kKinds = {"emt", "imc", "rmc", "fmc", "ent", "pvc40", "pvc80"};
constexpr std::array<std::string_view, 3> kInsulations = {"thhn", "thw", "xhhw"};

Size any_size(Random& random) {
    return trade::size_at(index_of(Size::awg14) + random.below(16));
}

RacewayFillFacts any_facts(Random& random) {
    RacewayFillFacts facts;
    facts.raceway = kKinds[random.below(kKinds.size())];
    facts.insulation = kInsulations[random.below(kInsulations.size())];
    facts.conductors.emplace();
    facts.conductors->push_back({any_size(random), 1 + static_cast<int>(random.below(9))});
    return facts;
}

}  // namespace

TEST_CASE("raceway fill: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_raceway_fill.json", 10);
}

TEST_CASE("raceway fill: counts of one kind of wire are the recalled ones") {
    const json blocks = reference::json_file("worked_raceway_fill.json").at("most");
    REQUIRE(blocks.size() == 1);
    REQUIRE(blocks.front().at("counts").size() == 16);
    for (const auto& block : blocks)
        for (const auto& [size, counts] : block.at("counts").items())
            for (std::size_t i = 0; i < counts.size(); ++i) {
                CAPTURE(size);
                CAPTURE(i);
                const int most = counts[i].get<int>();
                json facts = {{"raceway", block.at("raceway")},
                              {"insulation", block.at("insulation")},
                              {"trade_size", block.at("trade_sizes")[i]},
                              {"conductors", std::to_string(std::max(most, 1)) + "x" + size}};
                const auto finding = worked::find(calculator(), facts);
                CHECK(finding.find("most")->number == most);
                CHECK(finding.find("fits")->words == (most > 0 ? "yes" : "no"));
                facts["conductors"] = std::to_string(most + 1) + "x" + size;
                CHECK(worked::find(calculator(), facts).find("fits")->words == "no");
            }
}

TEST_CASE("raceway fill: what is missing is asked for by name") {
    worked::check_needs(calculator(), wires("3x12"), {"raceway", "conductors", "insulation"});
    auto mixed = wires("3x12");
    mixed["conductors_2"] = "1x8";
    CHECK(worked::find(calculator(), mixed).unknown == std::vector<std::string>{"insulation_2"});
    CHECK(worked::find(calculator(), wires("none")).unknown == std::vector<std::string>{"conductors"});
    CHECK(worked::find(calculator(), json::object()).unknown == std::vector<std::string>{"raceway", "conductors"});
}

TEST_CASE("raceway fill: a size without an area and wires that nothing holds are said, never guessed") {
    const auto finding = worked::find(calculator(), wires("2x18"));
    CHECK_FALSE(finding.answer.has_value());
    CHECK(finding.unknown.empty());
    REQUIRE(finding.findings.size() == 1);
    CHECK(finding.findings.front().find("none for 18 AWG thhn") != std::string::npos);
    const auto full = worked::find(calculator(), wires("900x4/0"));
    CHECK_FALSE(full.answer.has_value());
    CHECK(full.unknown.empty());
    CHECK(full.findings ==
          std::vector<std::string>{"no trade size of our table holds all this: use more than one raceway"});
}

TEST_CASE("raceway fill: flexible metal conduit of 3/8 in is left to its own table") {
    auto facts = wires("2x14");
    facts["raceway"] = "fmc";
    CHECK(worked::find(calculator(), facts).answer->words == "1/2");
    facts["trade_size"] = "3/8";
    const auto finding = worked::find(calculator(), facts);
    CHECK_FALSE(finding.answer.has_value());
    CHECK(finding.unknown.empty());
    CHECK(finding.findings.front().find("see 348.22") != std::string::npos);
}

TEST_CASE("raceway fill: a third and smaller wire can need less, for two alone have 31 %") {
    const auto two = worked::find(calculator(), wires("2x1"));
    const auto three = worked::find(calculator(), wires("2x1, 1x14"));
    CHECK(two.find("allowed_percent")->number == 31);
    CHECK(three.find("allowed_percent")->number == 40);
    CHECK(two.answer->words == "1-1/4");
    CHECK(three.answer->words == "1");
}

TEST_CASE("raceway fill: wires not all alike have no rounding up") {
    auto facts = wires("6x8, 1x6");
    facts["insulation"] = "thw";
    facts["trade_size"] = "1";
    CHECK(worked::find(calculator(), facts).find("most") == nullptr);
    // 0.3483 of 0.3456 in2: a little over, which eight alike may be and these may not.
    facts["conductors"] = "7x8, 1x10, 1x12";
    const auto finding = worked::find(calculator(), facts);
    CHECK(finding.find("area")->number > finding.find("allowed")->number);
    CHECK(finding.find("area")->number < 0.3496);
    CHECK(finding.find("fits")->words == "no");
}

TEST_CASE("raceway fill: names what comes, cites the raceway, and is silent unasked") {
    auto facts = wires("3x12");
    facts["trade_size"] = "1/2";
    const auto finding = worked::find(calculator(), facts);
    worked::check_names(calculator(), finding);
    CHECK(worked::cites(finding, "358.22"));
    worked::check_silent(calculator(), facts);
    CHECK(finding.steps.front() == "3 x 0.0133 (12 AWG thhn) = 0.0399 in2");
}

TEST_CASE("raceway fill: property: one more wire of a kind, a thicker one or no nipple never needs less") {
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        auto facts = any_facts(random);
        const auto before = place(facts);
        auto more = facts;
        ++more.conductors->front().count;
        CHECK(place(more) >= before);
        auto thicker = facts;
        thicker.conductors->front().size = trade::size_at(index_of(facts.conductors->front().size) + 1);
        CHECK(place(thicker) >= before);
        auto nipple = facts;
        nipple.nipple = true;
        CHECK(place(nipple) <= before);
    }
}

TEST_CASE("raceway fill: property: over two wires, one more of any kind never needs less") {
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        auto facts = any_facts(random);
        facts.conductors->front().count += 2;
        facts.conductors->push_back({any_size(random), 1 + static_cast<int>(random.below(3))});
        const auto before = place(facts);
        facts.conductors->push_back({any_size(random), 1});
        CHECK(place(facts) >= before);
        const auto more = place(facts);
        random.shuffle(*facts.conductors);
        CHECK(place(facts) == more);
    }
}

TEST_CASE("raceway fill: property: the most that is named fits, and one more does not") {
    for (base::Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        auto facts = any_facts(random);
        const auto place_of = [&](const trade::Tables::Raceway& r) { return r.kind == facts.raceway; };
        const auto first = std::find_if(shipped_tables().raceways.begin(), shipped_tables().raceways.end(), place_of);
        facts.trade_size = (first + static_cast<std::ptrdiff_t>(1 + random.below(5)))->trade_size;
        const trade::Setting setting{trade::Edition::e2020, &shipped_tables(), false};
        const auto finding = trade::raceway_fill(facts, setting);
        REQUIRE(finding.find("most") != nullptr);
        const int most = static_cast<int>(finding.find("most")->number);
        facts.conductors->front().count = most + 1;
        CHECK(trade::raceway_fill(facts, setting).find("fits")->words == "no");
        if (most == 0) continue;
        facts.conductors->front().count = most;
        CHECK(trade::raceway_fill(facts, setting).find("fits")->words == "yes");
    }
}
