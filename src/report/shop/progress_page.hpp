#pragma once

#include "base/instant.hpp"
#include "practice/shop/progress.hpp"
#include "report/exam/readiness_page.hpp"
#include "store/crew.hpp"

namespace report {

/// What a learner's page is written from; refers to things that outlive it, all of them the learner's own.
struct LearnerPage {
    const store::Learner& learner;
    const practice::Progress& progress;
    base::Instant now{};
    const ReadinessPage* readiness = nullptr;  ///< where an exam is ahead and it was worked out
};

}  // namespace report
