#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "trade/finding.hpp"
#include "trade/rules/book.hpp"

namespace report {

/// {"answer", "unit", "also", "articles", "unknown", "findings", "steps"}; the answer is null while facts are missing.
/// A size is text ("3/0") with its unit beside it.
[[nodiscard]] nlohmann::ordered_json finding_json(const trade::Finding& finding);

/// {"requires", "permits", "forbids", "exempt", "counts", "articles", "findings", "unknown"}: what the rules say.
/// Findings name every rule that applied and every exception, with the reason, and facts that contradict each other.
[[nodiscard]] nlohmann::ordered_json ruling_json(const trade::Ruling& ruling, const trade::Vocabulary& vocabulary);

/// The same ruling appended to `line` as the members of a JSON object, without its braces; for long batches.
void append_ruling(std::string& line, const trade::Ruling& ruling, const trade::Vocabulary& vocabulary);

/// A JSON string, quotes and escapes included, appended.
void append_json_text(std::string& line, std::string_view text);

}  // namespace report
