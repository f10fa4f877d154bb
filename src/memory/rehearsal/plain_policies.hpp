#pragma once

#include "memory/rehearsal/policy.hpp"

namespace memory::rehearsal {

/// Never asked first, then longest unasked: full coverage and the widest spacing that time allows.
class Rotation final : public Policy {
public:
    void score(const Desk& desk, std::span<double> scores) override;
};

/// Any point, by a new lot each day.
class AtRandom final : public Policy {
public:
    void score(const Desk& desk, std::span<double> scores) override;
};

/// Each family has its week, spread so that all have had theirs by the exam, and is gone over day after day; what is
/// left of a sitting goes to the weeks before, longest unasked first.
class WeeklyMassed final : public Policy {
public:
    void score(const Desk& desk, std::span<double> scores) override;
};

/// Review intensity proportional to the chance of failing, and to the root of the stakes.
/// Source  Tabibian et al. 2019, u = q^-1/2 (1 - m) (from memory); m is taken from our model at its priors, and with
///         time fixed by day the intensities become a ranking.
class OptimalIntensity final : public Policy {
public:
    void score(const Desk& desk, std::span<double> scores) override;
};

}  // namespace memory::rehearsal
