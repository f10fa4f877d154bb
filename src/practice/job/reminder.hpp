#pragma once

#include "practice/job/job.hpp"

namespace practice {

/// What of a job's points, heaviest first, goes on one page: their cautions, as many rules as there is room for, and
/// the mistakes behind wrong answers to their questions. Room is counted in characters, for a letter or A4 page in
/// large type.
[[nodiscard]] Reminder reminder_of(const JobSource& source, const std::vector<JobPoint>& points,
                                   trade::Edition edition);

/// Points for so much time, those that have a question under the edition, drawn by seed with their weights.
[[nodiscard]] std::vector<const content::Point*> drill_of(const std::vector<JobPoint>& points, trade::Edition edition,
                                                          std::chrono::seconds time, base::Seed seed);

/// Seconds that an answer likely takes, as sessions reckon before they know better.
inline constexpr std::chrono::seconds kDrillAsk{25};

}  // namespace practice
