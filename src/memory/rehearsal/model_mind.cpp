#include "memory/rehearsal/model_mind.hpp"

namespace memory::rehearsal {

double ModelMind::chance(std::size_t point, base::Instant at) const {
    return recall_probability(standings_[point].state, at, standings_[point].params);
}

void ModelMind::answered(std::size_t point, base::Instant at, bool recalled) {
    RecallState& state = standings_[point].state;
    state = advance(state, at, recalled ? 1.0 : 0.0, Sure::fairly);
}

}  // namespace memory::rehearsal
