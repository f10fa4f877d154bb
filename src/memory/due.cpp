#include "memory/due.hpp"

#include <cassert>

namespace memory {

bool due(const RecallState& state, base::Instant when, double target, const Parameters& params) {
    assert(target > 0 && target < 1);
    // The second half is not idle: due_at is rounded to the millisecond, where recall may still be a hair above.
    return recall_probability(state, when, params) <= target || when >= due_at(state, target, params);
}

base::Instant due_at(const RecallState& state, double target, const Parameters& params) {
    assert(target > 0 && target < 1);
    const base::Instant from = state.answers() == 0 ? base::Instant{} : state.last;
    return base::after_days(from, days_to(target, state, params));
}

}  // namespace memory
