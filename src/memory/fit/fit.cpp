#include "memory/fit/fit.hpp"

#include <algorithm>
#include <cmath>

namespace memory {
namespace {

constexpr double kEnough = 1e-7;
constexpr std::size_t kMostSteps = 100;
constexpr std::size_t kMostHalvings = 40;

double dot(const Unknowns& a, const Unknowns& b) {
    double sum = 0;
    for (std::size_t n = 0; n < a.size(); ++n) sum += a[n] * b[n];
    return sum;
}

void keep_above_least(Unknowns& at) {
    const auto& shared = shared_parameters();
    for (std::size_t k = 0; k < kShared; ++k) at[k] = std::max(at[k], shared[k].least);
}

/// Parameters at their least that the loss would push further down.
std::vector<bool> held_at(const Unknowns& at, const std::vector<double>& gradient) {
    std::vector<bool> held(at.size(), false);
    const auto& shared = shared_parameters();
    for (std::size_t k = 0; k < kShared; ++k) held[k] = at[k] <= shared[k].least && gradient[k] > 0;
    return held;
}

Unknowns moved(const Unknowns& at, const std::vector<double>& step, double length) {
    Unknowns next = at;
    for (std::size_t n = 0; n < next.size(); ++n) next[n] -= length * step[n];
    keep_above_least(next);
    return next;
}

/// A solve need be no finer than the step is good: coarse far away, fine close by.
double share_for(double left) {
    return std::clamp(std::sqrt(left) * 1e-2, 1e-6, 1e-2);
}

}  // namespace

Fitted fit(const Observations& data, const Priors& priors, std::optional<Unknowns> start) {
    const Places places{data};
    Curvature curvature{data, prior_precision(places, priors)};
    Fitted fitted;
    fitted.at = start ? std::move(*start) : at_prior(places, priors);
    keep_above_least(fitted.at);
    Loss here = loss_at(data, fitted.at, priors, curvature);
    fitted.passes = 1;
    fitted.left = 1;
    for (; fitted.steps < kMostSteps && !fitted.converged; ++fitted.steps) {
        fitted.held = held_at(fitted.at, here.gradient);
        const auto step = curvature.solve(here.gradient, fitted.held, share_for(fitted.left));
        fitted.left = 0.5 * dot(step, here.gradient);
        if (fitted.left < kEnough) {
            fitted.converged = true;
            break;
        }
        double length = 1;
        bool lower = false;
        for (std::size_t tries = 0; tries < kMostHalvings && !lower; ++tries, length /= 2) {
            Unknowns next = moved(fitted.at, step, length);
            // The first try is likely to stand, so its curvature is gathered in the same pass.
            Loss there = tries == 0 ? loss_at(data, next, priors, curvature) : loss_at(data, next, priors);
            ++fitted.passes;
            if (!(there.value < here.value)) continue;
            lower = true;
            if (tries > 0) {
                there = loss_at(data, next, priors, curvature);
                ++fitted.passes;
            }
            fitted.at = std::move(next);
            here = std::move(there);
        }
        if (!lower) break;  // at the limit of double
    }
    fitted.converged = fitted.converged || fitted.left < 1e-5;
    fitted.value = here.value;
    fitted.of_answers = here.of_answers;
    fitted.held.resize(kShared);
    return fitted;
}

}  // namespace memory
