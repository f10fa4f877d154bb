#include "memory/features.hpp"

#include <algorithm>
#include <cmath>

namespace memory {

Features features_at(const RecallState& state, base::Instant when) {
    Features features;
    const bool met = state.answers() > 0;
    features.activation = {met ? 1.0 : 0.0, met ? 0.0 : 1.0, std::log1p(static_cast<double>(state.recalled)),
                           std::log1p(static_cast<double>(state.failed))};
    features.decay = {1.0, -std::log1p(state.spacing_recalled), -std::log1p(state.spacing_failed)};
    if (met) features.delay = log_delay(std::max(0.0, base::days_between(state.last, when)));
    return features;
}

const std::array<SharedParameter, kShared>& shared_parameters() {
    static const Parameters kMeans;
    static const std::array<SharedParameter, kShared> kAll = {{{"base", kMeans.base, 1.0},
                                                               {"unseen", kMeans.unseen, 1.0},
                                                               {"recalled gain", kMeans.recalled_gain, 0.5, 0},
                                                               {"failed gain", kMeans.failed_gain, 0.3, 0},
                                                               {"log decay", kMeans.log_decay, 0.4},
                                                               {"recalled slows", kMeans.recalled_slows, 0.10, 0},
                                                               {"failed slows", kMeans.failed_slows, 0.05, 0},
                                                               {"form 0", 0, 1e-3},
                                                               {"form 1", 0, 0.5},
                                                               {"form 2", 0, 0.5},
                                                               {"form 3", 0, 0.5},
                                                               {"form 4", 0, 0.5},
                                                               {"form 5", 0, 0.5},
                                                               {"form 6", 0, 0.5}}};
    return kAll;
}

Shared to_shared(const Parameters& params) {
    Shared shared{};
    shared[0] = params.base;
    shared[1] = params.unseen;
    shared[2] = params.recalled_gain;
    shared[3] = params.failed_gain;
    shared[4] = params.log_decay;
    shared[5] = params.recalled_slows;
    shared[6] = params.failed_slows;
    return shared;
}

Parameters from_shared(const Shared& shared) {
    Parameters params;
    params.base = shared[0];
    params.unseen = shared[1];
    params.recalled_gain = shared[2];
    params.failed_gain = shared[3];
    params.log_decay = shared[4];
    params.recalled_slows = shared[5];
    params.failed_slows = shared[6];
    return params;
}

}  // namespace memory
