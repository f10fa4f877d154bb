#include "content/read/read_rules.hpp"

#include <doctest/doctest.h>

#include "trade/sample_rules.hpp"

namespace {

using sample_rules::spoiled;

/// What reading a document notes; `pick` reads it.
template <class Read>
base::Faults faults(const std::string& text, Read how) {
    const auto located = base::parse_located(text, "rules.json");
    REQUIRE(located.has_value());
    base::Faults found;
    (void)how(base::Reader{*located, "rules.json", "", found});
    return found;
}

base::Fault rule_fault(const std::string& from, const std::string& to) {
    const auto found = faults(spoiled(sample_rules::kRules, from, to), content::read_rules);
    REQUIRE_MESSAGE(!found.empty(), to);
    return found.front();
}

base::Fault vocabulary_fault(const std::string& from, const std::string& to) {
    const auto found = faults(spoiled(sample_rules::kFacts, from, to), content::read_vocabulary);
    REQUIRE_MESSAGE(!found.empty(), to);
    return found.front();
}

base::Fault amendment_fault(const std::string& text) {
    const auto found = faults(text, content::read_amendment);
    REQUIRE_MESSAGE(!found.empty(), text);
    return found.front();
}

bool tells(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

trade::When when(const std::string& text) {
    return sample_rules::read(text, content::read_when);
}

std::string rule_text(const std::string& effect) {
    return R"({"id": "local.x", "title": "t", "why": "w", )" + effect +
           R"("versions": [{"editions": "2017-2026", "article": "210.8", "basis": {"kind": "practice"}}]})";
}

}  // namespace

TEST_CASE("read rules: a rule is read with everything that was said of it") {
    const auto rules = sample_rules::rules();
    REQUIRE(rules.size() == 5);
    const auto& bath = rules.front();
    CHECK(bath.id == "g.bath");
    CHECK(bath.topic == "samples");
    CHECK(bath.effect == trade::Effect::requires_);
    CHECK(bath.result == "GFCI");
    CHECK(bath.when.all.size() == 2);
    CHECK(bath.exceptions.front().article == "210.8(A) Ex 1");
    CHECK(bath.version(trade::Edition::e2017)->when.all.front().most == 125.0);
    CHECK(bath.version(trade::Edition::e2026)->unverified);
    CHECK(bath.spot.pointer == "/rules/0");
    CHECK(rules[1].version(trade::Edition::e2017) == nullptr);
    CHECK(rules[3].count->each == 12.0);
    CHECK(rules[4].effect == trade::Effect::forbids);
    CHECK_FALSE(bath.local);
}

TEST_CASE("read rules: conditions of every kind") {
    const auto all = when(R"({"a": "x", "b": ["x", "y"], "c": {"not": ["x"]}, "d": true, "e": false, "f": 20,
        "g": {"least": 1, "under": 5}, "h": {"before": "2026-09-01"}, "i": {"from": "2026-09-01"}})");
    REQUIRE(all.all.size() == 9);
    CHECK(all.all[0].words == std::vector<std::string>{"x"});
    CHECK(all.all[1].words.size() == 2);
    CHECK(all.all[2].negated);
    CHECK(all.all[3].words == std::vector<std::string>{"yes"});
    CHECK(all.all[4].words == std::vector<std::string>{"no"});
    CHECK(all.all[5].equal == 20.0);
    CHECK(all.all[6].least == 1.0);
    CHECK(all.all[6].under == 5.0);
    CHECK(all.all[7].under == 20260901.0);
    CHECK(all.all[8].least == 20260901.0);
    CHECK(all.all[8].spot.pointer == "/i");
    const auto nested = when(R"({"any": [{"a": "x"}, {"b": "y"}], "all": [{"any": [{"c": "z"}]}, {"d": "w"}],
        "none": [{"e": "v"}]})");
    CHECK(nested.all.size() == 1);
    CHECK(nested.any.size() == 2);
    CHECK(nested.none.size() == 1);
    CHECK(when("{}").empty());
}

TEST_CASE("read rules: faults name their place and the way out") {
    CHECK(tells(rule_fault(R"("requires": "GFCI", "when": {"occ)", R"("when": {"occ)").what,
                "requires, permits or forbids"));
    CHECK(
        tells(rule_fault(R"("forbids": "receptacle-here")", R"("forbids": "receptacle-here", "permits": "GFCI")").what,
              "one thing"));
    CHECK(tells(rule_fault("\"210.8(A)(7)\"", "\"two-ten\"").what, "no code reference"));
    CHECK(tells(rule_fault("\"2017\"", "\"2017-2020\"").what, "two versions of 'g.bath' hold in 2020"));
    CHECK(tells(rule_fault("\"2020-2026\"", "\"2026-2020\"").what, "no run of editions"));
    CHECK(tells(rule_fault("\"first\": 12", "\"first\": 0").what, "over 0"));
    CHECK(tells(rule_fault("\"2026-09-01\"", "\"2026-02-30\"").what, "'2026-02-30' is no day"));
    CHECK(tells(rule_fault(R"({"when": {"locked": true}, "why")", R"({"when": {}, "why")").what, "leaves no rule"));
    CHECK(tells(rule_fault(R"({"kind": "practice"}},)", R"({"kind": "published"}},)").what, "published"));
    CHECK(rule_fault("\"why\": \"Water.\", ", "").pointer == "/rules/0");
    CHECK(rule_fault("{\"under\": 6}", "{\"below\": 6}").warning);
    const auto empty =
        rule_fault(R"("versions": [{"editions": "2017-2026", "article": "406.9", "basis": {"kind": "practice"}}])",
                   R"("versions": [])");
    CHECK(tells(empty.what, "holds in no edition"));
    CHECK(empty.pointer == "/rules/4");
}

TEST_CASE("read rules: a word that the condition does not know how to read is a fault") {
    for (const char* text :
         {R"({"a": null})", R"({"a": [1]})", R"({"any": {"a": "x"}})", R"({"a": {"least": "6 ft"}})"})
        CHECK_MESSAGE(!faults(text, content::read_when).empty(), text);
}

TEST_CASE("vocabulary file: every kind of fact, groups, implications and ceilings are read") {
    const auto& words = *sample_rules::vocabulary();
    CHECK(words.facts().size() == 10);
    CHECK(words.results().size() == 4);
    CHECK(words.implications().size() == 3);
    CHECK(words.implications()[0].same);
    CHECK(words.implications()[1].then == words.facts()[3].words("yes"));
    CHECK(words.ceilings().size() == 1);
    CHECK(words.facts()[7].may_be_none);
    CHECK(words.facts()[9].kind == trade::CaseFact::Kind::date);
    CHECK(words.facts()[5].unit == base::Unit::volt);
}

TEST_CASE("vocabulary file: faults") {
    CHECK(tells(vocabulary_fault("\"kind\": \"date\"", "\"kind\": \"day\"").what, "no kind of fact"));
    CHECK(tells(vocabulary_fault("\"unit\": \"V\"", "\"unit\": \"volts per foot\"").what, "no unit"));
    CHECK(tells(vocabulary_fault("\"name\": \"locked\"", "\"name\": \"wet\"").what, "this fact stands twice"));
    CHECK(tells(vocabulary_fault("\"name\": \"AFCI\"", "\"name\": \"GFCI\"").what, "this result stands twice"));
    CHECK(tells(vocabulary_fault("[\"house\", \"row-house\"]}}", "[\"house\", \"barn\"]}}").what, "names 'barn'"));
    CHECK(tells(vocabulary_fault("{\"room\": \"bath\"}", "{\"rom\": \"bath\"}").what, "not there"));
    CHECK(tells(vocabulary_fault("{\"wet\": true}", "{\"volts\": 3}").what, "no words"));
    CHECK(tells(vocabulary_fault("{\"wet\": true}", "{\"wet\": true, \"locked\": true}").what, "one fact to one fact"));
    CHECK(tells(vocabulary_fault("\"not_over\": \"volts\"", "\"not_over\": \"volt\"").what, "not there"));
    std::string many = "\"w0\"";
    for (int i = 1; i <= 64; ++i) many += ", \"w" + std::to_string(i) + "\"";
    CHECK(tells(vocabulary_fault("\"choices\": [\"house\", \"row-house\", \"shop\"],\n     \"groups\": {\"dwelling\": "
                                 "[\"house\", \"row-house\"]}",
                                 "\"choices\": [" + many + "]")
                    .what,
                "more than 64"));
}

TEST_CASE("amendment: every action, with its days and editions") {
    const auto all = sample_rules::amendments_of(
        {R"({"id": "a", "action": "add", "editions": "2020-2023", "from": "2024-01-01", "until": "2025-01-01", "note": "n",
             "basis": {"kind": "practice"}, "with": )" +
             rule_text("\"requires\": \"GFCI\", ") + "}",
         R"({"id": "b", "action": "delete", "rule": "g.bath", "basis": {"kind": "practice"}})",
         R"({"id": "c", "action": "replace", "rule": "g.bath", "basis": {"kind": "practice"}, "with": )" +
             rule_text("\"permits\": \"GFCI\", ") + "}",
         R"({"id": "d", "action": "delay", "rule": "g.bath", "until": "2027-01-01", "basis": {"kind": "practice"}})"});
    using Action = trade::Amendment::Action;
    CHECK(all[0].action == Action::add);
    CHECK(all[0].with->id == "local.x");
    CHECK(all[0].with->topic == "local");
    CHECK(all[0].editions->contains(trade::Edition::e2023));
    CHECK_FALSE(all[0].editions->contains(trade::Edition::e2017));
    CHECK(all[0].until == "2025-01-01");
    CHECK(all[1].action == Action::remove);
    CHECK_FALSE(all[1].with.has_value());
    CHECK(all[2].with->effect == trade::Effect::permits);
    CHECK(all[3].until == "2027-01-01");
    CHECK(all[3].from.empty());
}

TEST_CASE("amendment: faults") {
    CHECK(tells(amendment_fault(R"({"id": "a", "action": "drop", "rule": "r", "basis": {"kind": "practice"}})").what,
                "'drop' is no action"));
    CHECK(tells(amendment_fault(R"({"id": "a", "action": "delay", "rule": "r", "basis": {"kind": "practice"}})").what,
                "until when"));
    CHECK(tells(amendment_fault(R"({"id": "a", "action": "delete", "basis": {"kind": "practice"}})").what, "rule"));
    CHECK(tells(amendment_fault(R"({"id": "a", "action": "add", "basis": {"kind": "practice"}})").what, "with"));
    CHECK(tells(amendment_fault(
                    R"({"id": "a", "action": "delete", "rule": "r", "from": "2026", "basis": {"kind": "practice"}})")
                    .what,
                "no day"));
    CHECK(tells(
        amendment_fault(R"({"id": "a", "action": "delete", "rule": "r", "basis": {"kind": "practice"}, "with": )" +
                        rule_text("\"requires\": \"GFCI\", ") + "}")
            .what,
        "only add and replace"));
}
