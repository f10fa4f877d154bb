#pragma once

#include <string>
#include <string_view>

#include "report/meeting/meeting_html.hpp"

namespace report {

inline constexpr std::string_view kMeetingAid =
    "Training aid. The adopted code, local amendments and the inspector decide.";

/// The element with its text escaped; `attributes` are ours and go in as they are.
[[nodiscard]] std::string element(std::string_view tag, std::string_view text, std::string_view attributes = "");

/// A whole document round a body that is HTML already.
[[nodiscard]] std::string document(const std::string& title, Paper paper, const std::string& body);

/// Shop, title and day, as the head of a page of the lead's.
[[nodiscard]] std::string lead_head(const practice::Meeting& meeting, const std::string& what);

}  // namespace report
