#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "base/instant.hpp"
#include "memory/features.hpp"
#include "memory/state.hpp"

namespace memory {

/// One answer as the fit sees it: who, what and how it went, by number.
struct FitAnswer {
    std::uint32_t learner = 0;  ///< below the number of learners
    std::uint32_t point = 0;    ///< below the number of points
    std::uint8_t form = 0;      ///< below kForms: how the point was asked
    Sure sure = Sure::fairly;
    float mark = 0;            ///< 0..1
    bool held_back = false;    ///< kept from a fit, to see how well it is foreseen
    bool told = false;         ///< the answer was shown and nothing asked: counts like a failed answer, but is none
    std::int64_t took_ms = 0;  ///< 0 when it was not taken
    base::Instant at{};
};

/// One scored answer: what stood when it was asked, and whether it was recalled.
struct Observation {
    std::array<float, kActivationFeatures> activation{};
    std::array<float, kDecayFeatures> decay{};
    float delay = 0;  ///< how far that time wears recall down; 0 for a first answer
    float days = 0;   ///< that time itself
    std::uint16_t recalled_before = 0, failed_before = 0;  ///< held at their largest
    std::uint8_t form = 0;
    bool recalled = false;
    bool held_back = false;

    [[nodiscard]] bool first() const { return recalled_before + failed_before == 0; }
};

/// A run of neighbouring observations of one learner on one point.
struct Pair {
    std::uint32_t learner = 0;
    std::uint32_t point = 0;
    std::uint32_t branch = 0;  ///< which learner-and-family this is
    std::size_t begin = 0, end = 0;
};

/// The answers of a crew, folded into observations that depend on no parameter: a fit reads them as often as it needs.
struct Observations {
    std::vector<Observation> rows;  ///< by learner, point and time
    std::vector<Pair> pairs;        ///< in the order of rows
    std::size_t learners = 0, points = 0, families = 0;
    std::vector<std::uint32_t> family_of_point;    ///< one for each point
    std::vector<std::uint32_t> branch_of_learner;  ///< families * learner + family -> branch, or kNoBranch
    std::size_t branches = 0;                      ///< learner-and-family pairs that have answers

    static constexpr std::uint32_t kNoBranch = 0xffffffffU;
    [[nodiscard]] std::uint32_t branch(std::size_t learner, std::size_t family) const {
        return branch_of_learner[learner * families + family];
    }
};

/// Folds answers into observations.
/// Takes   answers in any order; learners, points and forms below the numbers given; family_of_point one entry a point.
///         Answers with the same learner, point and moment count as one: the first of them in the given order is kept
///         (the log allows no two, but outside data may hold them twice).
/// Gives   one observation for each answer kept that was not merely told, with the state that those before it had left.
[[nodiscard]] Observations observe(std::vector<FitAnswer> answers, std::size_t learners,
                                   std::vector<std::uint32_t> family_of_point);

/// The observations that are, or are not, held back. Learners, points, families and branches keep their numbers, so
/// that what was fitted to one part can be held against the other.
[[nodiscard]] Observations part(const Observations& all, bool held_back);

/// Marks the last answers of each learner in time as held back.
/// Takes   share in [0, 1): of a learner's n answers the last floor(share * n) are held back.
void hold_back_last(std::vector<FitAnswer>& answers, double share);

}  // namespace memory
