#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "base/fault.hpp"
#include "practice/shop/meeting.hpp"
#include "practice/shop/meeting_plan.hpp"
#include "practice/shop/meeting_review.hpp"

namespace report {

/// A meeting as a document of format greentag-meeting/1: all that is needed to print it again, and to enter and mark
/// its answers after the library has changed. docs/formats/meeting.md describes it member by member.
[[nodiscard]] nlohmann::ordered_json meeting_json(const practice::Meeting& meeting);

/// Reads such a document. `file` is named in faults.
/// Errors, all at once, each with its line: broken JSON, another format, members missing or of a wrong kind, a form
/// that cannot be answered on paper, options without a right one, an order that does not fit the options, a sheet
/// number or learner that stands twice.
[[nodiscard]] base::Checked<practice::Meeting> read_meeting(std::string_view text, const std::string& file);

/// What `meeting plan --json` gives: asks in short, and what was told.
[[nodiscard]] nlohmann::ordered_json plan_json(const practice::MeetingPlan& plan);
[[nodiscard]] nlohmann::ordered_json review_json(const practice::Meeting& meeting,
                                                 const practice::MeetingReview& review);

}  // namespace report
