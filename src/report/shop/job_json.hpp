#pragma once

#include <nlohmann/json.hpp>

#include "practice/job/job.hpp"

namespace report {

/// What `job --json` gives beside "ok": the jobs named, the points with their reasons and weights, the drill, the
/// reminder, and what found nothing.
[[nodiscard]] nlohmann::ordered_json job_json(const practice::JobBrief& brief);

}  // namespace report
