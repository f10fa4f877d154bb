#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "content/ask.hpp"

namespace practice {

/// What an answer is worth, and what it shows.
struct Mark {
    double mark = 0.0;                  ///< 0..1
    std::vector<std::string> mistakes;  ///< ids of the named mistakes behind it, in the order met
    std::vector<std::string> notes;     ///< what was missing or in excess, in words
};

/// Marks what a learner typed.
/// Takes   letters ("b", "a c d", "bdac"), a number with or without its unit, a code reference in any customary
///         spelling, or a few words, as the form asks.
/// Gives   a mark; partly right for choose-all (right picks less wrong ones, over all right ones), order (share of
/// pairs
///         in the right order), article (half for a reference that stops early, a quarter for the right section with a
///         wrong subdivision) and recall (share of the ideas found).
/// Errors  text that is no answer to this form: says what would be one. Nothing is marked then.
[[nodiscard]] tl::expected<Mark, std::string> mark(const content::Ask& ask, std::string_view given);

/// What may be typed here, for a prompt: "a-d", "letters, such as ac", "a number in in3".
[[nodiscard]] std::string answer_hint(const content::Ask& ask);

}  // namespace practice
