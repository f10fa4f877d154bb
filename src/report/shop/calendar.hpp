#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/instant.hpp"
#include "practice/shop/week_plan.hpp"

namespace report {

/// How a plan goes into a calendar.
struct CalendarFor {
    std::string shop;       ///< what tells this shop's events from others'; part of every UID, by hash
    std::string name;       ///< of the calendar, such as "Article of the week"
    base::Instant stamp{};  ///< when this text is made
    unsigned revision = 0;  ///< to be raised when a plan that was given out has changed
    std::optional<std::chrono::minutes> alarm;  ///< from midnight of the day: 420 is 7 in the morning, -540 is 3 in the
                                                ///< afternoon of the day before
    std::map<std::chrono::sys_days, std::vector<std::string>> notes;  ///< more lines for the week that meets that day
};

/// The plan as an iCalendar stream: an all-day event for each week that is not off.
/// Gives   nothing when no week has an article, as a stream needs a component; else text with CRLF line ends, folded at
/// 75 octets and never inside a character. The UID of a week follows from
///         the shop and the Monday of the week alone, so that a calendar that took an earlier plan changes the event
///         instead of adding one. An event of a week that has since become off has to be taken out by hand. Bytes that
///         are not UTF-8 are shown as U+FFFD, control characters are left out.
/// Source  RFC 5545: sections 3.1 (lines, folding), 3.3.4 (DATE), 3.3.6 (DURATION), 3.3.11 (escaping of TEXT), 3.6.1
///         (VEVENT), 3.6.6 (VALARM), 3.7.3 and 3.7.4 (PRODID, VERSION), 3.8.4.7 (UID), 3.8.7.2 (DTSTAMP); RFC 7986
///         section 5.1 (NAME).
[[nodiscard]] std::string calendar_text(const practice::WeekPlan& plan, const CalendarFor& what);

/// A content line cut into lines of at most 75 octets, each ended by CRLF; all but the first begin with a space.
[[nodiscard]] std::string folded(std::string_view line);

/// Text as a value of type TEXT.
[[nodiscard]] std::string escaped_text(std::string_view text);

}  // namespace report
