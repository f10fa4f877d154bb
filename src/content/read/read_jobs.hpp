#pragma once

#include <string_view>
#include <vector>

#include "base/located_json.hpp"
#include "content/job.hpp"

namespace content {

inline constexpr std::string_view kJobsFormat = "greentag-jobs/1";

/// Jobs over a whole document. Noted: a job without words, words that two jobs share, a reference that is none.
[[nodiscard]] std::vector<Job> read_jobs(const base::Reader& document);

}  // namespace content
