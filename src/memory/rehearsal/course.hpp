#pragma once

#include <memory>
#include <vector>

#include "memory/rehearsal/rehearse.hpp"

namespace memory::rehearsal {

[[nodiscard]] std::unique_ptr<Mind> make_mind(const Plan& plan, const Learner& learner);

/// True chance of each point at a moment, after one learner has studied under one policy on every day of the plan.
/// Takes   a moment not before the last sitting.
[[nodiscard]] std::vector<double> chances_at(const Plan& plan, const Syllabus& syllabus, const Learner& learner,
                                             const NamedPolicy& policy, base::Instant when);

/// One learner under one policy, from the first day to the exam.
[[nodiscard]] Outcome play(const Plan& plan, const Syllabus& syllabus, const Learner& learner,
                           const NamedPolicy& policy);

}  // namespace memory::rehearsal
