#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "memory/rehearsal/learner.hpp"
#include "memory/rehearsal/model_mind.hpp"
#include "memory/rehearsal/policy.hpp"

namespace memory::rehearsal {

/// Where the answers truly come from.
enum class Generator : std::uint8_t {
    trace,  ///< trace activation
    pools,  ///< multiscale leaky integrators
    model,  ///< the recall model itself, from `standings`
};

/// Where a rehearsal starts when nothing else is said; any date does.
[[nodiscard]] base::Instant first_midnight();

struct Plan {
    Generator generator = Generator::trace;
    Crowd crowd;
    /// Families and stakes of a real library, as many points as the crowd has; drawn from the crowd when absent.
    std::optional<Syllabus> syllabus;
    /// For Generator::model: where each point stands on the first day, for every learner alike.
    std::vector<Standing> standings;
    base::Instant start = first_midnight();  ///< midnight of the first day; not before the last answer of a standing
    std::size_t days = 60;                   ///< the exam is on the morning after the last of them
    double seconds_a_day = 480;              ///< of asking; a sitting ends with the answer that fills it
    double recalled_seconds = 10;            ///< that a recalled answer takes
    double failed_seconds = 25;              ///< that a failed one takes, its explanation read
    double day_off = 0;                      ///< chance that a day brings no sitting, in [0, 1)
    bool corrections = true;                 ///< a failed point is put once more in the same sitting
    std::size_t later_days = 30;             ///< after the exam, for what is kept of it
    base::Seed seed = 1;
    std::vector<NamedPolicy> policies;
    unsigned threads = 1;  ///< the result does not depend on it
};

/// What one policy achieved for one learner. Recall is the true chance, no sample.
struct Outcome {
    double recall = 0;           ///< mean over the points at the exam
    double weighted_recall = 0;  ///< the same, weighted by stakes
    double held = 0;             ///< number of points whose chance is .8 or better
    double later_recall = 0;     ///< mean over the points, later_days after the exam
    double asks = 0;             ///< corrections not counted
    double met = 0;              ///< number of points asked at least once
};

struct Estimate {
    double mean = 0;
    double se = 0;  ///< standard error of the mean; 0 for a single learner
};

/// One figure over the learners.
struct Measure {
    Estimate level;
    Estimate over_rotation;  ///< paired by learner; the first policy of a plan is the rotation
};

struct PolicyResult {
    std::string name;
    std::vector<Outcome> learners;
    Measure recall, weighted_recall, held, later_recall, asks, met;
};

/// Called after each learner and policy with how much is done of how much; from one thread at a time.
using Progress = std::function<void(std::size_t done, std::size_t all)>;

/// Plays every learner through every policy.
/// Takes   at least one policy, one learner, one point, one day; a syllabus, and for the model standings, of as many
///         points as the crowd has.
/// Gives   one result for each policy, in their order; the same for any number of threads.
[[nodiscard]] std::vector<PolicyResult> rehearse(const Plan& plan, const Progress& progress = {});

/// Mean over the sample and its standard error.
[[nodiscard]] Estimate estimate(const std::vector<double>& sample);

}  // namespace memory::rehearsal
