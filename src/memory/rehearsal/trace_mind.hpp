#pragma once

#include <vector>

#include "memory/rehearsal/learner.hpp"
#include "memory/rehearsal/mind.hpp"

namespace memory::rehearsal {

/// What one meeting with a point leaves: it wears off as age^-decay.
struct Trace {
    double at = 0;     ///< seconds on the mind's own clock
    double decay = 0;  ///< > 0
};

/// ln of the summed traces at a moment; minus infinity without any. A trace younger than a second counts as a second
/// old.
/// Source  Pavlik & Anderson 2005, m = ln sum t^-d (seen second-hand).
[[nodiscard]] double trace_activation(const std::vector<Trace>& traces, double at);

/// Decay of a trace laid down at that activation: the stronger a memory still is, the faster the new trace fades.
/// Source  Pavlik & Anderson 2005, d = c e^m + a with a .177, c .217 (from memory, not verified).
[[nodiscard]] double trace_decay(double activation);

/// Source  Pavlik & Anderson 2005, 1 / (1 + e^((tau - m) / s)) with tau -.704, s .255 (from memory, not verified).
[[nodiscard]] double trace_recall(double activation);

/// Trace activation: a memory that is not our recall model. Seconds between sittings count h = .025 of those within.
/// What makes learners and points unequal is added to the activation where it is recalled, not where it decays.
class TraceMind final : public Mind {
public:
    explicit TraceMind(const Learner& learner);

    [[nodiscard]] double chance(std::size_t point, base::Instant at) const override;
    void answered(std::size_t point, base::Instant at, bool recalled) override;

private:
    [[nodiscard]] double clock(base::Instant at) const;

    std::vector<std::vector<Trace>> traces_;
    std::vector<double> ease_;
    base::Instant last_;
    double last_clock_ = 0;
};

}  // namespace memory::rehearsal
