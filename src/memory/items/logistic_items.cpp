#include "memory/items/logistic_items.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <stdexcept>
#include <utility>

#include "memory/items/logistic_surface.hpp"

namespace memory {
namespace {

constexpr std::size_t kLeastNodes = 41;
constexpr std::size_t kFirstSteps = 2;  // by the complete information: sure to lead uphill, from however far
constexpr std::size_t kMostSteps = 300;
constexpr std::size_t kMostHalvings = 30;
constexpr double kLongestStep = 1.0;
constexpr double kEnough = 1e-8;
constexpr double kSolved = 1e-6;  // of the squared length of the gradient: each step then leaves a thousandth
constexpr double kRunaway = 30;   // a slope no answers can tell from a step
constexpr double kNoSlope = 1e-3;
constexpr std::size_t kMostSaturated = 20;
constexpr double kUnknown = std::numeric_limits<double>::infinity();

void check(const std::vector<ResponsePattern>& data, std::size_t items, const LogisticOptions& options) {
    if (options.nodes < kLeastNodes) throw std::invalid_argument{"fewer nodes than the estimates need"};
    if (options.prior && !(options.prior->log_slope_sd > 0 && options.prior->intercept_sd > 0))
        throw std::invalid_argument{"a prior's standard deviation must be above zero"};
    std::vector<std::size_t> last(items, 0);
    for (std::size_t n = 0; n < data.size(); ++n) {
        if (!(data[n].weight >= 0 && std::isfinite(data[n].weight)))
            throw std::invalid_argument{"a pattern's weight is below zero or no number"};
        for (const auto& answer : data[n].answers) {
            if (answer.item >= items) throw std::invalid_argument{"no item has the number of an answer"};
            if (std::exchange(last[answer.item], n + 1) == n + 1)
                throw std::invalid_argument{"a pattern answers an item twice"};
        }
    }
}

/// Sums of weights, and which items can be estimated.
LogisticItems counted(const std::vector<ResponsePattern>& data, std::size_t items, const LogisticOptions& options) {
    LogisticItems fitted;
    fitted.options = options;
    fitted.items.resize(items);
    for (const auto& pattern : data)
        for (const auto& answer : pattern.answers) {
            fitted.items[answer.item].answers += pattern.weight;
            if (answer.right) fitted.items[answer.item].right += pattern.weight;
        }
    for (auto& item : fitted.items)
        item.estimated = options.prior ? item.answers > 0 : item.right > 0 && item.right < item.answers;
    return fitted;
}

/// Which items take part, and their answers under new numbers without gaps.
struct Compact {
    std::vector<std::size_t> items;
    std::vector<ResponsePattern> data;
};

Compact compact(const LogisticItems& fitted, const std::vector<ResponsePattern>& data) {
    Compact out;
    std::vector<std::uint32_t> number(fitted.items.size(), 0);
    for (std::size_t item = 0; item < fitted.items.size(); ++item)
        if (fitted.items[item].estimated) {
            number[item] = static_cast<std::uint32_t>(out.items.size());
            out.items.push_back(item);
        }
    for (const auto& pattern : data) {
        ResponsePattern kept{{}, pattern.weight};
        for (const auto& answer : pattern.answers)
            if (fitted.items[answer.item].estimated) kept.answers.push_back({number[answer.item], answer.right});
        if (!kept.answers.empty() && kept.weight > 0) out.data.push_back(std::move(kept));
    }
    return out;
}

LogisticUnknowns start(const LogisticItems& fitted, const Compact& used) {
    LogisticUnknowns at;
    at.items = used.items.size();
    at.one_slope = fitted.options.form == LogisticForm::one_parameter;
    at.log_slopes = fitted.options.prior.has_value();
    for (const std::size_t item : used.items) {
        const auto& seen = fitted.items[item];
        at.values.push_back(std::log((seen.right + 0.5) / (seen.answers - seen.right + 0.5)));
    }
    at.values.resize(at.items + (at.one_slope ? 1 : at.items), at.log_slopes ? 0.0 : 1.0);
    return at;
}

double dot(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0;
    for (std::size_t k = 0; k < a.size(); ++k) sum += a[k] * b[k];
    return sum;
}

double largest(const std::vector<double>& values) {
    double most = 0;
    for (const double value : values) most = std::max(most, std::abs(value));
    return most;
}

/// The step to the top of the quadratic model that the observed information makes, by conjugate gradients with the
/// complete information as the preconditioner; empty where that model has no top.
std::optional<std::vector<double>> newton_step(const LogisticSurface& here) {
    std::vector<double> step(here.gradient().size(), 0.0);
    auto rest = here.gradient();
    auto nearer = here.solve_complete(rest);
    auto direction = nearer;
    double left = dot(rest, nearer);
    const double enough = left * kSolved;
    for (std::size_t turn = 0; turn < 2 * step.size() + 10 && left > enough; ++turn) {
        const auto bent = here.times_observed(direction);
        const double curvature = dot(direction, bent);
        if (!(curvature > 0)) return std::nullopt;
        for (std::size_t k = 0; k < step.size(); ++k) {
            step[k] += left / curvature * direction[k];
            rest[k] -= left / curvature * bent[k];
        }
        nearer = here.solve_complete(rest);
        const double before = std::exchange(left, dot(rest, nearer));
        for (std::size_t k = 0; k < step.size(); ++k) direction[k] = nearer[k] + left / before * direction[k];
    }
    return step;
}

bool ran_away(const LogisticUnknowns& at) {
    for (std::size_t item = 0; item < at.items; ++item)
        if (!(std::abs(at.slope(item)) < kRunaway)) return true;
    return false;
}

/// Goes along the step, halved until the value does not fall; stays where no part of it leads up.
LogisticSurface moved(LogisticSurface here, const std::vector<double>& step, const Compact& used,
                      const std::optional<ItemPrior>& prior, const AbilityGrid& grid) {
    // At the top the value no longer tells up from down; the last step is taken on the gradient's word.
    const double slack = 1e-11 * (1 + std::abs(here.value()));
    double length = std::min(1.0, kLongestStep / largest(step));
    for (std::size_t tries = 0; tries < kMostHalvings; ++tries, length /= 2) {
        LogisticUnknowns next = here.at();
        for (std::size_t k = 0; k < step.size(); ++k) next.values[k] += length * step[k];
        LogisticSurface there{used.data, std::move(next), prior, grid};
        if (there.value() >= here.value() - slack) return there;
    }
    return here;
}

/// Climbs to the top.
LogisticSurface climb(LogisticItems& fitted, const Compact& used, const AbilityGrid& grid) {
    const auto& prior = fitted.options.prior;
    LogisticSurface here{used.data, start(fitted, used), prior, grid};
    while (fitted.steps < kMostSteps && !fitted.converged && !ran_away(here.at())) {
        ++fitted.steps;
        std::optional<std::vector<double>> step;
        if (fitted.steps > kFirstSteps) step = newton_step(here);
        if (!step) step = here.solve_complete(here.gradient());
        fitted.converged = largest(*step) < kEnough;
        here = moved(std::move(here), *step, used, prior, grid);
    }
    return here;
}

void set_difficulty(LogisticItem& item, double intercept_variance, double slope_variance, double both) {
    item.difficulty_error = kUnknown;
    if (std::abs(item.slope) < kNoSlope) return;
    const double difficulty = -item.intercept / item.slope;
    item.difficulty = difficulty;
    const double spread = intercept_variance + difficulty * difficulty * slope_variance + 2 * difficulty * both;
    item.difficulty_error = std::sqrt(std::max(0.0, spread)) / std::abs(item.slope);
}

/// Inverse of the observed information; empty when the answers leave some direction open.
std::optional<Matrix> spread_at(const LogisticSurface& top) {
    try {
        return Cholesky{top.observed()}.inverse();
    } catch (const std::domain_error&) {
        return std::nullopt;
    }
}

/// The other direction of ability describes the answers as well: the one in which slopes sum to zero or more is given.
double upright(const LogisticUnknowns& at) {
    double sum = 0;
    for (std::size_t item = 0; item < at.items; ++item) sum += at.slope(item);
    return sum < 0 ? -1 : 1;
}

void write_out(LogisticItems& fitted, const Compact& used, const LogisticSurface& top) {
    const auto& at = top.at();
    const auto spread = fitted.options.errors ? spread_at(top) : std::nullopt;
    const double sign = upright(at);
    for (std::size_t n = 0; n < at.items; ++n) {
        auto& item = fitted.items[used.items[n]];
        const std::size_t place = at.slope_place(n);
        item.intercept = at.intercept(n);
        item.slope = sign * at.slope(n);
        const double scale = at.log_slopes ? item.slope : sign;
        const double intercept_variance = spread ? (*spread)(n, n) : kUnknown;
        const double slope_variance = spread ? scale * scale * (*spread)(place, place) : kUnknown;
        item.intercept_error = std::sqrt(intercept_variance);
        item.slope_error = std::sqrt(slope_variance);
        set_difficulty(item, intercept_variance, slope_variance, spread ? scale * (*spread)(n, place) : 0);
    }
    fitted.log_likelihood = top.log_likelihood();
    fitted.parameters = at.values.size();
}

/// Curves of all items; those not estimated are flat and never read.
ItemCurves curves_of(const LogisticItems& fitted, const AbilityGrid& grid) {
    std::vector<double> slopes;
    std::vector<double> intercepts;
    for (const auto& item : fitted.items) {
        slopes.push_back(item.slope);
        intercepts.push_back(item.intercept);
    }
    return {grid, slopes, intercepts};
}

/// Weights of abilities after a pattern, not yet scaled, as logarithms.
std::vector<double> log_after(const LogisticItems& fitted, const ItemCurves& curves, const AbilityGrid& grid,
                              const std::vector<ScoredAnswer>& answers) {
    std::vector<double> logs(grid.size());
    for (std::size_t n = 0; n < logs.size(); ++n) logs[n] = grid.log_weight(n);
    for (const auto& answer : answers) {
        if (!fitted.items.at(answer.item).estimated) continue;
        const double* log = curves.log_of(answer.item, answer.right);
        for (std::size_t n = 0; n < logs.size(); ++n) logs[n] += log[n];
    }
    return logs;
}

/// Counts of whole patterns, by which items were right; empty when some pattern is not whole.
std::map<std::vector<bool>, double> whole_counts(const std::vector<ResponsePattern>& data, std::size_t items) {
    std::map<std::vector<bool>, double> counts;
    for (const auto& pattern : data) {
        if (!(pattern.weight > 0)) continue;
        if (pattern.answers.size() != items) return {};
        std::vector<bool> right(items, false);
        for (const auto& answer : pattern.answers) right.at(answer.item) = answer.right;
        counts[right] += pattern.weight;
    }
    return counts;
}

}  // namespace

std::vector<ResponsePattern> patterns(const ResponseMatrix& matrix) {
    std::vector<ResponsePattern> all(matrix.learners());
    for (const auto& answer : matrix.answers()) all[answer.learner].answers.push_back({answer.item, answer.right()});
    return all;
}

LogisticItems fit_logistic(const std::vector<ResponsePattern>& data, std::size_t items,
                           const LogisticOptions& options) {
    check(data, items, options);
    LogisticItems fitted = counted(data, items, options);
    const Compact used = compact(fitted, data);
    if (used.items.empty()) {
        fitted.converged = true;
        return fitted;
    }
    const AbilityGrid grid{options.nodes};
    write_out(fitted, used, climb(fitted, used, grid));
    return fitted;
}

std::vector<Ability> abilities(const LogisticItems& fitted, const std::vector<ResponsePattern>& data) {
    const AbilityGrid grid{fitted.options.nodes};
    const ItemCurves curves = curves_of(fitted, grid);
    std::vector<Ability> all;
    for (const auto& pattern : data) {
        auto after = log_after(fitted, curves, grid, pattern.answers);
        normalise(after);
        Ability ability{0, 0};
        for (std::size_t n = 0; n < after.size(); ++n) ability.mean += after[n] * grid.at(n);
        for (std::size_t n = 0; n < after.size(); ++n) ability.sd += after[n] * std::pow(grid.at(n) - ability.mean, 2);
        ability.sd = std::sqrt(ability.sd);
        all.push_back(ability);
    }
    return all;
}

std::optional<PatternFit> pattern_fit(const LogisticItems& fitted, const std::vector<ResponsePattern>& data) {
    const std::size_t items = fitted.items.size();
    for (const auto& item : fitted.items)
        if (!item.estimated) return std::nullopt;
    const auto counts = whole_counts(data, items);
    if (counts.empty() || items > kMostSaturated) return std::nullopt;
    double all = 0;
    for (const auto& [right, count] : counts) all += count;
    const AbilityGrid grid{fitted.options.nodes};
    const ItemCurves curves = curves_of(fitted, grid);
    PatternFit fit;
    for (const auto& [right, count] : counts) {
        std::vector<ScoredAnswer> answers;
        for (std::size_t item = 0; item < items; ++item)
            answers.push_back({static_cast<std::uint32_t>(item), right[item]});
        auto after = log_after(fitted, curves, grid, answers);
        fit.g_squared += 2 * count * (std::log(count / all) - normalise(after));
    }
    fit.degrees = std::exp2(static_cast<double>(items)) - 1 - static_cast<double>(fitted.parameters);
    return fit;
}

}  // namespace memory
