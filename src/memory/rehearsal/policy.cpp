#include "memory/rehearsal/policy.hpp"

#include <algorithm>

#include "memory/rehearsal/due_policies.hpp"
#include "memory/rehearsal/own_policy.hpp"
#include "memory/rehearsal/plain_policies.hpp"

namespace memory::rehearsal {
namespace {

template <class T>
std::unique_ptr<Policy> make() {
    return std::make_unique<T>();
}

}  // namespace

double idle_days(const RecallState& state, base::Instant now) {
    return std::max(0.0, base::days_between(state.last, now));
}

const std::vector<NamedPolicy>& policies() {
    static const std::vector<NamedPolicy> kAll = {
        {"rotation", "round the whole library, never asked first, then longest unasked", make<Rotation>},
        {"own",
         "the program's own order: rotation, no more points than time allows, "
         "known families less often",
         make<OwnRule>},
        {"own-fitted", "the same with the recall model fitted to the learner every week", make<OwnRuleFitted>},
        {"random", "any point, by lot", make<AtRandom>},
        {"massed", "a few families each week, gone over again and again", make<WeeklyMassed>},
        {"intensity", "likeliest to be forgotten first", make<OptimalIntensity>},
        {"intervals",
         "1, 3, 7, 14, 30, 60 days after a right answer, from the start again "
         "after a wrong one",
         make<ExpandingIntervals>},
        {"overdue", "longest below a recall of .9 first", make<MostOverdue>},
    };
    return kAll;
}

const NamedPolicy* find_policy(std::string_view name) {
    const auto& all = policies();
    const auto at = std::find_if(all.begin(), all.end(), [&](const NamedPolicy& one) { return one.name == name; });
    return at == all.end() ? nullptr : &*at;
}

}  // namespace memory::rehearsal
