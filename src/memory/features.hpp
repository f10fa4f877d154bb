#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "base/instant.hpp"
#include "memory/model.hpp"
#include "memory/state.hpp"

namespace memory {

/// The recall model as a product of fixed features and parameters, which is how a fit sees it:
///     log odds = activation . beta + form + eases - exp(decay . gamma + learner's forgetting) * delay
inline constexpr std::size_t kActivationFeatures = 6;
inline constexpr std::size_t kDecayFeatures = 1;

/// How a point can be asked, as far as it makes the answer easier or harder. The first is the measure of the others.
inline constexpr std::size_t kForms = 7;
inline constexpr std::size_t kShared = kActivationFeatures + kDecayFeatures + kForms;

/// A value for each shared parameter: activation, decay, forms.
using Shared = std::array<double, kShared>;

struct Features {
    std::array<double, kActivationFeatures> activation{};
    std::array<double, kDecayFeatures> decay{};
    double delay = 0;  ///< wear; 0 for a point never answered
};

/// What the model weighs when a point is asked at a moment; finite, and free of any parameter.
[[nodiscard]] Features features_at(const RecallState& state, base::Instant when);

/// One shared parameter: its name in reports, what is believed of it beforehand, and the least it may be.
struct SharedParameter {
    std::string_view name;
    double mean = 0, sd = 1;
    double least = -1e300;
};

/// All of them, in the order of Shared.
[[nodiscard]] const std::array<SharedParameter, kShared>& shared_parameters();

[[nodiscard]] Shared to_shared(const Parameters& params);
/// The parameters of a learner and a point with no ease of their own.
[[nodiscard]] Parameters from_shared(const Shared& shared);

}  // namespace memory
