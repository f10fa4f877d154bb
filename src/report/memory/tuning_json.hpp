#pragma once

#include <nlohmann/json_fwd.hpp>

#include "memory/fit/assessment.hpp"
#include "practice/tune.hpp"

namespace report {

/// {"learned_from", "held_back", "fitted", "shipped", "constant", "half_life", "calibration"}: each way with log_loss,
/// brier and area; all but the fit also with "beyond", its log loss less that of the fit, and the standard error.
[[nodiscard]] nlohmann::ordered_json assessment_json(const memory::Assessment& assessment);

/// The whole of a run: answers, verdict, assessment, parameters with prior, value and standard deviation.
[[nodiscard]] nlohmann::ordered_json tuning_json(const practice::CrewLog& log, const practice::Tuning& tuning);

}  // namespace report
