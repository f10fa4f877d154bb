#include "memory/fit/sampler.hpp"

#include <cmath>
#include <numeric>

namespace memory {
namespace {

using Vector = std::vector<double>;

// A quarter of an oscillation where the belief is normal.
constexpr double kQuarter = 1.5707963267948966;
constexpr double kLongestStep = 0.55;
// Below so many unknowns the longest step is fine; beyond it shrinks so that as many proposals are taken.
constexpr double kEasyUnknowns = 150;
constexpr double kShare = 1e-6;

double dot(const Vector& a, const Vector& b) {
    return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

/// Where the walk stands: place, and velocity = momentum / mass.
struct Walker {
    Unknowns at;
    Vector momentum, velocity;
    Loss loss;

    [[nodiscard]] double energy() const { return loss.value + dot(momentum, velocity) / 2; }
};

void turn(Walker& walker, const Posterior& posterior, double step) {
    const Vector fall = posterior.solve(walker.loss.gradient, kShare);
    for (std::size_t n = 0; n < fall.size(); ++n) {
        walker.momentum[n] -= step * walker.loss.gradient[n];
        walker.velocity[n] -= step * fall[n];
    }
}

/// Leapfrog steps over a quarter of an oscillation. False when a limit was crossed, where the belief ends.
bool walk(Walker& walker, const Posterior& posterior, std::size_t steps) {
    const double step = kQuarter / static_cast<double>(steps);
    turn(walker, posterior, step / 2);
    for (std::size_t n = 0; n < steps; ++n) {
        for (std::size_t k = 0; k < walker.at.size(); ++k) walker.at[k] += step * walker.velocity[k];
        if (!within_limits(walker.at)) return false;
        walker.loss = loss_at(posterior.data(), walker.at, posterior.priors());
        turn(walker, posterior, n + 1 < steps ? step : step / 2);
    }
    return true;
}

std::size_t steps_for(std::size_t unknowns) {
    const double crowd = std::max(1.0, static_cast<double>(unknowns) / kEasyUnknowns);
    return static_cast<std::size_t>(std::ceil(kQuarter / kLongestStep * std::pow(crowd, 0.25)));
}

}  // namespace

Sampled sample(const Posterior& posterior, std::size_t proposals, base::Seed seed) {
    base::Random random{base::derive_seed(seed, "sample")};
    Sampled sampled{posterior.draw(seed), 0, proposals};
    Loss here = loss_at(posterior.data(), sampled.at, posterior.priors());
    const std::size_t steps = steps_for(posterior.unknowns());
    for (std::size_t n = 0; n < proposals; ++n) {
        Vector momentum = posterior.push(random);
        Vector velocity = posterior.solve(momentum, kShare);
        Walker walker{sampled.at, std::move(momentum), std::move(velocity), here};
        const double before = walker.energy();
        const double lot = std::log(1 - random.unit());
        if (!walk(walker, posterior, steps) || lot >= before - walker.energy()) continue;
        sampled.at = std::move(walker.at);
        here = std::move(walker.loss);
        ++sampled.taken;
    }
    return sampled;
}

}  // namespace memory
