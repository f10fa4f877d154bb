#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

#include "base/instant.hpp"
#include "base/random.hpp"
#include "content/library.hpp"
#include "memory/fit/belief.hpp"
#include "memory/score/exam.hpp"
#include "practice/crew_log.hpp"
#include "practice/exam_parts.hpp"
#include "store/answer_log.hpp"

namespace practice {

/// How long one answer takes a learner, its explanation read.
struct Pace {
    double recalled_seconds = 10, failed_seconds = 25;
    bool measured = false;  ///< false: assumed, as too few answers were timed
};

/// Medians of the learner's own times, with time to read added (5 s, 15 s after a failed one; chosen).
[[nodiscard]] Pace pace_of(const CrewLog& log, std::uint32_t learner);

/// What readiness is asked for.
struct ReadinessFor {
    std::vector<ExamPart> parts;
    double pass_share = 0.7;  ///< of the questions asked
    trade::Edition edition = trade::Edition::e2023;
    std::uint32_t learner = 0;  ///< in the log
    base::Instant now{};
    base::Instant exam{};  ///< after now
    std::vector<int> minutes{5, 10, 15, 20, 30};
    base::Seed seed = 1;
    unsigned threads = 1;
};

/// One part of the exam.
struct PartReadiness {
    std::size_t part = 0;      ///< place among the parts
    std::size_t met = 0;       ///< of its points, answered at least once
    double share_right = 0;    ///< expected share of its questions right, sat today
    double low = 0, high = 0;  ///< 5 and 95 % quantile of that share over what is believed
    double hour_brings = 0;    ///< questions more right on the exam day for an hour spent on this part alone
    double hour_passes = 0;    ///< and how much likelier that makes passing
};

struct PlanReadiness {
    int minutes = 0;  ///< a day; 0: nothing is studied any more
    memory::ExamPrediction on_the_day;
};

struct Readiness {
    std::size_t answers = 0;          ///< of this learner
    std::size_t points = 0, met = 0;  ///< of the exam's points
    Covered covered;
    std::size_t pass_right = 0;  ///< of the covered questions
    std::size_t days = 0;        ///< of study before the exam, today not counted
    Pace pace;
    memory::ExamPrediction today;
    std::vector<PlanReadiness> plans;  ///< nothing more first, then by minutes
    std::vector<PartReadiness> parts;  ///< of those with points, the weakest first

    /// Too few answers to tell this learner from any other.
    [[nodiscard]] bool too_little() const;
};

/// Fewer answers than this tell next to nothing of one learner.
inline constexpr std::size_t kFewestAnswers = 30;

/// What an exam taken today or on its day would bring, as far as the recall model is right.
/// Takes   a belief over the log's learners and points, the learner's states, at least one part with points.
///         `progress` is called with the share done, 0 to 1.
/// Gives   the same for the same seed and any number of threads.
[[nodiscard]] Readiness readiness(const content::Index& index, const CrewLog& log, const memory::Belief& belief,
                                  const store::RecallStates& states, const ReadinessFor& what,
                                  const std::function<void(double)>& progress = {});

}  // namespace practice
