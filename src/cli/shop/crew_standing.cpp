#include "cli/shop/crew_standing.hpp"

#include <algorithm>
#include <iterator>
#include <map>

#include "memory/model.hpp"

namespace cli {

std::vector<store::Learner> active(const std::vector<store::Learner>& crew) {
    std::vector<store::Learner> here;
    std::copy_if(crew.begin(), crew.end(), std::back_inserter(here), [](const auto& one) { return !one.retired_at; });
    return here;
}

trade::Edition edition_of_most(const Context& context, const std::vector<store::Learner>& crew) {
    std::map<trade::Edition, int> counts;
    for (const auto& learner : crew) ++counts[context.pick_for(learner).edition];
    const auto most = std::max_element(counts.begin(), counts.end(),
                                       [](const auto& a, const auto& b) { return a.second < b.second; });
    return most == counts.end() ? trade::Edition::e2023 : most->first;
}

double Weakness::of(const content::PointEntry& point) const {
    const auto found = states_.find(point.id);
    const auto& state = found == states_.end() ? memory::RecallState{} : found->second;
    return 1.0 - memory::recall_probability(state, now_, recall_.of(point));
}

}  // namespace cli
