#include "cli/crew_edition.hpp"

#include <algorithm>
#include <iterator>
#include <map>

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

trade::Edition edition_meant(const Context& context) {
    if (const auto said = trade::parse_edition(context.value("--edition"))) return *said;
    if (!context.store_exists()) return trade::Edition::e2023;
    auto store = context.open_store(false);
    if (context.has("--learner")) return context.pick_for(context.learner(store)).edition;
    return edition_of_most(context, active(store.learners()));
}

}  // namespace cli
