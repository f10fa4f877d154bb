#pragma once

#include <string>
#include <vector>

#include "practice/shop/meeting_plan.hpp"
#include "practice/shop/meeting_review.hpp"
#include "report/style.hpp"

namespace report {

/// Whether a review tells who was wrong. A review for the wall of the shop does not.
enum class Names { shown, hidden };

// A meeting in the terminal, as lines of text. Colour only ever repeats what words say.

[[nodiscard]] std::vector<std::string> plan_text(const practice::MeetingPlan& plan, const Page& page);
[[nodiscard]] std::vector<std::string> review_text(const practice::Meeting& meeting,
                                                   const practice::MeetingReview& review, Names names,
                                                   const Page& page);

/// "2026-03-02, 2023 edition".
[[nodiscard]] std::string day_and_edition(const practice::Meeting& meeting);
/// How an ask went, for the text and the page alike: "3 of 8 right, 1 blank".
[[nodiscard]] std::string how_it_went(const practice::AskReview& ask);
/// The right answer without letters, which differ from sheet to sheet.
[[nodiscard]] std::string answer_in_words(const content::Ask& ask);
/// A CSV to be filled in with a spreadsheet and entered: sheet, name, q1, q2, ...
[[nodiscard]] std::string entry_form_csv(const practice::Meeting& meeting);

}  // namespace report
