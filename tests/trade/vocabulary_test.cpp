#include "trade/rules/vocabulary.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "trade/sample_rules.hpp"

namespace {

using trade::CaseFact;
using trade::CaseFacts;
using trade::Known;

const trade::Vocabulary& vocabulary() {
    return *sample_rules::vocabulary();
}

Known known(const CaseFacts& facts, const std::string& name) {
    return facts[vocabulary().find(name).value()];
}

trade::WordSet words(const std::string& fact, const std::string& word) {
    return vocabulary().facts()[vocabulary().find(fact).value()].words(word).value();
}

/// The one fault of setting a fact.
template <class T>
base::Fault fault(const std::string& name, T value) {
    CaseFacts facts{vocabulary()};
    const auto set = facts.set(name, value);
    REQUIRE_FALSE(set.has_value());
    REQUIRE(set.error().size() == 1);
    return set.error().front();
}

bool tells(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("vocabulary: words and groups are sets, spaces and underlines stand for hyphens") {
    const CaseFact& fact = vocabulary().facts()[vocabulary().find("occupancy").value()];
    CHECK(fact.words("house") == trade::WordSet{0b001});
    CHECK(fact.words("Row House") == trade::WordSet{0b010});
    CHECK(fact.words(" row_house ") == trade::WordSet{0b010});
    CHECK(fact.words("dwelling") == trade::WordSet{0b011});
    CHECK(fact.every() == 0b111);
    CHECK_FALSE(fact.words("barn").has_value());
    CHECK(vocabulary().facts()[vocabulary().find("wet").value()].choices == std::vector<std::string>{"no", "yes"});
}

TEST_CASE("vocabulary: every one of 64 words has a bit of its own") {
    CaseFact fact;
    fact.kind = CaseFact::Kind::choice;
    trade::WordSet all = 0;
    for (std::size_t i = 0; i < trade::kMostWords; ++i) fact.choices.push_back("w" + std::to_string(i));
    for (const auto& word : fact.choices) {
        CHECK((all & fact.words(word).value()) == 0);
        all |= fact.words(word).value();
    }
    CHECK(all == fact.every());
    CHECK(fact.every() == ~trade::WordSet{0});
}

TEST_CASE("vocabulary: facts and results are found by name") {
    CHECK(vocabulary().find("wet") == 3);
    CHECK_FALSE(vocabulary().find("Wet").has_value());
    CHECK(vocabulary().find_result("AFCI") == 1);
    CHECK_FALSE(vocabulary().find_result("afci").has_value());
    CHECK(vocabulary().fact_names().size() == 10);
    CHECK(vocabulary().result_names().back() == "receptacle-here");
}

TEST_CASE("case facts: what was not said is wholly open, and forgetting makes it so again") {
    CaseFacts facts =
        sample_rules::facts({{"occupancy", "dwelling"}, {"volts", "120"}, {"wet", "yes"}, {"day", "2026-09-01"}});
    CHECK(known(facts, "occupancy").words == 0b011);
    CHECK(known(facts, "volts").least == 120.0);
    CHECK(known(facts, "volts").most == 120.0);
    CHECK(known(facts, "wet").given);
    CHECK(known(facts, "day").least == 20260901.0);
    CHECK_FALSE(known(facts, "room").given);
    facts.clear();
    for (const auto& fact : vocabulary().facts()) {
        CHECK_FALSE(known(facts, fact.name).given);
        if (fact.has_words())
            CHECK(known(facts, fact.name).words == fact.every());
        else
            CHECK((std::isinf(known(facts, fact.name).least) && std::isinf(known(facts, fact.name).most)));
    }
}

TEST_CASE("case facts: numbers as numbers and as text, with their unit or one that converts") {
    CaseFacts facts{vocabulary()};
    CHECK(facts.set("sink_ft", 3.5).has_value());
    CHECK(known(facts, "sink_ft").least == 3.5);
    CHECK(facts.set("sink_ft", std::string_view{"18 in"}).has_value());
    CHECK(known(facts, "sink_ft").most == 1.5);
    CHECK(facts.set("sink_ft", std::string_view{"none"}).has_value());
    CHECK(std::isinf(known(facts, "sink_ft").least));
    CHECK(known(facts, "sink_ft").given);
    CHECK(facts.set("wet", true).has_value());
    CHECK(known(facts, "wet").words == words("wet", "yes"));
    CHECK(facts.set("wet", std::string_view{"no"}).has_value());
    CHECK(known(facts, "wet").words == words("wet", "no"));
}

TEST_CASE("case facts: what cannot be is refused, and told what could") {
    CHECK(fault("occupancy", std::string_view{"hose"}).mend == "did you mean 'house'?");
    CHECK(tells(fault("occupancy", std::string_view{"cathedral"}).mend, "house, row-house, shop, dwelling"));
    CHECK(fault("ocupancy", std::string_view{"house"}).mend == "did you mean 'occupancy'?");
    CHECK(tells(fault("volts", std::string_view{"120 ft"}).mend, "number of V, 0 to 600"));
    CHECK(tells(fault("volts", std::string_view{"none"}).mend, "0 to 600"));
    CHECK_FALSE(tells(fault("volts", -1.0).mend, "none"));
    CHECK(tells(fault("sink_ft", 101.0).mend, "0 to 100, or none"));
    CHECK(tells(fault("sink_ft", std::nan("")).what, "sink_ft"));
    CHECK(tells(fault("sink_ft", std::string_view{""}).mend, "number of ft"));
    CHECK(tells(fault("day", std::string_view{"2026-9-1"}).mend, "2026-09-01"));
    CHECK(tells(fault("day", 20260901.0).mend, "2026-09-01"));
    CHECK(tells(fault("wet", 1.0).mend, "no, yes"));
    CHECK(tells(fault("volts", true).what, "volts"));
    CHECK(tells(fault("occupancy", true).what, "occupancy"));
}

TEST_CASE("case facts: a fact that is refused leaves what was known before") {
    CaseFacts facts = sample_rules::facts({{"volts", "120"}});
    CHECK_FALSE(facts.set("volts", 700.0).has_value());
    CHECK(known(facts, "volts").least == 120.0);
}

TEST_CASE("case facts: what follows from the facts is drawn, one step after another") {
    CaseFacts facts = sample_rules::facts({{"location", "bath"}});
    CHECK(facts.draw_conclusions().empty());
    CHECK(known(facts, "room").words == words("room", "bath"));
    CHECK(known(facts, "wet").words == words("wet", "yes"));
    CHECK_FALSE(known(facts, "room").given);
    facts = sample_rules::facts({{"location", "yard"}});
    CHECK(facts.draw_conclusions().empty());
    CHECK(known(facts, "room").words == 0b111);
    CHECK(known(facts, "wet").words == words("wet", "yes"));
    facts = sample_rules::facts({{"location", "hall"}});
    CHECK(facts.draw_conclusions().empty());
    CHECK(known(facts, "wet").words == 0b11);
}

TEST_CASE("case facts: facts that contradict each other are told, and what was said stands") {
    CaseFacts facts = sample_rules::facts({{"location", "bath"}, {"room", "hall"}});
    const auto clashes = facts.draw_conclusions();
    REQUIRE(clashes.size() == 1);
    CHECK(clashes.front() == "\"location\" bath does not go with \"room\" hall");
    CHECK(known(facts, "room").words == words("room", "hall"));
    facts = sample_rules::facts({{"room", "bath"}, {"wet", "no"}});
    CHECK(facts.draw_conclusions() == std::vector<std::string>{"\"room\" bath does not go with \"wet\" no"});
}

TEST_CASE("case facts: a measure with a ceiling is never over it") {
    CaseFacts facts = sample_rules::facts({{"volts", "120"}});
    CHECK(facts.draw_conclusions().empty());
    CHECK(known(facts, "volts_to_ground").most == 120.0);
    facts = sample_rules::facts({{"volts", "120"}, {"volts_to_ground", "120"}});
    CHECK(facts.draw_conclusions().empty());
    facts = sample_rules::facts({{"volts", "120"}, {"volts_to_ground", "277"}});
    CHECK(facts.draw_conclusions() == std::vector<std::string>{"\"volts_to_ground\" 277 cannot be over \"volts\" 120"});
    facts = sample_rules::facts({{"volts_to_ground", "277"}});
    CHECK(facts.draw_conclusions().empty());
}

TEST_CASE("days: in the order of the calendar, and none that it does not have") {
    CHECK(trade::day_number("2026-09-01") == 20260901.0);
    CHECK(trade::day_number(" 2024-02-29 ") == 20240229.0);
    CHECK(trade::day_number("2026-12-31").value() < trade::day_number("2027-01-01").value());
    for (const char* text : {"", "2026", "2026-9-1", "2026-13-01", "2026-00-10", "2026-01-00", "2026-02-30",
                             "2025-02-29", "2026-04-31", "26-01-01", "2026-0a-01", "2026-01-01-01", "-026-01-01"})
        CHECK_MESSAGE(!trade::day_number(text), text);
}

TEST_CASE("vocabulary: words of two facts are matched by name") {
    const auto& facts = vocabulary().facts();
    CHECK(trade::same_words(facts[1], facts[2]) == std::vector<std::size_t>{0, 1, 2, trade::kMostWords});
}
