#pragma once

#include <vector>

#include "base/instant.hpp"
#include "practice/look_up.hpp"
#include "practice/shop/progress.hpp"
#include "report/exam/readiness_page.hpp"
#include "store/crew.hpp"

namespace report {

/// What a learner's page is written from; refers to things that outlive it, all of them the learner's own.
struct LearnerPage {
    const store::Learner& learner;
    const practice::Progress& progress;
    base::Instant now{};
    const ReadinessPage* readiness = nullptr;        ///< where it was asked for
    std::vector<practice::LookUpFamily> look_ups{};  ///< with an open book, the slowest article first
};

}  // namespace report
