#include "memory/fit/belief.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <string>

#include "memory/fit/sampler.hpp"
#include "memory/logistic.hpp"
#include "memory/normal.hpp"
#include "memory/share_out.hpp"

namespace memory {
namespace {

constexpr std::size_t kProposals = 8;
constexpr double kNineInTen = 1.6448536269514722;  // the .95 quantile of the standard normal
// Log odds beyond which a chance is 0 or 1 to double precision.
constexpr double kFarthest = 36.0;

double log_odds_of(double chance) {
    return std::clamp(logit(chance), -kFarthest, kFarthest);
}

}  // namespace

Belief::Belief(Observations learned_from, const Priors& priors, std::size_t draws, base::Seed seed, Draws how,
               unsigned threads)
    : data_{std::move(learned_from)}, priors_{priors}, fitted_{fit(data_, priors_)}, drawn_(draws), seed_{seed} {
    assert(draws >= 2);
    const Posterior posterior{data_, priors_, fitted_};
    share_out(draws, threads, [&](std::size_t n) {
        const auto own = base::derive_seed(seed, "draw " + std::to_string(n));
        drawn_[n] = how == Draws::sampled ? sample(posterior, kProposals, own).at : posterior.draw(own);
    });
}

Parameters Belief::parameters(const Unknowns& at, const Asked& asked, double ease_in_new_family) const {
    const Places places{data_};
    Shared shared{};
    std::copy_n(at.begin(), kShared, shared.begin());
    Parameters params = from_shared(shared);
    params.learner_ease = at[places.learner_ease(asked.learner)];
    params.learner_forgets = at[places.learner_forgets(asked.learner)];
    const auto family = data_.family_of_point[asked.point];
    const auto branch = data_.branch(asked.learner, family);
    params.point_ease = at[places.point_ease(asked.point)] + at[places.family_ease(family)] +
                        at[kActivationFeatures + kDecayFeatures + asked.form] +
                        (branch == Observations::kNoBranch ? ease_in_new_family : at[places.branch_ease(branch)]);
    return params;
}

Parameters Belief::most_probable(const Asked& asked) const {
    return parameters(fitted_.at, asked, 0);
}

Parameters Belief::drawn(std::size_t draw, const Asked& asked) const {
    const auto family = data_.family_of_point[asked.point];
    if (data_.branch(asked.learner, family) != Observations::kNoBranch) return parameters(drawn_[draw], asked, 0);
    // The same for every point of the family, so that they are missed together.
    const auto place = (draw * data_.learners + asked.learner) * data_.families + family;
    base::Random random{base::derive_seed(seed_, "new family " + std::to_string(place))};
    return parameters(drawn_[draw], asked, priors_.branch_ease * normal(random));
}

Chance Belief::recall(const RecallState& state, base::Instant when, const Asked& asked) const {
    const double middle = log_odds_of(recall_probability(state, when, most_probable(asked)));
    double sum = 0;
    for (std::size_t n = 0; n < drawn_.size(); ++n) {
        const double off = log_odds_of(recall_probability(state, when, drawn(n, asked))) - middle;
        sum += off * off;
    }
    const double spread = kNineInTen * std::sqrt(sum / static_cast<double>(drawn_.size()));
    return {logistic(middle), logistic(middle - spread), logistic(middle + spread)};
}

}  // namespace memory
