#pragma once

#include <string>
#include <vector>

#include "practice/job/job.hpp"
#include "report/style.hpp"

namespace report {

/// The reminder of a job on the terminal: what found nothing, cautions, what governs, mistakes to avoid. No line is
/// wider than the page.
[[nodiscard]] std::vector<std::string> job_text(const practice::JobBrief& brief, const Page& page);

/// The points that were found, the weightiest first, each with the reasons, and how many were left off.
[[nodiscard]] std::vector<std::string> job_points_text(const practice::JobBrief& brief, const Page& page);

/// What the page is headed with: the titles of the jobs, or the words as typed.
[[nodiscard]] std::string job_heading(const practice::JobBrief& brief);

}  // namespace report
