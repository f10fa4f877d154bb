#pragma once

#include <string>
#include <string_view>

#include "practice/shop/meeting.hpp"
#include "practice/shop/meeting_review.hpp"
#include "report/meeting/meeting_text.hpp"

namespace report {

enum class Paper { letter, a4 };

// Pages of a meeting to be printed: whole HTML documents without scripts and without anything from elsewhere, black on
// white, no type under 12 points. All text is escaped.

/// One sheet of paper for each learner, every one beginning a new page. Its front holds the strip of boxes for all
/// asks; asks that do not fit go on its back, where name and sheet number stand again (see sides_of).
[[nodiscard]] std::string sheets_html(const practice::Meeting& meeting, Paper paper);

/// For the lead: right answers by sheet, then each ask with its answer, the reason, the code reference, its basis, and
/// what each mistake says.
[[nodiscard]] std::string key_html(const practice::Meeting& meeting, Paper paper);

[[nodiscard]] std::string review_html(const practice::Meeting& meeting, const practice::MeetingReview& review,
                                      Names names, Paper paper);

/// Text as HTML: & < > " ' as references, control characters left out.
[[nodiscard]] std::string html_text(std::string_view text);

}  // namespace report
