#include "cli/shop/crew_standing.hpp"

#include "memory/model.hpp"

namespace cli {

double Weakness::of(const content::PointEntry& point) const {
    const auto found = states_.find(point.id);
    const auto& state = found == states_.end() ? memory::RecallState{} : found->second;
    return 1.0 - memory::recall_probability(state, now_, recall_.of(point));
}

}  // namespace cli
