#include "memory/fit/trial.hpp"

namespace memory {

std::string_view to_text(Trial::Way way) {
    switch (way) {
        case Trial::fitted:
            return "fitted";
        case Trial::prior:
            return "shipped parameters";
        case Trial::constant:
            return "one share for all";
        case Trial::half_life:
            return "halving with time";
    }
    return "";
}

Trial try_out(const Observations& all, const Priors& priors) {
    const Observations learned = part(all, false);
    const Observations kept = part(all, true);
    Trial trial;
    trial.learned_from = learned.rows.size();
    for (const auto& pair : kept.pairs)
        for (std::size_t r = pair.begin; r < pair.end; ++r) {
            trial.recalled.push_back(kept.rows[r].recalled ? 1 : 0);
            trial.learner.push_back(pair.learner);
        }
    trial.chances[Trial::fitted] = foreseen(kept, fit(learned, priors).at);
    trial.chances[Trial::prior] = foreseen(kept, at_prior(Places{kept}, shipped_priors()));
    trial.chances[Trial::constant] = constant_baseline(learned, kept);
    trial.chances[Trial::half_life] = half_life_baseline(learned, kept);
    return trial;
}

}  // namespace memory
