#pragma once

#include "memory/rehearsal/policy.hpp"
#include "memory/schedule/worth.hpp"

namespace memory::rehearsal {

/// The program's own rule: schedule::worth, with the asks still to come judged
/// by the pace so far.
class OwnRule final : public Policy {
public:
    void score(const Desk& desk, std::span<double> scores) override;
    void answered(std::size_t point, bool recalled, bool correction) override;

private:
    [[nodiscard]] double asks_left(const Desk& desk) const;

    std::vector<schedule::Candidate> candidates_;
    double asks_ = 0;
};

}  // namespace memory::rehearsal
