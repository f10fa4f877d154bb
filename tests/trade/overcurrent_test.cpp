#include "trade/work/overcurrent.hpp"

#include <algorithm>
#include <array>

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

TEST_CASE("overcurrent: too little for any standard device is said in words, never as a number") {
    const json facts = {{"ampacity", 13.5}, {"size", "12"}, {"material", "cu"}, {"receptacles", true}};
    for (const auto edition : trade::kEditions) {
        CHECK(find(facts, edition).answer->words.starts_with("no device fits"));
        CHECK(find(with(facts, "rating", 15), edition).answer->words == "no");
    }
}

TEST_CASE("overcurrent: a load that the conductor or the device is too small for is found") {
    const json facts = {{"ampacity", 30}, {"size", "10"}, {"material", "cu"}};
    const auto large = find(with(with(facts, "load", 0), "continuous", 28));
    CHECK(large.answer->words == "no device fits: the least for the load is too large for the conductor");
    CHECK(large.find("least")->number == 35);
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
    const auto beyond = find({{"load", 5500}, {"continuous", 600}});
    CHECK_FALSE(beyond.answer.has_value());
    CHECK(beyond.unknown.empty());
    CHECK(beyond.findings == std::vector<std::string>{"beyond our table of standard ratings: 6250 A"});
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

TEST_CASE("overcurrent: a conductor too small for the load has no device, and none is named in the answer") {
    const auto finding = find({{"load", 16},
                               {"continuous", 16},
                               {"size", "12"},
                               {"material", "cu"},
                               {"ampacity", 25},
                               {"receptacles", false}});
    CHECK(finding.answer->words == "no device fits: the conductor is too small for the load");
    CHECK_FALSE(finding.answer->is_number());
    CHECK(finding.find("least")->number == 40);
    CHECK(finding.find("most")->number == 20);
    CHECK(finding.find("allowed")->words == "no");
    CHECK(finding.findings.size() == 2);
}

TEST_CASE("overcurrent: which receptacle a circuit may have, alone and among several") {
    struct Row {
        int circuit, receptacle;
        bool alone, several;
    };
    // Recalled: 210.21(B)(1) and (3).
    constexpr std::array kRows = {
        Row{15, 15, true, true},   Row{15, 20, true, false},  Row{20, 15, false, true},  Row{20, 20, true, true},
        Row{20, 30, true, false},  Row{30, 15, false, false}, Row{30, 20, false, false}, Row{30, 30, true, true},
        Row{30, 50, true, false},  Row{40, 30, false, false}, Row{40, 40, true, true},   Row{40, 50, true, true},
        Row{40, 60, true, false},  Row{50, 15, false, false}, Row{50, 40, false, false}, Row{50, 50, true, true},
        Row{50, 60, true, false},  Row{60, 50, false, false}, Row{60, 60, true, true},   Row{25, 30, true, true},
        Row{25, 20, false, false}, Row{35, 40, true, true},   Row{45, 50, true, true},   Row{45, 40, false, false}};
    for (const auto& row : kRows)
        for (const bool several : {false, true}) {
            CAPTURE(row.circuit);
            CAPTURE(row.receptacle);
            CAPTURE(several);
            json facts = {{"ampacity", 85}, {"size", "4"}, {"rating", row.circuit}, {"receptacle", row.receptacle}};
            const auto finding = find(with(facts, "receptacles", several));
            const bool good = several ? row.several : row.alone;
            CHECK(finding.answer->words == (good ? "yes" : "no"));
            CHECK(finding.find("allowed")->words == (good ? "yes" : "no"));
            CHECK(worked::cites(finding, "210.21(B)"));
            if (!good) CHECK(finding.findings.front().find("is not allowed on a") != std::string::npos);
            // Unsaid it is asked for where it decides, and only there.
            const auto unsaid = find(facts);
            if (row.alone != row.several)
                CHECK(unsaid.unknown == std::vector<std::string>{"receptacles"});
            else
                CHECK(unsaid.answer->words == (good ? "yes" : "no"));
        }
}

TEST_CASE("overcurrent: a circuit of 10 A has no receptacles from 2023 on") {
    json facts = {{"ampacity", 20}, {"size", "14"}, {"material", "cu"}, {"rating", 10}, {"receptacle", 15}};
    facts["receptacles"] = false;
    CHECK(find(facts, Edition::e2023).answer->words == "no");
    CHECK(find(facts, Edition::e2026).answer->words == "no");
    CHECK(find(facts, Edition::e2020).answer->words == "yes");
}

TEST_CASE("overcurrent: the cord-and-plug load alone, where there is one and the receptacle may be there") {
    const auto not_there = find({{"rating", 50}, {"receptacle", 15}});
    CHECK_FALSE(not_there.answer.has_value());
    CHECK(not_there.unknown.empty());
    CHECK(not_there.findings.size() == 2);
    CHECK_FALSE(find({{"rating", 15}, {"receptacle", 20}}).answer.has_value());
    const auto beyond = find({{"rating", 40}, {"receptacle", 50}});
    CHECK_FALSE(beyond.answer.has_value());
    REQUIRE(beyond.findings.size() == 1);
    CHECK(beyond.findings.front().starts_with("beyond our table"));
    CHECK_FALSE(find({{"rating", 20}, {"receptacle", 15}, {"receptacles", false}}).answer.has_value());
}

TEST_CASE("overcurrent: parallel wires under 1/0 AWG have no ampacity together") {
    auto facts = worked_out();
    facts["sets"] = 2;
    const auto finding = find(facts);
    CHECK_FALSE(finding.answer.has_value());
    CHECK(finding.unknown.empty());
    CHECK(finding.find("ampacity") == nullptr);
    REQUIRE(finding.findings.size() == 1);
    CHECK(finding.findings.front().find("1/0") != std::string::npos);
    facts["size"] = "1/0";
    CHECK(find(facts).answer.has_value());
}

TEST_CASE("overcurrent: the part of 240.4 that decided is cited") {
    const auto at = [](double ampacity, const char* size) {
        return find({{"ampacity", ampacity}, {"size", size}, {"material", "cu"}, {"receptacles", false}});
    };
    CHECK(worked::cites(at(25, "12"), "240.4(D)"));
    CHECK_FALSE(worked::cites(at(12, "10"), "240.4(D)"));
    CHECK(worked::cites(at(255, "250"), "240.4(B)"));
    CHECK_FALSE(worked::cites(at(300, "250"), "240.4(B)"));
    CHECK(worked::cites(at(999, "500"), "240.4(C)"));
    CHECK(worked::cites(at(1000, "500"), "240.4(C)"));
    CHECK_FALSE(worked::cites(at(800, "500"), "240.4(C)"));
    const auto motor = find({{"ampacity", 20}, {"size", "12"}, {"use", "motor"}, {"marked", 40}});
    CHECK(worked::cites(motor, "240.4(G)"));
    CHECK_FALSE(worked::cites(motor, "240.4(D)"));
}

TEST_CASE("overcurrent: that 10 A breakers are passed over is told where they would do, from 2023") {
    const auto tells = [](double load, Edition edition) {
        const auto steps = find({{"load", load}, {"continuous", 0}}, edition).steps;
        return std::any_of(steps.begin(), steps.end(),
                           [](const std::string& step) { return step.starts_with("10 A breakers"); });
    };
    CHECK(tells(10, Edition::e2023));
    CHECK_FALSE(tells(10.5, Edition::e2023));
    CHECK_FALSE(tells(10, Edition::e2020));
    CHECK(find({{"load", 10}, {"continuous", 0}}).answer->number == 15);
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
