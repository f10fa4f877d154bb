#pragma once

#include "content/outline.hpp"
#include "practice/readiness.hpp"
#include "store/crew.hpp"

namespace report {

/// What a report on readiness is written from; refers to things that outlive it.
struct ReadinessPage {
    const content::Outline& outline;
    const store::Learner& learner;
    const practice::ReadinessFor& asked;
    const practice::Readiness& found;
};

}  // namespace report
