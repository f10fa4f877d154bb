#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "cli/context.hpp"
#include "content/outline.hpp"
#include "practice/readiness.hpp"

namespace cli {

/// The morning of a learner's exam: `said`, else the learner's day where it is ahead, else sixty days ahead.
/// Throws Failure (usage) for a day that is said and not after now, or further than two years.
[[nodiscard]] base::Instant exam_morning(const std::optional<base::Instant>& said, const store::Learner& learner,
                                         base::Instant now);

/// Readiness of learners for one exam, from one reading of the log.
class ReadinessMaker {
public:
    ReadinessMaker(const Context& context, const content::Library& library, store::Store& store,
                   const content::Outline& outline);

    struct Made {
        practice::ReadinessFor asked;
        practice::Readiness found;
    };
    /// Takes   minutes a day to look ahead with; may be empty.
    /// Throws Failure (unavailable) when the library has no verified point for the exam in the learner's edition.
    [[nodiscard]] Made of(const store::Learner& learner, base::Instant exam, const std::vector<int>& minutes,
                          const std::function<void(double)>& progress = {});

private:
    const Context* context_;
    const content::Library* library_;
    store::Store* store_;
    const content::Outline* outline_;
    practice::CrewLogReader log_;
    base::Seed seed_;
    unsigned threads_;
    std::optional<memory::Belief> belief_;  ///< worked out when first needed
};

}  // namespace cli
