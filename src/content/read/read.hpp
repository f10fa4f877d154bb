#pragma once

#include <string>

#include "base/located_json.hpp"
#include "content/deck.hpp"
#include "trade/table.hpp"

namespace content {

inline constexpr std::string_view kDeckFormat = "greentag-deck/1";
inline constexpr std::string_view kScenarioFormat = "greentag-scenarios/1";
inline constexpr std::string_view kTableFormat = "greentag-table/1";
inline constexpr std::string_view kJurisdictionFormat = "greentag-jurisdictions/1";
inline constexpr std::string_view kChangesFormat = "greentag-changes/1";

// Each takes a reader over the whole document, notes every fault through it, and gives what could be read.
// docs/formats/ holds the schema of each format.
[[nodiscard]] Deck read_deck(const base::Reader& document);
[[nodiscard]] ScenarioFamily read_scenarios(const base::Reader& document);
[[nodiscard]] trade::Table read_table(const base::Reader& document);
[[nodiscard]] std::vector<Jurisdiction> read_jurisdictions(const base::Reader& document);
[[nodiscard]] std::vector<DeclaredChange> read_changes(const base::Reader& document);

/// One point of a deck; `deck` and `topic` come from the deck's head.
[[nodiscard]] Point read_point(const base::Reader& reader, const std::string& deck, const std::string& topic);
[[nodiscard]] Scenario read_scenario(const base::Reader& reader, const std::string& family);
[[nodiscard]] Mistakes read_mistakes(const base::Reader& document);

}  // namespace content
