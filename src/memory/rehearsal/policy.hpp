#pragma once

#include <functional>
#include <memory>
#include <span>
#include <string_view>
#include <vector>

#include "base/instant.hpp"
#include "base/random.hpp"
#include "memory/state.hpp"

namespace memory::rehearsal {

/// What lies before a policy at the start of a sitting: no more than the program would know.
struct Desk {
    base::Instant start;    ///< midnight of the first day
    base::Instant now;      ///< when the sitting begins
    base::Instant horizon;  ///< the exam
    std::size_t day = 0, days = 1;
    double seconds_a_day = 0;
    base::Seed seed = 0;  ///< of the learner, for policies that draw lots
    std::span<const RecallState> states;
    std::span<const std::uint32_t> families;
    std::span<const double> weights;
};

/// An answer as a policy hears of it.
struct Told {
    std::size_t point = 0;
    base::Instant at;
    bool recalled = false;
    bool correction = false;
};

/// Decides what is asked. One object serves one learner, from the first day to the last.
class Policy {
public:
    Policy() = default;
    Policy(const Policy&) = delete;
    Policy& operator=(const Policy&) = delete;
    virtual ~Policy() = default;

    /// Ranks the points for a sitting. Takes `scores`, one for each point, all 0. Gives higher for sooner; a point left
    /// at 0 or below is not asked in this sitting; equal scores go by lot.
    virtual void score(const Desk& desk, std::span<double> scores) = 0;

    /// Tells of an answer, corrections included, in the order they are given.
    virtual void answered(const Told& /*told*/) {}
};

struct NamedPolicy {
    std::string_view name;
    std::string_view does;
    std::function<std::unique_ptr<Policy>()> make;
};

/// Every policy the program can rehearse. The first is the rotation that the others are measured against.
[[nodiscard]] const std::vector<NamedPolicy>& policies();

/// Nothing when no policy is called that.
[[nodiscard]] const NamedPolicy* find_policy(std::string_view name);

/// Days since the point was last answered, at least 0. Takes a point that has been answered.
[[nodiscard]] double idle_days(const RecallState& state, base::Instant now);

}  // namespace memory::rehearsal
