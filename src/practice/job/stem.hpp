#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace practice {

/// The part of an English word that its plural, -ing and -ed forms share: "kitchens" -> "kitchen", "wiring" -> "wir",
/// "wire" -> "wir". A few rules of our own, made to let the words of a job meet the words of points; not a linguist's
/// stem, and never shown. Takes lower-case ASCII letters and digits; anything else is left as it is.
[[nodiscard]] std::string stem(std::string_view word);

/// The stems of a text's words in order, hyphens parting words; without the little words that say nothing of a job
/// ("the", "of", "install").
[[nodiscard]] std::vector<std::string> stems_of(std::string_view text);

}  // namespace practice
