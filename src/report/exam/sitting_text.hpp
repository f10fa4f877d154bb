#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/instant.hpp"
#include "content/outline.hpp"
#include "practice/exam/result.hpp"
#include "practice/exam/sitting.hpp"
#include "report/style.hpp"

namespace report {

// Screens of a mock exam as lines of text, none wider than the page. Colour only ever repeats what words say. Nothing
// but result_text tells whether an answer is right.

/// "1 h 23 min", "12 min", "45 s"; whole units, rounded down, so that no more is promised than there is.
[[nodiscard]] std::string time_text(base::Milliseconds left);

/// Before the clock starts: what will be asked, for how long, what passes, and what may be typed.
[[nodiscard]] std::vector<std::string> exam_opening_text(const practice::SittingFor& what,
                                                         const content::Outline& outline, const Page& page);

/// Time left, and how many are answered and flagged.
[[nodiscard]] std::vector<std::string> exam_head_text(const practice::Sitting& sitting, base::Instant now,
                                                      const Page& page);

/// An ask below its head, with the answer it has so far and its flag.
[[nodiscard]] std::vector<std::string> exam_ask_text(const practice::Sitting& sitting, const content::Outline& outline,
                                                     std::size_t place, base::Instant now, const Page& page);

/// All asks by number, section by section: "-" open, "A" answered, "F" flagged, "AF" both.
[[nodiscard]] std::vector<std::string> exam_overview_text(const practice::Sitting& sitting,
                                                          const content::Outline& outline, base::Instant now,
                                                          const Page& page);

/// The tag, the sections with theirs, and the corrections, the weakest section first.
[[nodiscard]] std::vector<std::string> exam_result_text(const practice::Sitting& sitting,
                                                        const content::Outline& outline,
                                                        const practice::SittingResult& result, const Page& page);

/// What was asked once the sitting is over: every ask that went wrong with the right answer and why, the corrections'
/// order.
[[nodiscard]] std::vector<std::string> exam_corrections_text(const practice::Sitting& sitting,
                                                             const practice::SittingResult& result, const Page& page);

}  // namespace report
