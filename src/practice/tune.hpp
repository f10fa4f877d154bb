#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "memory/fit/assessment.hpp"
#include "memory/fit/fit.hpp"
#include "practice/crew_log.hpp"
#include "store/fit_record.hpp"

namespace practice {

/// What became of a fit.
enum class Verdict : std::uint8_t {
    taken,    ///< it foresaw held-back answers at least as well as the shipped parameters do
    too_few,  ///< there are not enough answers to tell
    worse     ///< the shipped parameters foresaw them better
};
[[nodiscard]] std::string_view to_text(Verdict verdict);

/// Of each learner's answers, how many of the last are held back to judge a fit by.
inline constexpr double kHeldBackShare = 0.2;
/// Fewer held-back answers than this tell nothing.
inline constexpr std::size_t kFewestHeldBack = 20;

struct Tuning {
    Verdict verdict = Verdict::too_few;
    memory::Assessment assessment;           ///< of the trial on held-back answers
    memory::Fitted fitted;                   ///< to all answers; the priors' means when there are too few
    memory::Shared sd{};                     ///< of the shared parameters, as far as the answers leave them uncertain
    std::vector<store::FittedValue> values;  ///< what to keep; empty unless taken
    store::FitRun run;
};

/// Fits the recall model to a crew's answers, after a trial on the last of them.
[[nodiscard]] Tuning tune(const CrewLog& log, base::Instant now);

/// Whether the log has grown enough since the latest run for another: by a tenth, and by fifty answers at least.
[[nodiscard]] bool tuning_due(std::int64_t answers, const std::optional<store::FitRun>& latest);

}  // namespace practice
