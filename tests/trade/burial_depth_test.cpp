#include "trade/work/burial_depth.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::BurialFacts;
using worked::json;

const trade::Calculator& calculator() {
    static const auto made = trade::burial_depth_calculator();
    return made;
}

json cable() {
    return {{"method", "direct-burial"},
            {"place", "general"},
            {"dwelling", true},
            {"volts", 120},
            {"amps", 20},
            {"gfci", true}};
}

trade::Finding work(const BurialFacts& facts) {
    return trade::burial_depth(facts, {trade::Edition::e2023, &shipped_tables(), false});
}

template <class T>
std::optional<T> maybe(Random& random, T value) {
    return random.below(3) == 0 ? std::nullopt : std::optional{value};
}

BurialFacts any_run(Random& random) {
    BurialFacts facts;
    facts.method = static_cast<BurialFacts::Method>(random.below(3));
    facts.place = shipped_tables().covers[random.below(shipped_tables().covers.size())].place;
    facts.dwelling = maybe(random, random.below(2) == 1);
    facts.volts = maybe(random, std::array{12.0, 30.0, 31.0, 120.0, 121.0, 240.0}[random.below(6)]);
    facts.amps = maybe(random, std::array{15.0, 20.0, 20.1, 30.0}[random.below(4)]);
    facts.gfci = maybe(random, random.below(2) == 1);
    facts.landscape = maybe(random, random.below(2) == 1);
    return facts;
}

/// Everything that was not said, said in one of the ways it may be.
BurialFacts completed(BurialFacts facts, std::uint64_t way) {
    if (!facts.dwelling) facts.dwelling = (way & 1) != 0;
    if (!facts.gfci) facts.gfci = (way & 2) != 0;
    if (!facts.landscape) facts.landscape = (way & 4) != 0;
    if (!facts.amps) facts.amps = (way & 8) != 0 ? 20.0 : 30.0;
    if (!facts.volts) facts.volts = std::array{24.0, 120.0, 240.0, 240.0}[way >> 4];
    return facts;
}

}  // namespace

TEST_CASE("burial depth: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_burial_depth.json", 12);
}

TEST_CASE("burial depth: all four conditions of the smaller cover are asked for, and each one has to hold") {
    worked::check_needs(calculator(), cable(), {"method", "place", "dwelling", "amps", "gfci"});
    CHECK(worked::find(calculator(), cable()).answer->number == 12);
    for (const auto& [fact, value] : {std::pair{"dwelling", json(false)}, std::pair{"volts", json(121)},
                                      std::pair{"amps", json(20.5)}, std::pair{"gfci", json(false)}}) {
        CAPTURE(fact);
        json facts = cable();
        facts[fact] = value;
        CHECK(worked::find(calculator(), facts).answer->number == 24);
    }
}

TEST_CASE("burial depth: low voltage alone is not landscape lighting") {
    json facts = cable();
    facts.update({{"volts", 24}, {"gfci", false}, {"landscape", true}});
    worked::check_needs(calculator(), facts, {"landscape"});
    CHECK(worked::find(calculator(), facts).answer->number == 6);
    facts["landscape"] = false;
    CHECK(worked::find(calculator(), facts).answer->number == 24);
    facts["gfci"] = true;
    CHECK(worked::find(calculator(), facts).answer->number == 12);
    facts.update({{"landscape", true}, {"volts", 31}});
    CHECK(worked::find(calculator(), facts).answer->number == 12);
}

TEST_CASE("burial depth: where no condition gives less the column is the wiring method's") {
    json facts = cable();
    CHECK(worked::find(calculator(), facts).find("column")->words.find("GFCI") != std::string::npos);
    facts["place"] = "street-or-parking";
    CHECK(worked::find(calculator(), facts).find("column")->words == "cable buried directly");
}

TEST_CASE("burial depth: a cable under a building is told") {
    CHECK(worked::find(calculator(), {{"method", "direct-burial"}, {"place", "under-building"}}).findings.size() == 1);
    CHECK(worked::find(calculator(), {{"method", "pvc"}, {"place", "under-building"}}).findings.empty());
}

TEST_CASE("burial depth: the places of the help are the places of the table") {
    const auto& specs = calculator().facts;
    const auto spec = std::find_if(specs.begin(), specs.end(), [](const auto& s) { return s.name == "place"; });
    REQUIRE(spec != specs.end());
    std::string places;
    for (const auto& row : shipped_tables().covers) places += (places.empty() ? "" : "|") + row.place;
    CHECK(spec->choices == places);
    const trade::Tables none;
    const auto empty = calculator().run(worked::facts_of(calculator(), cable()), {trade::Edition::e2023, &none, true});
    CHECK_FALSE(empty.answer.has_value());
}

TEST_CASE("burial depth: property: an answer holds however the unsaid facts turn out, and nothing is asked in vain") {
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const BurialFacts facts = any_run(random);
        const auto finding = work(facts);
        bool differs = false;
        std::optional<double> first;
        for (std::uint64_t way = 0; way < 64; ++way) {
            const auto other = work(completed(facts, way));
            REQUIRE(other.answer.has_value());
            if (finding.answer) CHECK(other.answer->number == finding.answer->number);
            if (!first) first = other.answer->number;
            differs = differs || other.answer->number != *first;
        }
        CHECK(finding.answer.has_value() == !differs);
        CHECK(finding.answer.has_value() != finding.blocked());
    }
}

TEST_CASE("burial depth: property: no condition makes the cover deeper than the wiring method alone asks") {
    for (base::Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        BurialFacts facts = completed(any_run(random), random.below(64));
        facts.diameter = random.unit() * 4.0;
        const auto finding = work(facts);
        CHECK(finding.answer->number <= finding.find("plain")->number);
        CHECK(finding.find("trench")->number == doctest::Approx(finding.answer->number + *facts.diameter));
        *facts.amps += 100.0;
        CHECK(work(facts).answer->number >= finding.answer->number);
        *facts.volts += 200.0;
        CHECK(work(facts).answer->number == finding.find("plain")->number);
    }
}

TEST_CASE("burial depth: silent without a working, and every further value is named in the help") {
    json facts = cable();
    facts["diameter"] = 1;
    worked::check_silent(calculator(), facts);
    worked::check_names(calculator(), worked::find(calculator(), facts));
    CHECK(worked::cites(worked::find(calculator(), facts), "300.5(A)"));
}
