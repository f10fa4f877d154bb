#include "memory/fit/unknowns.hpp"

#include <algorithm>

namespace memory {

Priors shipped_priors() {
    Priors priors;
    const auto& all = shared_parameters();
    for (std::size_t k = 0; k < kShared; ++k) {
        priors.mean[k] = all[k].mean;
        priors.sd[k] = all[k].sd;
    }
    return priors;
}

Unknowns at_prior(const Places& places, const Priors& priors) {
    Unknowns all(places.size(), 0.0);
    std::copy(priors.mean.begin(), priors.mean.end(), all.begin());
    return all;
}

std::vector<double> prior_precision(const Places& places, const Priors& priors) {
    std::vector<double> all(places.size());
    const auto fill = [&](std::size_t from, std::size_t count, double sd) {
        std::fill_n(all.begin() + static_cast<std::ptrdiff_t>(from), count, 1 / (sd * sd));
    };
    for (std::size_t k = 0; k < kShared; ++k) all[k] = 1 / (priors.sd[k] * priors.sd[k]);
    fill(places.learner_ease(0), places.learners, priors.learner_ease);
    fill(places.learner_forgets(0), places.learners, priors.learner_forgets);
    fill(places.point_ease(0), places.points, priors.point_ease);
    fill(places.family_ease(0), places.families, priors.family_ease);
    fill(places.branch_ease(0), places.branches, priors.branch_ease);
    return all;
}

}  // namespace memory
