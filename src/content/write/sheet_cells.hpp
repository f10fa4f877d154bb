#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace content {

inline constexpr int kMostWrong = 6;  ///< wrong answers that a row has columns for

/// "a | b | c" taken apart and put together; parts are trimmed, empty ones dropped.
[[nodiscard]] std::vector<std::string> parts_of(std::string_view cell, char at = '|');
[[nodiscard]] std::string joined(const std::vector<std::string>& parts, std::string_view with = " | ");

/// A cell for a mistake: "id", "id: explanation", or only an explanation, whose first words make the id.
struct MistakeCell {
    std::string id, line;  ///< line: empty when the cell has none
};
[[nodiscard]] MistakeCell mistake_of(std::string_view cell);

/// Words as an id: "Four-way at the end" becomes "four-way-at-the-end"; at most so many words.
[[nodiscard]] std::string id_of(std::string_view words, std::size_t most_words = 4);

/// Without the apostrophe that keeps a spreadsheet from taking a text for a formula.
[[nodiscard]] std::string unguarded(std::string_view cell);

}  // namespace content
