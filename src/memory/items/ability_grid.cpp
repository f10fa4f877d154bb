#include "memory/items/ability_grid.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace memory {
namespace {

constexpr double kFarthest = 6;

/// log(1 / (1 + e^-x)) without overflow.
double log_logistic(double x) {
    return x < 0 ? x - std::log1p(std::exp(x)) : -std::log1p(std::exp(-x));
}

}  // namespace

AbilityGrid::AbilityGrid(std::size_t nodes) {
    if (nodes < 3) throw std::invalid_argument{"abilities need three nodes at the least"};
    const double step = 2 * kFarthest / static_cast<double>(nodes - 1);
    double sum = 0;
    for (std::size_t n = 0; n < nodes; ++n) {
        at_.push_back(-kFarthest + step * static_cast<double>(n));
        log_weight_.push_back(-0.5 * at_.back() * at_.back());
        sum += std::exp(log_weight_.back());
    }
    for (auto& log : log_weight_) log -= std::log(sum);
}

ItemCurves::ItemCurves(const AbilityGrid& grid, const std::vector<double>& slopes,
                       const std::vector<double>& intercepts)
    : nodes_{grid.size()} {
    const std::size_t size = slopes.size() * nodes_;
    right_.reserve(size);
    log_right_.reserve(size);
    log_wrong_.reserve(size);
    for (std::size_t item = 0; item < slopes.size(); ++item)
        for (std::size_t n = 0; n < nodes_; ++n) {
            const double odds = slopes[item] * grid.at(n) + intercepts[item];
            log_right_.push_back(log_logistic(odds));
            log_wrong_.push_back(log_logistic(-odds));
            right_.push_back(std::exp(log_right_.back()));
        }
}

double normalise(std::vector<double>& logs) {
    const double most = *std::max_element(logs.begin(), logs.end());
    double sum = 0;
    for (auto& log : logs) sum += log = std::exp(log - most);
    for (auto& weight : logs) weight /= sum;
    return most + std::log(sum);
}

}  // namespace memory
