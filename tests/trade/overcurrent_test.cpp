#include "trade/work/overcurrent.hpp"

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "trade/worked.hpp"

namespace {

using base::Random;
using trade::Edition;
using trade::OvercurrentFacts;
using trade::Size;
using worked::json;

const trade::Calculator& calculator() {
    static const auto made = trade::overcurrent_calculator();
    return made;
}

trade::Finding find(const json& facts, Edition edition = Edition::e2023) {
    return worked::find(calculator(), facts, edition);
}

json with(json facts, const std::string& name, const json& value) {
    facts[name] = value;
    return facts;
}

json fourteen() {
    return {{"ampacity", 20}, {"size", "14"}, {"material", "cu"}};
}

json worked_out() {
    return {{"size", "8"}, {"material", "cu"},  {"insulation", "90"},  {"ambient", 30},
            {"ccc", 8},    {"terminals", "75"}, {"receptacles", false}};
}

}  // namespace

TEST_CASE("overcurrent: every worked example comes out as its source has it") {
    worked::check_all(calculator(), "worked_overcurrent.json", 11);
}

TEST_CASE("overcurrent: what is missing is asked for by name") {
    worked::check_needs(calculator(), fourteen(), {"size", "material"});
    auto facts = fourteen();
    facts.erase("ampacity");
    CHECK(find(facts).unknown == std::vector<std::string>{"insulation", "terminals", "ambient", "ccc"});
}

TEST_CASE("overcurrent: worked out from the size, every condition is asked for by name") {
    worked::check_needs(calculator(), worked_out(),
                        {"material", "insulation", "ambient", "ccc", "terminals", "receptacles"});
    CHECK(find(worked_out()).answer->number == 40);
    CHECK(find(json::object()).unknown == std::vector<std::string>{"ampacity"});
    CHECK(find({{"load", 5}}).unknown == std::vector<std::string>{"continuous"});
    CHECK(find({{"rating", 20}}).unknown == std::vector<std::string>{"ampacity"});
    CHECK(find({{"receptacle", 20}}).unknown == std::vector<std::string>{"rating"});
    CHECK(find({{"ampacity", 40}, {"size", "8"}, {"use", "motor"}}).unknown == std::vector<std::string>{"marked"});
}

TEST_CASE("overcurrent: a device is never called allowed while the conductor is not known") {
    CHECK(find({{"rating", 60}, {"load", 0}, {"continuous", 10}}).unknown == std::vector<std::string>{"ampacity"});
}

TEST_CASE("overcurrent: a 14 AWG on 60 A is not allowed, and why is said") {
    const auto finding = find(with(fourteen(), "rating", 60));
    CHECK(finding.answer->words == "no");
    REQUIRE(finding.findings.size() == 1);
    CHECK(finding.findings.front().find("15 A is the most") != std::string::npos);
    CHECK(find(with(fourteen(), "rating", 15)).answer->words == "yes");
    CHECK(find(with(fourteen(), "rating", 20)).answer->words == "no");
}

TEST_CASE("overcurrent: small conductors in general use have 15, 20 and 30 A in copper, 15 and 25 A in aluminium") {
    const auto most = [](const char* size, const char* material) {
        return find({{"ampacity", 40}, {"size", size}, {"material", material}, {"receptacles", false}}).answer->number;
    };
    CHECK(most("14", "cu") == 15);
    CHECK(most("12", "cu") == 20);
    CHECK(most("10", "cu") == 30);
    CHECK(most("12", "al") == 15);
    CHECK(most("10", "al") == 25);
    CHECK(most("8", "cu") == 40);
}

TEST_CASE("overcurrent: the next standard rating up, and where it ends") {
    const auto most = [](double ampacity, bool receptacles) {
        return find({{"ampacity", ampacity}, {"size", "250"}, {"receptacles", receptacles}}).answer->number;
    };
    CHECK(most(255, false) == 300);
    CHECK(most(255, true) == 250);
    CHECK(most(300, false) == 300);
    CHECK(most(300, true) == 300);
    CHECK(most(701, false) == 800);
    CHECK(most(800.0, false) == 800);
    CHECK(most(801, false) == 800);
    CHECK(most(999, false) == 800);
    CHECK(most(1000, false) == 1000);
    // Over 50 A nobody is asked about receptacles.
    CHECK(find({{"ampacity", 255}, {"size", "250"}}).answer->number == 300);
}

TEST_CASE("overcurrent: too little for any standard device is said") {
    const json facts = {{"ampacity", 13.5}, {"size", "12"}, {"material", "cu"}, {"receptacles", true}};
    for (const auto edition : trade::kEditions) {
        CHECK_FALSE(find(facts, edition).answer.has_value());
        CHECK(find(with(facts, "rating", 15), edition).answer->words == "no");
    }
}

TEST_CASE("overcurrent: a load that the conductor or the device is too small for is found") {
    const json facts = {{"ampacity", 30}, {"size", "10"}, {"material", "cu"}};
    const auto large = find(with(with(facts, "load", 0), "continuous", 28));
    CHECK(large.answer->number == 35);
    CHECK(large.find("allowed")->words == "no");
    CHECK(large.findings.size() == 1);
    const auto over = find(with(with(with(facts, "load", 31), "continuous", 0), "rating", 30));
    CHECK(over.answer->words == "no");
    CHECK(over.findings.size() == 2);
    CHECK(find(with(with(with(facts, "load", 30), "continuous", 0), "rating", 30)).answer->words == "yes");
    const auto weak = find(with(with(with(facts, "load", 0), "continuous", 20), "rating", 20));
    CHECK(weak.answer->words == "no");
    CHECK(weak.findings.size() == 1);
    CHECK(find(with(with(with(facts, "load", 0), "continuous", 20), "rating", 25)).answer->words == "yes");
    CHECK(find({{"load", 5500}, {"continuous", 600}}).unknown.size() == 1);
}

TEST_CASE("overcurrent: 10 A breakers are standard from 2023, and their few uses are pointed at") {
    const json facts = {{"ampacity", 20}, {"size", "14"}, {"material", "cu"}, {"rating", 10}};
    CHECK(find(facts).answer->words == "yes");
    CHECK(find(facts).findings.size() == 1);
    const json weak = {{"ampacity", 8}, {"size", "14"}, {"material", "cu"}, {"receptacles", false}};
    CHECK(find(weak, Edition::e2017).find("standard_up")->number == 15);
    CHECK(find(weak, Edition::e2023).find("standard_up")->number == 10);
    CHECK(find(with(facts, "rating", 17)).findings.size() == 2);
}

TEST_CASE("overcurrent: a receptacle that no table lists for the circuit") {
    CHECK_FALSE(find({{"rating", 15}, {"receptacle", 20}}).answer.has_value());
    auto facts = with(with(fourteen(), "rating", 15), "receptacle", 20);
    CHECK(find(facts).answer->words == "yes");
    CHECK(find(facts).findings.size() == 1);
}

TEST_CASE("overcurrent: shows its working, names what comes, and is silent unasked") {
    const auto finding = find(with(with(worked_out(), "load", 0), "continuous", 30));
    CHECK(finding.steps.front() == "30 A x 1.25 + 0 A = 37.5 A");
    worked::check_names(calculator(), finding);
    worked::check_names(calculator(), find(with(with(fourteen(), "rating", 15), "receptacle", 15)));
    worked::check_silent(calculator(), worked_out());
    CHECK(worked::cites(find(worked_out(), Edition::e2017), "310.15(B)(16)"));
    CHECK(worked::cites(find(worked_out(), Edition::e2020), "310.16"));
}

TEST_CASE("overcurrent: property: what is proposed is allowed, and nothing larger is") {
    const trade::Setting setting{Edition::e2020, &shipped_tables(), false};
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        OvercurrentFacts facts;
        facts.ampacity = 10.0 + random.unit() * 1200.0 * (random.below(3) == 0 ? 1.0 : 0.05);
        facts.size = trade::size_at(index_of(Size::awg14) + random.below(8));
        facts.conditions.material = random.below(2) == 0 ? trade::Material::cu : trade::Material::al;
        facts.protection.receptacles = random.below(2) == 0;
        const auto found = trade::overcurrent(facts, setting);
        for (const auto& one : shipped_tables().standard_ratings) {
            if (one.fuse_only || one.from > Edition::e2020) continue;
            facts.rating = one.amps;
            const auto judged = trade::overcurrent(facts, setting);
            const bool allowed = found.answer && one.amps <= found.answer->number;
            CHECK(judged.answer->words == (allowed ? "yes" : "no"));
        }
    }
}

TEST_CASE("overcurrent: property: more ampacity never allows less, more load never asks for less") {
    const trade::Setting setting{Edition::e2023, &shipped_tables(), false};
    for (base::Seed seed = 1; seed <= 4000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const bool receptacles = random.below(2) == 0;
        const auto most = [&](double amps) {
            OvercurrentFacts facts;
            facts.ampacity = amps;
            facts.size = Size::awg6;
            facts.protection.receptacles = receptacles;
            const auto found = trade::overcurrent(facts, setting);
            return found.answer ? found.answer->number : 0.0;
        };
        const double amps = 1.0 + random.unit() * 1500.0;
        CHECK(most(amps + random.unit() * 50.0) >= most(amps));
        const auto least = [&](double load, double continuous) {
            OvercurrentFacts facts;
            facts.load = load;
            facts.continuous = continuous;
            return trade::overcurrent(facts, setting).answer->number;
        };
        const double load = random.unit() * 400.0;
        const double continuous = random.unit() * 400.0;
        CHECK(least(load + 10.0, continuous) >= least(load, continuous));
        CHECK(least(0.0, load + continuous) >= least(load, continuous));
    }
}
