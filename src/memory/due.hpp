#pragma once

#include "base/instant.hpp"
#include "memory/model.hpp"
#include "memory/state.hpp"

namespace memory {

/// Whether predicted recall has fallen to the target or below.
/// Takes   any moment, one before the last answer counting as no time passed; target in (0, 1).
/// Gives   true from due_at on, to the millisecond. A point never answered is due when its chance is at or below the
///         target, whatever the moment. Says nothing of corrections: a point just failed may be above its target.
/// Source  recall_probability.
[[nodiscard]] bool due(const RecallState& state, base::Instant when, double target, const Parameters& params);

/// The moment recall falls to the target.
/// Takes   target in (0, 1).
/// Gives   the last answer itself when recall starts at or below the target; a thousand years after it at most. For a
///         point never answered the last answer is taken as the start of 1970.
/// Source  days_to.
[[nodiscard]] base::Instant due_at(const RecallState& state, double target, const Parameters& params);

}  // namespace memory
