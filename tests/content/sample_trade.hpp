#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "content/sample.hpp"
#include "content/trade_data.hpp"
#include "trade/sample_rules.hpp"

/// The sample library with the sample vocabulary and rules, and a place that amends them.
namespace sample_trade {

inline const std::string kPlaces = R"json({
  "format": "greentag-jurisdictions/1",
  "jurisdictions": [
    {"id": "plain", "name": "Plain", "basis": {"kind": "practice"}, "adoptions": [{"edition": "2023", "from": "2024-01-01"}]},
    {"id": "ours", "name": "Ours", "basis": {"kind": "practice"}, "adoptions": [{"edition": "2023", "from": "2024-01-01"}],
     "amendments": [
       {"id": "no-sinks", "action": "delete", "rule": "g.sink", "basis": {"kind": "practice"}},
       {"id": "yards", "action": "add", "basis": {"kind": "practice"}, "with":
         {"id": "local.yard", "title": "Yards", "why": "Rain.", "requires": "GFCI", "when": {"location": "yard"},
          "versions": [{"editions": "2017-2026", "article": "210.8", "basis": {"kind": "practice"}}]}},
       {"id": "halls", "action": "replace", "rule": "a.rooms", "from": "2025-01-01", "basis": {"kind": "practice"}, "with":
         {"id": "a.rooms", "title": "Halls", "why": "Arcs.", "requires": "AFCI", "when": {"room": "hall"},
          "versions": [{"editions": "2017-2026", "article": "210.12(A)", "basis": {"kind": "practice"}}]}},
       {"id": "later", "action": "delay", "rule": "w.wall", "until": "2026-06-01", "basis": {"kind": "practice"}}
     ]}
  ]
})json";

/// Documents put together as if they were files.
[[nodiscard]] inline content::Contents contents(const std::string& places = kPlaces,
                                                const std::string& rules = sample_rules::kRules,
                                                const std::string& table = sample::kTable) {
    content::Contents contents = sample::contents(sample::kDeck, sample::kCalls, table, places);
    content::add_document(contents, sample_rules::kFacts, {"facts.json", 0, 0, 0});
    content::add_document(contents, rules, {"rules.json", 0, 0, 0});
    if (!contents.faults.empty()) throw std::runtime_error(base::to_text(contents.faults.front()));
    return contents;
}

[[nodiscard]] inline const content::TradeData& data() {
    static const content::TradeData kept = content::TradeData::make(contents()).value();
    return kept;
}

/// What one part of the check finds once a further document has been put to the sample, one line each.
[[nodiscard]] inline std::vector<std::string> found(void (*check)(const content::Contents&, const content::TradeData&,
                                                                  base::Faults&),
                                                    const std::string& document) {
    auto with = contents();
    content::add_document(with, document, {"document.json", 0, 0, 0});
    base::Faults faults = with.faults;
    check(with, content::TradeData::make(with).value(), faults);
    std::vector<std::string> lines;
    for (const auto& fault : faults) lines.push_back(fault.what);
    return lines;
}

[[nodiscard]] inline bool tells(const std::vector<std::string>& lines, const std::string& part) {
    return std::ranges::any_of(lines, [&](const auto& line) { return line.find(part) != std::string::npos; });
}

}  // namespace sample_trade
