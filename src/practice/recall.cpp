#include "practice/recall.hpp"

#include "memory/features.hpp"

namespace practice {
namespace {

void set_shared(memory::Shared& shared, const store::FittedValue& value) {
    const auto& known = memory::shared_parameters();
    for (std::size_t i = 0; i < known.size(); ++i)
        if (known[i].name == value.name) shared[i] = value.value;
}

double found_in(const std::unordered_map<std::string, double>& eases, const std::string& name) {
    const auto found = eases.find(name);
    return found == eases.end() ? 0.0 : found->second;
}

}  // namespace

Recall::Recall(const std::vector<store::FittedValue>& values, const base::Id128& learner) : fitted_{!values.empty()} {
    memory::Shared shared = memory::to_shared({});
    double ease = 0;
    double forgets = 0;
    for (const auto& value : values) {
        const bool own = value.learner == learner;
        if (value.kind == "shared")
            set_shared(shared, value);
        else if (value.kind == "point")
            points_[value.name] = value.value;
        else if (value.kind == "family" || (value.kind == "branch" && own))
            topics_[value.name] += value.value;
        else if (value.kind == "learner" && own)
            ease = value.value;
        else if (value.kind == "forgets" && own)
            forgets = value.value;
    }
    learner_ = memory::from_shared(shared);
    learner_.learner_ease = ease;
    learner_.learner_forgets = forgets;
}

memory::Parameters Recall::of(const base::PointId& point, const std::string& topic) const {
    memory::Parameters params = learner_;
    params.point_ease = found_in(points_, point.text) + found_in(topics_, topic);
    return params;
}

}  // namespace practice
