#pragma once

#include <array>
#include <vector>

#include "memory/rehearsal/learner.hpp"
#include "memory/rehearsal/mind.hpp"

namespace memory::rehearsal {

inline constexpr std::size_t kPools = 7;
using Pools = std::array<double, kPools>;

/// What is left of each pool, the fastest first, after days >= 0. Time constants run in geometric ratio.
[[nodiscard]] Pools leaked(const Pools& pools, double days);

/// The pools right after one more answer: each rises by a share of what it and the faster ones together do not hold, so
/// that slow pools gain most once the fast ones have run dry: the spacing effect. Nothing rises above 1.
[[nodiscard]] Pools refilled(const Pools& pools, bool recalled);

/// Mean over the pools, in [0, 1].
[[nodiscard]] double strength(const Pools& pools);

/// Multiscale leaky integrators: a memory that is not our recall model.
/// Source  after Mozer et al. 2009 (abstract seen; equations from memory). Number of pools, time constants, steps and
///         the logistic from strength to recall are chosen so that recall after a few spaced answers is plausible: one
///         answer is mostly lost after ten days, four answers ten days apart hold for about a month.
class PoolMind final : public Mind {
public:
    explicit PoolMind(const Learner& learner);

    [[nodiscard]] double chance(std::size_t point, base::Instant at) const override;
    void answered(std::size_t point, base::Instant at, bool recalled) override;

private:
    struct Held {
        Pools pools{};
        base::Instant at;
        double ease = 0;
    };
    std::vector<Held> held_;
};

}  // namespace memory::rehearsal
