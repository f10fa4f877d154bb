#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "base/ids.hpp"
#include "base/instant.hpp"
#include "content/outline.hpp"
#include "practice/exam/sitting.hpp"
#include "practice/mark.hpp"
#include "store/answer_log.hpp"

namespace practice {

/// What came of one section.
struct SectionScore {
    std::size_t section = 0;     ///< place in the outline
    std::size_t asked = 0;       ///< > 0
    std::size_t right = 0;       ///< marked memory::kRecalledFrom or better
    std::size_t unanswered = 0;  ///< no answer; they count as wrong
    std::size_t needed = 0;      ///< right answers for a green tag
    bool must_pass = false;      ///< the board asks that this section is passed on its own

    [[nodiscard]] bool green() const { return right >= needed; }
    /// Share right, 0..1.
    [[nodiscard]] double share() const { return static_cast<double>(right) / static_cast<double>(asked); }
};

/// A point answered wrong, or not at all, to be put right.
struct Correction {
    base::PointId point;
    std::size_t section = 0;        ///< place in the outline
    std::vector<std::size_t> asks;  ///< places in the paper, rising: those of the point that went wrong
    bool unanswered = false;        ///< all of them were left open
};

struct SittingResult {
    std::size_t asked = 0, right = 0, unanswered = 0;
    std::size_t needed = 0;  ///< right answers to pass
    bool out_of_time = false;
    std::vector<Mark> marks;              ///< in the order of the paper
    std::vector<SectionScore> sections;   ///< that were asked, the weakest first; equals in the order of the outline
    std::vector<Correction> corrections;  ///< by section in that order, then what can hurt most, then as asked

    /// Enough right, and every section that must be passed on its own is.
    [[nodiscard]] bool green() const;
};

/// Marks a sitting.
/// Takes   the outline its paper was put together from.
/// Gives   nothing while the sitting goes on. The exam's pass mark is content::right_to_pass of what was asked. A
///         section with a pass rule of its own is held to that; any other to the exam's share (pass_share_of), which
///         shows where it is weak and decides nothing.
[[nodiscard]] std::optional<SittingResult> result_of(const Sitting& sitting, const content::Outline& outline,
                                                     base::Instant now);

/// The answers of a sitting that is over, for the log, in the order of the paper; none while it goes on.
/// An ask without an answer gives no record: nothing was given, and lack of time is not lack of knowledge. Nothing in a
/// record hangs on when it is made, and its id follows from the sitting's and the ask's place: so
/// keeping them twice adds nothing.
[[nodiscard]] std::vector<store::AnswerRecord> answer_records(const Sitting& sitting, const base::Id128& device,
                                                              base::Instant now);

/// The id of the answer to an ask: made at the sitting's time, unlike for all asks of a sitting of up to 4096 asks.
/// Source  layout of a version 7 UUID, RFC 9562 section 5.7: place in rand_a, a hash of sitting and place in rand_b.
[[nodiscard]] base::Id128 answer_id(const base::Id128& sitting, std::size_t place);

}  // namespace practice
