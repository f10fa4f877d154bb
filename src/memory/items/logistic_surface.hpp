#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "memory/fit/cholesky.hpp"
#include "memory/items/ability_grid.hpp"
#include "memory/items/logistic_items.hpp"

namespace memory {

/// The unknowns of a logistic model as a fit sees them: an intercept for each item, then one slope or a slope for each.
/// Under a prior the slopes are held as their natural logarithms.
struct LogisticUnknowns {
    std::size_t items = 0;
    bool one_slope = false, log_slopes = false;
    std::vector<double> values;

    [[nodiscard]] std::size_t slope_place(std::size_t item) const { return one_slope ? items : items + item; }
    [[nodiscard]] double slope(std::size_t item) const;
    [[nodiscard]] double intercept(std::size_t item) const { return values[item]; }
};

/// The log posterior (without a prior: log-likelihood) at one place, with what a fit needs to know of its shape.
///
/// There are two informations, negative second derivatives. The complete one is what it would be if abilities were
/// seen: sparse and positive definite. The observed one is what it is, smaller by the spread of the scores over the
/// abilities that a pattern leaves open (Louis 1982). That one is dense, so a fit only multiplies by it.
class LogisticSurface {
public:
    /// Takes   patterns whose items are all below at.items; references that must outlive it.
    LogisticSurface(const std::vector<ResponsePattern>& data, LogisticUnknowns at,
                    const std::optional<ItemPrior>& prior, const AbilityGrid& grid);

    [[nodiscard]] const LogisticUnknowns& at() const { return at_; }
    [[nodiscard]] double log_likelihood() const { return log_likelihood_; }
    /// With the logarithm of the prior, its constant left out.
    [[nodiscard]] double value() const { return value_; }
    [[nodiscard]] const std::vector<double>& gradient() const { return gradient_; }
    /// Solves complete information * x = right.
    [[nodiscard]] std::vector<double> solve_complete(const std::vector<double>& right) const;
    /// Observed information * vector.
    [[nodiscard]] std::vector<double> times_observed(const std::vector<double>& vector) const;
    /// The observed information written out.
    [[nodiscard]] Matrix observed() const;

private:
    struct Complete {
        double intercept = 0, both = 0, slope = 0;
    };
    void add(const ResponsePattern& pattern);
    void add_answer(const ScoredAnswer& answer, double weight, const double* after);
    void change_to_log_slopes();
    void add_prior(const ItemPrior& prior);
    void subtract_missing(const ResponsePattern& pattern, const double* after, const std::vector<double>& vector,
                          std::vector<double>& product) const;
    void subtract_missing(const ResponsePattern& pattern, const double* after, Matrix& matrix) const;
    void gather_scores(const ResponsePattern& pattern, const double* after, std::vector<std::size_t>& places,
                       std::vector<double>& scores) const;
    [[nodiscard]] std::vector<double> times_complete(const std::vector<double>& vector) const;

    const std::vector<ResponsePattern>* data_;
    LogisticUnknowns at_;
    const AbilityGrid* grid_;
    ItemCurves curves_;
    std::vector<double> after_;       ///< weights of abilities after each pattern, by pattern and node
    std::vector<Complete> complete_;  ///< by plain slopes, without the prior
    std::vector<double> scale_;       ///< d slope / d unknown; 1 for intercepts
    std::vector<double> diagonal_;    ///< what the prior and the change to logarithms add to the observed information
    std::vector<double> precision_;   ///< of the prior alone
    std::vector<double> gradient_;
    double log_likelihood_ = 0, value_ = 0;
};

}  // namespace memory
