#include "memory/features.hpp"

#include <algorithm>
#include <cmath>

namespace memory {

Features features_at(const RecallState& state, base::Instant when) {
    Features features;
    features.decay = {1.0};
    if (state.answers() == 0) {
        features.activation[1] = 1.0;
        return features;
    }
    const double days = std::max(0.0, base::days_between(state.last, when));
    features.activation = {1.0,
                           0.0,
                           std::log1p(static_cast<double>(state.answers())),
                           std::log1p(static_cast<double>(state.recalled)),
                           state.last_mark >= kRecalledFrom ? 1.0 : 0.0,
                           freshness(days)};
    features.delay = wear(state, days);
    return features;
}

const std::array<SharedParameter, kShared>& shared_parameters() {
    static const Parameters kMeans;
    static const std::array<SharedParameter, kShared> kAll = {{{"base", kMeans.base, 1.0},
                                                               {"unseen", kMeans.unseen, 1.0},
                                                               {"asked gain", kMeans.asked_gain, 0.3, 0},
                                                               {"recalled gain", kMeans.recalled_gain, 0.3, 0},
                                                               {"last recalled", kMeans.last_recalled, 0.05, 0},
                                                               {"fresh", kMeans.fresh, 0.6, 0},
                                                               {"log decay", kMeans.log_decay, 0.4},
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
    shared[2] = params.asked_gain;
    shared[3] = params.recalled_gain;
    shared[4] = params.last_recalled;
    shared[5] = params.fresh;
    shared[6] = params.log_decay;
    return shared;
}

Parameters from_shared(const Shared& shared) {
    Parameters params;
    params.base = shared[0];
    params.unseen = shared[1];
    params.asked_gain = shared[2];
    params.recalled_gain = shared[3];
    params.last_recalled = shared[4];
    params.fresh = shared[5];
    params.log_decay = shared[6];
    return params;
}

}  // namespace memory
