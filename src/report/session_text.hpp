#pragma once

#include <string>
#include <vector>

#include "practice/session.hpp"
#include "report/style.hpp"

namespace report {

// Screens of a session as lines of text, none wider than the page. Colour only ever repeats what words say.

[[nodiscard]] std::vector<std::string> opening_text(const practice::SessionFor& what,
                                                    const practice::Standing& standing, const Page& page);
/// `story` is shown with the first ask of a call only.
[[nodiscard]] std::vector<std::string> ask_text(const practice::Posed& posed, bool with_story, const Page& page);
[[nodiscard]] std::vector<std::string> outcome_text(const practice::Outcome& outcome, const Page& page);
[[nodiscard]] std::vector<std::string> summary_text(const practice::Summary& summary, const practice::SessionFor& what,
                                                    const Page& page);
/// "10 minutes, 5 asks and corrections".
[[nodiscard]] std::string limits_text(const practice::SessionPlan& plan);
/// Where to look, without giving the answer away.
[[nodiscard]] std::string look_hint(const content::Ask& ask);

}  // namespace report
