#pragma once

#include "memory/rehearsal/policy.hpp"

namespace memory::rehearsal {

/// Fixed expanding intervals, as is common practice: 1, 3, 7, 14, 30, 60 days after one, two, ... right answers
/// running, back to one after a wrong one. What is due comes first, longest overdue at the front; new points when
/// nothing is.
class ExpandingIntervals final : public Policy {
public:
    void score(const Desk& desk, std::span<double> scores) override;
    void answered(const Told& told) override;

private:
    std::vector<std::size_t> streak_;
};

/// A point is due once its recall, by our model at its priors, has fallen to .9; longest due first; new points when
/// nothing is.
class MostOverdue final : public Policy {
public:
    void score(const Desk& desk, std::span<double> scores) override;
    void answered(const Told& told) override;

private:
    struct Due {
        base::Instant at{};
        bool known = false;  ///< not since the last answer
    };
    std::vector<Due> due_;
};

}  // namespace memory::rehearsal
