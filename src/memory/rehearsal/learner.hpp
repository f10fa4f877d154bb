#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "base/instant.hpp"
#include "base/random.hpp"

namespace memory::rehearsal {

/// What of a point was there before the first day.
struct Known {
    double held = 0;    ///< 0: nothing; up to 1: as much as this way of knowing has
    bool well = false;  ///< from years of work, and lasting; else met now and then
};

/// How the crowd of simulated learners is drawn.
struct Crowd {
    std::size_t learners = 40;
    std::size_t points = 200;
    std::size_t family_size = 20;  ///< >= 1; neighbouring points belong together
    double share_known = 0.4;      ///< of the points of a learner, in [0, 1]
    /// Known well and by whole families, as somebody knows one trade and not another; else scattered and partly known.
    bool by_family = false;
    double learner_sd = 0.8;      ///< of log odds; the shipped prior of the recall model
    double point_sd = 0.9;        ///< the same
    std::vector<double> weights;  ///< stakes, dealt to the points in equal numbers; empty: all 1
};

/// What is the same for all learners.
struct Syllabus {
    std::vector<std::uint32_t> family;  ///< of each point
    std::vector<double> weight;         ///< > 0
    std::vector<double> ease;           ///< added to the log odds
};

/// One simulated learner.
struct Learner {
    base::Seed seed = 0;  ///< everything that happens to this learner comes from it
    base::Instant start;  ///< midnight of the first day
    double ease = 0;      ///< added to the log odds
    std::vector<double> point_ease;
    std::vector<Known> known;
};

[[nodiscard]] Syllabus make_syllabus(const Crowd& crowd, base::Seed seed);

/// Takes   the number of the learner, any; the same seed and number give the same learner, whoever else is in the
///         crowd.
[[nodiscard]] Learner make_learner(const Crowd& crowd, const Syllabus& syllabus, base::Seed seed, std::size_t number,
                                   base::Instant start);

/// The draw that decides an answer: in [0, 1), recalled when below the true chance.
/// Gives   one value for each learner, point, count of earlier asks, and whether it is the correction that follows: the
///         same whatever policy asks, so that policies differ by what they ask and not by luck.
[[nodiscard]] double outcome_draw(base::Seed learner, std::size_t point, std::size_t asked_before, bool correction);

}  // namespace memory::rehearsal
