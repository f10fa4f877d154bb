#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/ids.hpp"
#include "content/outline.hpp"

namespace practice {

/// What a section of an exam asks, and of which points.
struct ExamPart {
    const content::OutlineSection* section = nullptr;
    std::size_t asked = 0;              ///< at the exam's full length
    std::vector<base::PointId> points;  ///< verified in the edition, sorted
    std::size_t unverified = 0;         ///< points that stay out until they are
};

/// The exam at its full length, part by part in the order of the outline.
/// Takes an outline that library check finds no fault with, and the traits of all points in an edition.
[[nodiscard]] std::vector<ExamPart> parts_of(const content::Outline& outline,
                                             const std::vector<content::PointTraits>& points);

/// Questions that parts with points ask, and those asked of parts without: nothing can be said of the latter.
struct Covered {
    std::size_t asked = 0, not_covered = 0;
};
[[nodiscard]] Covered covered(const std::vector<ExamPart>& parts);

/// Share of the questions that has to be right to pass an exam of that many; the same share is asked of a part of it.
[[nodiscard]] double pass_share_of(const content::Outline& outline, std::size_t asked);

}  // namespace practice
