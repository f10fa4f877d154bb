#include "memory/items/logistic_surface.hpp"

#include <cmath>
#include <stdexcept>

#include <doctest/doctest.h>

#include "memory/items/simulated.hpp"

using namespace memory;

namespace {

struct Place {
    std::vector<ResponsePattern> data;
    LogisticUnknowns at;
    std::optional<ItemPrior> prior;
};

/// Any place at all, not a top: identities must hold everywhere.
Place place(base::Seed seed, bool one_slope, bool with_prior) {
    base::Random random{seed};
    const auto items = simulated::draw_items(4, 1.2, random);
    const auto crew = simulated::draw_answers(items, 12, 0.7, random);
    Place out{patterns(ResponseMatrix{crew.answers, 12, 4}), {4, one_slope, with_prior, {}}, std::nullopt};
    if (with_prior) out.prior = ItemPrior{0.1, 0.6, 1.5};
    for (std::size_t n = 0; n < out.data.size(); ++n) out.data[n].weight = 0.5 + static_cast<double>(n % 3);
    for (std::size_t k = 0; k < (one_slope ? 5U : 8U); ++k) out.at.values.push_back(normal(random));
    return out;
}

const AbilityGrid kGrid{81};

LogisticSurface at(const Place& place, std::size_t moved, double by) {
    auto there = place.at;
    there.values[moved] += by;
    return {place.data, there, place.prior, kGrid};
}

/// The information if abilities were seen, by its definition: sums over patterns, answers and nodes.
Matrix complete_at(const Place& place) {
    const auto& at = place.at;
    Matrix sum{at.values.size()};
    for (const auto& pattern : place.data) {
        std::vector<double> after;
        for (std::size_t n = 0; n < kGrid.size(); ++n) {
            double weight = std::exp(kGrid.log_weight(n));
            for (const auto& answer : pattern.answers) {
                const double p = simulated::chance({at.slope(answer.item), at.values[answer.item]}, kGrid.at(n));
                weight *= answer.right ? p : 1 - p;
            }
            after.push_back(weight);
        }
        double all = 0;
        for (const double weight : after) all += weight;
        for (const auto& answer : pattern.answers)
            for (std::size_t n = 0; n < kGrid.size(); ++n) {
                const double p = simulated::chance({at.slope(answer.item), at.values[answer.item]}, kGrid.at(n));
                const double weight = pattern.weight * after[n] / all * p * (1 - p);
                const double by_slope = kGrid.at(n) * (at.log_slopes ? at.slope(answer.item) : 1);
                const std::size_t slope = at.slope_place(answer.item);
                sum(answer.item, answer.item) += weight;
                sum(answer.item, slope) += weight * by_slope;
                sum(slope, answer.item) += weight * by_slope;
                sum(slope, slope) += weight * by_slope * by_slope;
            }
    }
    if (!place.prior) return sum;
    for (std::size_t k = 0; k < sum.size(); ++k)
        sum(k, k) += 1 / std::pow(k < at.items ? place.prior->intercept_sd : place.prior->log_slope_sd, 2);
    return sum;
}

}  // namespace

TEST_CASE("logistic surface: gradient and observed information agree with central differences") {
    for (base::Seed seed = 1; seed <= 6; ++seed)
        for (const bool one_slope : {false, true})
            for (const bool with_prior : {false, true}) {
                const auto here = place(seed, one_slope, with_prior);
                const auto exact = at(here, 0, 0);
                const Matrix observed = exact.observed();
                constexpr double kStep = 1e-5;
                for (std::size_t k = 0; k < here.at.values.size(); ++k) {
                    CAPTURE(seed);
                    CAPTURE(k);
                    const auto up = at(here, k, kStep);
                    const auto down = at(here, k, -kStep);
                    const double slope = (up.value() - down.value()) / (2 * kStep);
                    CHECK(std::abs(slope - exact.gradient()[k]) < 1e-6 * (1 + std::abs(slope)));
                    for (std::size_t j = 0; j < here.at.values.size(); ++j) {
                        const double second = (up.gradient()[j] - down.gradient()[j]) / (2 * kStep);
                        CHECK(std::abs(second + observed(j, k)) < 1e-6 * (1 + std::abs(second)));
                        CHECK(observed(j, k) == observed(k, j));
                    }
                }
            }
}

TEST_CASE("logistic surface: a product with the observed information is that of the matrix") {
    for (base::Seed seed = 1; seed <= 6; ++seed)
        for (const bool one_slope : {false, true})
            for (const bool with_prior : {false, true}) {
                const auto here = place(seed, one_slope, with_prior);
                const auto surface = at(here, 0, 0);
                const Matrix observed = surface.observed();
                for (std::size_t k = 0; k < observed.size(); ++k) {
                    std::vector<double> unit(observed.size(), 0.0);
                    unit[k] = 1;
                    const auto column = surface.times_observed(unit);
                    for (std::size_t j = 0; j < observed.size(); ++j)
                        CHECK(std::abs(column[j] - observed(j, k)) < 1e-10);
                }
            }
}

TEST_CASE("logistic surface: solving by the complete information undoes it, written out the long way") {
    for (base::Seed seed = 1; seed <= 6; ++seed)
        for (const bool one_slope : {false, true})
            for (const bool with_prior : {false, true}) {
                const auto here = place(seed, one_slope, with_prior);
                const Matrix complete = complete_at(here);
                base::Random random{seed};
                std::vector<double> truth;
                std::vector<double> right(complete.size(), 0.0);
                for (std::size_t k = 0; k < complete.size(); ++k) truth.push_back(normal(random));
                for (std::size_t j = 0; j < complete.size(); ++j)
                    for (std::size_t k = 0; k < complete.size(); ++k) right[j] += complete(j, k) * truth[k];
                const auto solved = at(here, 0, 0).solve_complete(right);
                for (std::size_t k = 0; k < complete.size(); ++k) CHECK(std::abs(solved[k] - truth[k]) < 1e-8);
            }
}

TEST_CASE("ability grid: moments of the standard normal") {
    for (const std::size_t nodes : {41U, 81U, 201U}) {
        const AbilityGrid grid{nodes};
        double sum = 0;
        double squares = 0;
        double fourth = 0;
        for (std::size_t n = 0; n < grid.size(); ++n) {
            const double weight = std::exp(grid.log_weight(n));
            sum += weight;
            squares += weight * std::pow(grid.at(n), 2);
            fourth += weight * std::pow(grid.at(n), 4);
        }
        CHECK(std::abs(sum - 1) < 1e-12);
        CHECK(std::abs(squares - 1) < 2e-7);
        CHECK(std::abs(fourth - 3) < 1e-5);
    }
    CHECK_THROWS_AS(AbilityGrid{2}, std::invalid_argument);
}
