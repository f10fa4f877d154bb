#pragma once

#include <string>
#include <vector>

#include "practice/job/job.hpp"

namespace report {

/// Who and when, as it stands under the heading; either may be empty.
struct JobSheetFor {
    std::string day;                    ///< "2026-03-02"
    std::string jurisdiction;           ///< its name in words
    std::vector<std::string> who_goes;  ///< names
};

/// The reminder of a job as one self-contained HTML page to be printed on letter or A4 and read in a van: large type,
/// no scripts, nothing loaded from elsewhere, contrast 7:1 at least (WCAG 2.1, 1.4.6), state told in words. Meant for
/// one sheet: see reminder.cpp for the room. In order: cautions, what governs and what it says in our words, mistakes
/// to avoid.
[[nodiscard]] std::string job_html(const practice::JobBrief& brief, const JobSheetFor& sheet);

}  // namespace report
