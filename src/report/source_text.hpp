#pragma once

#include <string>

#include "content/ask.hpp"

namespace report {

/// Where a statement comes from, with the word that names it: what the trade does is not put into the code's
/// mouth.
struct SourceText {
    std::string label;  ///< "Code" or "Trade"
    std::string text;   ///< "210.52(A)(1) (2023 edition)", "practice of the trade, filed under 110.3"
};
[[nodiscard]] SourceText source_text(const content::Version& version, trade::Edition edition);
[[nodiscard]] inline SourceText source_text(const content::Ask& ask) {
    return source_text(ask.version, ask.edition);
}

/// What a statement rests on, in words.
[[nodiscard]] std::string basis_text(const trade::Basis& basis);

}  // namespace report
