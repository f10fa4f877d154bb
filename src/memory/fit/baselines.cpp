#include "memory/fit/baselines.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "memory/fit/cholesky.hpp"
#include "memory/fit/loss.hpp"
#include "memory/logistic.hpp"

namespace memory {
namespace {

double share_right(std::size_t right, std::size_t all) {
    return (static_cast<double>(right) + 1) / (static_cast<double>(all) + 2);
}

using Three = std::array<double, 3>;

Three counts(const Observation& row) {
    return {1.0, std::log1p(row.recalled_before), std::log1p(row.failed_before)};
}

/// Kept off 0 and 1, where a single answer would cost without end.
double recall(const Observation& row, const Three& at) {
    const Three x = counts(row);
    const double log_half_life = std::clamp(at[0] * x[0] + at[1] * x[1] + at[2] * x[2], -30.0, 30.0);
    const double p = std::exp2(-static_cast<double>(row.days) * std::exp(-log_half_life));
    return std::clamp(p, 0.005, 0.995);
}

constexpr double kSpread = 3;

double loss(const Observations& data, const Three& at) {
    double sum = 0;
    for (const double one : at) sum += 0.5 * one * one / (kSpread * kSpread);
    for (const auto& row : data.rows)
        if (!row.first()) sum -= std::log(row.recalled ? recall(row, at) : 1 - recall(row, at));
    return sum;
}

/// One step of Fisher scoring.
Three step(const Observations& data, const Three& at) {
    Matrix curvature{3};
    std::vector<double> gradient(3);
    for (std::size_t k = 0; k < 3; ++k) {
        curvature(k, k) = 1 / (kSpread * kSpread);
        gradient[k] = at[k] / (kSpread * kSpread);
    }
    for (const auto& row : data.rows) {
        if (row.first()) continue;
        const Three x = counts(row);
        const double p = recall(row, at);
        const double slope = -p * std::log(p);  // of p by the logarithm of the half-life
        const double residual = (p - (row.recalled ? 1 : 0)) / (p * (1 - p));
        for (std::size_t j = 0; j < 3; ++j) {
            gradient[j] += residual * slope * x[j];
            for (std::size_t k = 0; k < 3; ++k) curvature(j, k) += slope * slope / (p * (1 - p)) * x[j] * x[k];
        }
    }
    const auto solved = Cholesky{curvature}.solve(gradient);
    return {solved[0], solved[1], solved[2]};
}

Three fit_half_life(const Observations& data) {
    Three at{};
    double here = loss(data, at);
    for (std::size_t n = 0; n < 50; ++n) {
        const Three down = step(data, at);
        double length = 1;
        Three next = at;
        double there = here;
        for (std::size_t tries = 0; tries < 30; ++tries, length /= 2) {
            for (std::size_t k = 0; k < 3; ++k) next[k] = at[k] - length * down[k];
            there = loss(data, next);
            if (there < here) break;
        }
        if (!(there < here - 1e-9)) break;
        at = next;
        here = there;
    }
    return at;
}

}  // namespace

Chances foreseen(const Observations& data, const Unknowns& at) {
    Chances chances(data.rows.size());
    for (const auto& pair : data.pairs)
        for (std::size_t r = pair.begin; r < pair.end; ++r)
            chances[r] = logistic(log_odds(data, pair, data.rows[r], at));
    return chances;
}

Chances constant_baseline(const Observations& learned_from, const Observations& data) {
    const auto right = static_cast<std::size_t>(std::count_if(learned_from.rows.begin(), learned_from.rows.end(),
                                                              [](const Observation& row) { return row.recalled; }));
    return Chances(data.rows.size(), share_right(right, learned_from.rows.size()));
}

Chances half_life_baseline(const Observations& learned_from, const Observations& data) {
    std::size_t firsts = 0;
    std::size_t right = 0;
    for (const auto& row : learned_from.rows) {
        firsts += row.first() ? 1 : 0;
        right += row.first() && row.recalled ? 1 : 0;
    }
    const Three at = fit_half_life(learned_from);
    Chances chances(data.rows.size());
    for (std::size_t r = 0; r < chances.size(); ++r)
        chances[r] = data.rows[r].first() ? share_right(right, firsts) : recall(data.rows[r], at);
    return chances;
}

}  // namespace memory
