#pragma once

#include <cstddef>
#include <vector>

namespace memory {

/// Abilities at which the standard normal is summed in place of being integrated: equal steps from -6 to 6, with the
/// normal density, scaled to sum to one, as the weights.
///
/// For a smooth integrand that dies out at both ends such a sum is wrong by about exp(-2 (pi s / step)^2) of it, s
/// being the standard deviation of what is integrated; a Gauss-Hermite rule of as many nodes lays half of them where
/// nothing is. What lies beyond 6 is 2e-9 of the normal.
class AbilityGrid {
public:
    /// Throws  std::invalid_argument for fewer than three nodes.
    explicit AbilityGrid(std::size_t nodes);
    [[nodiscard]] std::size_t size() const { return at_.size(); }
    [[nodiscard]] double at(std::size_t node) const { return at_[node]; }
    [[nodiscard]] double log_weight(std::size_t node) const { return log_weight_[node]; }

private:
    std::vector<double> at_, log_weight_;
};

/// The chance of a right answer to each item at each node: 1 / (1 + e^-(slope ability + intercept)).
class ItemCurves {
public:
    /// Takes one slope and one intercept for each item.
    ItemCurves(const AbilityGrid& grid, const std::vector<double>& slopes, const std::vector<double>& intercepts);
    /// Of one item, over the nodes.
    [[nodiscard]] const double* right(std::size_t item) const { return &right_[item * nodes_]; }
    [[nodiscard]] const double* log_of(std::size_t item, bool right) const {
        return right ? &log_right_[item * nodes_] : &log_wrong_[item * nodes_];
    }

private:
    std::size_t nodes_;
    std::vector<double> right_, log_right_, log_wrong_;
};

/// Turns logs of weights into weights that sum to one. Gives the log of their sum.
double normalise(std::vector<double>& logs);

}  // namespace memory
