#pragma once

#include <string>
#include <vector>

#include "base/located_json.hpp"
#include "trade/rules/rule.hpp"
#include "trade/rules/vocabulary.hpp"

namespace content {

inline constexpr std::string_view kFactsFormat = "greentag-facts/1";
inline constexpr std::string_view kRulesFormat = "greentag-rules/1";

/// The vocabulary of the protection rules out of decks/rules/facts.json.
[[nodiscard]] trade::Vocabulary read_vocabulary(const base::Reader& document);

/// The rules of one file. Names of facts and results are checked later, against the vocabulary.
[[nodiscard]] std::vector<trade::Rule> read_rules(const base::Reader& document);

/// One rule; `topic` is the file's.
[[nodiscard]] trade::Rule read_rule(const base::Reader& reader, const std::string& topic);

/// A condition: facts by name, "any", "all", "none".
[[nodiscard]] trade::When read_when(const base::Reader& reader);

/// The amendments of a jurisdiction.
[[nodiscard]] trade::Amendment read_amendment(const base::Reader& reader);

}  // namespace content
