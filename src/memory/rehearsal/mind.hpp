#pragma once

#include <cstddef>

#include "base/instant.hpp"

namespace memory::rehearsal {

/// One simulated learner's memory of all points: where answers truly come from in a rehearsal. No policy sees it.
class Mind {
public:
    Mind() = default;
    Mind(const Mind&) = delete;
    Mind& operator=(const Mind&) = delete;
    virtual ~Mind() = default;

    /// True chance of a right answer, in [0, 1]. Takes a moment not before the last answer of any point.
    [[nodiscard]] virtual double chance(std::size_t point, base::Instant at) const = 0;

    /// The point was asked and the right answer shown. Takes moments that never go back.
    virtual void answered(std::size_t point, base::Instant at, bool recalled) = 0;
};

}  // namespace memory::rehearsal
