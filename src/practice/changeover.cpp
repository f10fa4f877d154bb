#include "practice/changeover.hpp"

namespace practice {

std::vector<base::PointId> to_relearn(const std::vector<content::Difference>& differences,
                                      const store::RecallStates& states) {
    std::vector<base::PointId> points;
    for (const auto& one : differences) {
        if (one.kind != content::Difference::Kind::point || one.change == content::Change::removed) continue;
        const auto state = states.find(base::PointId{one.id});
        if (state != states.end() && state->second.answers() > 0) points.push_back({one.id});
    }
    return points;
}

}  // namespace practice
