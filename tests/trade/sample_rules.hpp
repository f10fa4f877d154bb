#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "base/located_json.hpp"
#include "content/read/read_rules.hpp"
#include "trade/rules/book.hpp"

/// A small vocabulary and a few rules, invented, and ways to judge a case by them.
namespace sample_rules {

inline const std::string kFacts = R"json({
  "format": "greentag-facts/1",
  "results": [
    {"name": "GFCI", "does": "ground-fault protection"},
    {"name": "AFCI", "does": "arc-fault protection"},
    {"name": "wall-receptacle", "does": "receptacles along a wall"},
    {"name": "receptacle-here", "does": "a receptacle in this place"}
  ],
  "facts": [
    {"name": "occupancy", "kind": "choice", "does": "what the building is for", "choices": ["house", "row-house", "shop"],
     "groups": {"dwelling": ["house", "row-house"]}},
    {"name": "location", "kind": "choice", "does": "where", "choices": ["kitchen", "bath", "hall", "yard"]},
    {"name": "room", "kind": "choice", "does": "the room", "choices": ["kitchen", "bath", "hall"]},
    {"name": "wet", "kind": "flag", "does": "is it wet?"},
    {"name": "locked", "kind": "flag", "does": "is it locked away?"},
    {"name": "volts", "kind": "number", "unit": "V", "least": 0, "most": 600, "does": "voltage"},
    {"name": "volts_to_ground", "kind": "number", "unit": "V", "least": 0, "most": 600, "does": "voltage to ground"},
    {"name": "sink_ft", "kind": "number", "unit": "ft", "least": 0, "most": 100, "none": true, "does": "to a sink"},
    {"name": "wall_ft", "kind": "number", "unit": "ft", "least": 0, "most": 1000, "does": "length of a wall"},
    {"name": "day", "kind": "date", "does": "day of the work"}
  ],
  "implies": [
    {"when": {"location": ["kitchen", "bath", "hall"]}, "then": {"room": "same"}},
    {"when": {"room": "bath"}, "then": {"wet": true}},
    {"when": {"location": "yard"}, "then": {"wet": ["yes"]}}
  ],
  "ceilings": [{"fact": "volts_to_ground", "not_over": "volts"}]
})json";

inline const std::string kRules = R"json({
  "format": "greentag-rules/1", "name": "sample", "title": "Sample", "topic": "samples",
  "rules": [
    {"id": "g.bath", "title": "Baths", "why": "Water.", "requires": "GFCI", "when": {"occupancy": "dwelling", "room": "bath"},
     "exceptions": [{"when": {"locked": true}, "why": "Nobody gets at it.", "article": "210.8(A) Ex 1"}],
     "versions": [
       {"editions": "2017", "article": "210.8(A)(1)", "when": {"volts": {"most": 125}}, "basis": {"kind": "practice"}},
       {"editions": "2020-2026", "article": "210.8(A)(2)", "when": {"volts": {"most": 250}}, "basis": {"kind": "practice"},
        "unverified": true}]},
    {"id": "g.sink", "title": "Sinks", "why": "Water is near.", "requires": "GFCI", "when": {"sink_ft": {"under": 6}},
     "versions": [{"editions": "2020-2026", "article": "210.8(A)(7)", "basis": {"kind": "practice"}}]},
    {"id": "a.rooms", "title": "Rooms", "why": "Arcs.", "requires": "AFCI",
     "when": {"occupancy": {"not": ["shop"]}, "any": [{"room": ["hall", "kitchen"]}, {"day": {"from": "2026-09-01"}}]},
     "versions": [{"editions": "2017-2026", "article": "210.12(A)", "basis": {"kind": "practice"}}]},
    {"id": "w.wall", "title": "Walls", "why": "Cords are short.", "requires": "wall-receptacle",
     "count": {"of": "wall_ft", "first": 12, "each": 12}, "when": {"occupancy": "dwelling", "wall_ft": {"least": 2}},
     "versions": [{"editions": "2017-2026", "article": "210.52(A)", "basis": {"kind": "practice"}}]},
    {"id": "r.wet", "title": "Wet", "why": "No.", "forbids": "receptacle-here", "when": {"none": [{"wet": false}, {"locked": true}]},
     "versions": [{"editions": "2017-2026", "article": "406.9", "basis": {"kind": "practice"}}]}
  ]
})json";

using Given = std::vector<std::pair<std::string, std::string>>;

/// Reads a document; throws when there is any fault, so that a test never goes on with half of one.
template <class Read>
[[nodiscard]] auto read(const std::string& text, Read how) {
    const auto located = base::parse_located(text, "sample.json");
    if (!located) throw std::runtime_error(base::to_text(located.error().front()));
    base::Faults faults;
    auto done = how(base::Reader{*located, "sample.json", "", faults});
    if (!faults.empty()) throw std::runtime_error(base::to_text(faults.front()));
    return done;
}

[[nodiscard]] inline std::shared_ptr<const trade::Vocabulary> vocabulary() {
    static const auto kept = std::make_shared<const trade::Vocabulary>(read(kFacts, content::read_vocabulary));
    return kept;
}

/// The first `from` turned into `to`; throws when it does not stand there.
[[nodiscard]] inline std::string spoiled(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    if (at == std::string::npos) throw std::runtime_error("nothing like " + from);
    return text.replace(at, from.size(), to);
}

[[nodiscard]] inline std::vector<trade::Rule> rules() {
    return read(kRules, content::read_rules);
}

/// A rule file around rules written as JSON.
[[nodiscard]] inline std::vector<trade::Rule> rules_of(const std::string& list) {
    return read(
        R"({"format": "greentag-rules/1", "name": "n", "title": "t", "topic": "samples", "rules": [)" + list + "]}",
        content::read_rules);
}

[[nodiscard]] inline std::vector<trade::Amendment> amendments_of(const std::vector<std::string>& texts) {
    std::vector<trade::Amendment> all;
    for (const auto& text : texts) all.push_back(read(text, content::read_amendment));
    return all;
}

[[nodiscard]] inline trade::RuleBook book(std::vector<trade::Rule> from, trade::Edition edition,
                                          const std::string& day = "") {
    auto made = trade::make_book(vocabulary(), std::move(from), edition, day);
    if (!made) throw std::runtime_error(base::to_text(made.error().front()));
    return std::move(*made);
}

[[nodiscard]] inline trade::CaseFacts facts(const Given& given) {
    trade::CaseFacts facts{*vocabulary()};
    for (const auto& [name, text] : given)
        if (const auto set = facts.set(name, std::string_view{text}); !set)
            throw std::runtime_error(base::to_text(set.error().front()));
    return facts;
}

[[nodiscard]] inline trade::Ruling judged(const trade::RuleBook& book, const Given& given,
                                          trade::ResultSet asked = trade::kEveryResult) {
    auto known = facts(given);
    trade::Ruling ruling;
    book.judge(known, asked, ruling);
    return ruling;
}

[[nodiscard]] inline std::vector<std::string> names(trade::ResultSet set) {
    return trade::names_of(set, *vocabulary());
}
[[nodiscard]] inline std::vector<std::string> unknown(const trade::Ruling& ruling) {
    std::vector<std::string> all;
    for (const auto fact : ruling.unknown) all.push_back(vocabulary()->facts()[fact].name);
    return all;
}

}  // namespace sample_rules
