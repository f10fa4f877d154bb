#pragma once

#include <array>
#include <string>
#include <string_view>

namespace report {

/// A whole document, HTML 5, that needs nothing beside it and runs nothing: style within, and a policy that lets no
/// browser fetch anything.
/// Takes   the title as plain text, the body as markup.
[[nodiscard]] std::string progress_document(std::string_view title, std::string_view body);

/// Colours that carry text, with what they stand on; tests hold each pair to a contrast of 7 or more (WCAG 2.2, 1.4.6).
struct InkPair {
    std::string_view name, ink, paper;
};
inline constexpr std::array<InkPair, 8> kProgressInks{{
    {"text", "#141414", "#ffffff"},
    {"text on the door", "#141414", "#e4e6e4"},
    {"closed", "#14532d", "#ffffff"},
    {"due", "#5f3b00", "#ffffff"},
    {"tripped", "#8c0014", "#ffffff"},
    {"spare", "#444444", "#ffffff"},
    {"faint", "#404040", "#ffffff"},
    {"link", "#0a3d78", "#ffffff"},
}};

}  // namespace report
