#include "memory/items/logistic_surface.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace memory {
namespace {

ItemCurves curves_at(const LogisticUnknowns& at, const AbilityGrid& grid) {
    std::vector<double> slopes;
    std::vector<double> intercepts;
    for (std::size_t item = 0; item < at.items; ++item) {
        slopes.push_back(at.slope(item));
        intercepts.push_back(at.intercept(item));
    }
    return {grid, slopes, intercepts};
}

double value_of(const ScoredAnswer& answer) {
    return answer.right ? 1 : 0;
}

}  // namespace

double LogisticUnknowns::slope(std::size_t item) const {
    const double value = values[slope_place(item)];
    return log_slopes ? std::exp(value) : value;
}

LogisticSurface::LogisticSurface(const std::vector<ResponsePattern>& data, LogisticUnknowns at,
                                 const std::optional<ItemPrior>& prior, const AbilityGrid& grid)
    : data_{&data},
      at_{std::move(at)},
      grid_{&grid},
      curves_{curves_at(at_, grid)},
      complete_(at_.items),
      scale_(at_.values.size(), 1.0),
      diagonal_(at_.values.size(), 0.0),
      precision_(at_.values.size(), 0.0),
      gradient_(at_.values.size(), 0.0) {
    after_.reserve(data.size() * grid.size());
    for (const auto& pattern : data) add(pattern);
    value_ = log_likelihood_;
    if (at_.log_slopes) change_to_log_slopes();
    if (prior) add_prior(*prior);
}

void LogisticSurface::add(const ResponsePattern& pattern) {
    std::vector<double> after(grid_->size());
    for (std::size_t n = 0; n < after.size(); ++n) after[n] = grid_->log_weight(n);
    for (const auto& answer : pattern.answers) {
        const double* log = curves_.log_of(answer.item, answer.right);
        for (std::size_t n = 0; n < after.size(); ++n) after[n] += log[n];
    }
    log_likelihood_ += pattern.weight * normalise(after);
    for (const auto& answer : pattern.answers) add_answer(answer, pattern.weight, after.data());
    after_.insert(after_.end(), after.begin(), after.end());
}

void LogisticSurface::add_answer(const ScoredAnswer& answer, double weight, const double* after) {
    const double* right = curves_.right(answer.item);
    double by_intercept = 0;
    double by_slope = 0;
    Complete sum;
    for (std::size_t n = 0; n < grid_->size(); ++n) {
        const double rest = after[n] * (value_of(answer) - right[n]);
        const double spread = after[n] * right[n] * (1 - right[n]);
        const double ability = grid_->at(n);
        by_intercept += rest;
        by_slope += rest * ability;
        sum.intercept += spread;
        sum.both += spread * ability;
        sum.slope += spread * ability * ability;
    }
    gradient_[answer.item] += weight * by_intercept;
    gradient_[at_.slope_place(answer.item)] += weight * by_slope;
    auto& complete = complete_[answer.item];
    complete.intercept += weight * sum.intercept;
    complete.both += weight * sum.both;
    complete.slope += weight * sum.slope;
}

void LogisticSurface::change_to_log_slopes() {
    for (std::size_t k = at_.items; k < at_.values.size(); ++k) {
        scale_[k] = std::exp(at_.values[k]);
        gradient_[k] *= scale_[k];
        diagonal_[k] -= gradient_[k];
    }
}

void LogisticSurface::add_prior(const ItemPrior& prior) {
    for (std::size_t k = 0; k < at_.values.size(); ++k) {
        const bool slope = k >= at_.items;
        const double sd = slope ? prior.log_slope_sd : prior.intercept_sd;
        const double off = (at_.values[k] - (slope ? prior.log_slope_mean : 0)) / sd;
        value_ -= 0.5 * off * off;
        gradient_[k] -= off / sd;
        precision_[k] = 1 / (sd * sd);
        diagonal_[k] += precision_[k];
    }
}

std::vector<double> LogisticSurface::solve_complete(const std::vector<double>& right) const {
    // Intercepts touch only the slope next to them: they are eliminated, item by item, which leaves the slopes alone.
    std::vector<double> pivot(right.size(), 0.0);
    std::vector<double> solved = right;
    for (std::size_t k = at_.items; k < right.size(); ++k) pivot[k] = precision_[k];
    const auto both = [this](std::size_t item) { return complete_[item].both * scale_[at_.slope_place(item)]; };
    for (std::size_t item = 0; item < at_.items; ++item) {
        const std::size_t slope = at_.slope_place(item);
        pivot[item] = complete_[item].intercept + precision_[item];
        pivot[slope] += complete_[item].slope * scale_[slope] * scale_[slope] - both(item) * both(item) / pivot[item];
        solved[slope] -= both(item) / pivot[item] * right[item];
    }
    for (std::size_t k = at_.items; k < right.size(); ++k) solved[k] /= pivot[k];
    for (std::size_t item = 0; item < at_.items; ++item)
        solved[item] = (right[item] - both(item) * solved[at_.slope_place(item)]) / pivot[item];
    return solved;
}

std::vector<double> LogisticSurface::times_complete(const std::vector<double>& vector) const {
    std::vector<double> product(vector.size(), 0.0);
    for (std::size_t item = 0; item < at_.items; ++item) {
        const std::size_t slope = at_.slope_place(item);
        product[item] += complete_[item].intercept * vector[item] + complete_[item].both * vector[slope];
        product[slope] += complete_[item].both * vector[item] + complete_[item].slope * vector[slope];
    }
    return product;
}

void LogisticSurface::subtract_missing(const ResponsePattern& pattern, const double* after,
                                       const std::vector<double>& vector, std::vector<double>& product) const {
    const std::size_t nodes = grid_->size();
    std::vector<double> along(nodes, 0.0);  // the score in the direction of the vector, at each node
    for (const auto& answer : pattern.answers) {
        const double* right = curves_.right(answer.item);
        const double intercept = vector[answer.item];
        const double slope = vector[at_.slope_place(answer.item)];
        for (std::size_t n = 0; n < nodes; ++n)
            along[n] += (value_of(answer) - right[n]) * (intercept + slope * grid_->at(n));
    }
    double mean = 0;
    for (std::size_t n = 0; n < nodes; ++n) mean += after[n] * along[n];
    for (std::size_t n = 0; n < nodes; ++n) along[n] = pattern.weight * after[n] * (along[n] - mean);
    for (const auto& answer : pattern.answers) {
        const double* right = curves_.right(answer.item);
        double by_intercept = 0;
        double by_slope = 0;
        for (std::size_t n = 0; n < nodes; ++n) {
            const double part = along[n] * (value_of(answer) - right[n]);
            by_intercept += part;
            by_slope += part * grid_->at(n);
        }
        product[answer.item] -= by_intercept;
        product[at_.slope_place(answer.item)] -= by_slope;
    }
}

std::vector<double> LogisticSurface::times_observed(const std::vector<double>& vector) const {
    auto scaled = vector;
    for (std::size_t k = 0; k < scaled.size(); ++k) scaled[k] *= scale_[k];
    auto product = times_complete(scaled);
    for (std::size_t n = 0; n < data_->size(); ++n)
        subtract_missing((*data_)[n], &after_[n * grid_->size()], scaled, product);
    for (std::size_t k = 0; k < product.size(); ++k) product[k] = product[k] * scale_[k] + diagonal_[k] * vector[k];
    return product;
}

void LogisticSurface::gather_scores(const ResponsePattern& pattern, const double* after,
                                    std::vector<std::size_t>& places, std::vector<double>& scores) const {
    const std::size_t nodes = grid_->size();
    const std::size_t answers = pattern.answers.size();
    places.assign(at_.one_slope ? answers + 1 : 2 * answers, at_.items);
    scores.assign(places.size() * nodes, 0.0);
    for (std::size_t k = 0; k < answers; ++k) {
        const auto& answer = pattern.answers[k];
        const double* right = curves_.right(answer.item);
        const std::size_t slope = at_.one_slope ? answers : answers + k;
        places[k] = answer.item;
        places[slope] = at_.slope_place(answer.item);
        for (std::size_t n = 0; n < nodes; ++n) {
            const double rest = value_of(answer) - right[n];
            scores[k * nodes + n] = rest;
            scores[slope * nodes + n] += rest * grid_->at(n);
        }
    }
    for (std::size_t k = 0; k < places.size(); ++k) {
        double* score = &scores[k * nodes];
        double mean = 0;
        for (std::size_t n = 0; n < nodes; ++n) mean += after[n] * score[n];
        for (std::size_t n = 0; n < nodes; ++n) score[n] -= mean;
    }
}

void LogisticSurface::subtract_missing(const ResponsePattern& pattern, const double* after, Matrix& matrix) const {
    const std::size_t nodes = grid_->size();
    std::vector<std::size_t> places;
    std::vector<double> scores;
    gather_scores(pattern, after, places, scores);
    for (std::size_t a = 0; a < places.size(); ++a)
        for (std::size_t b = 0; b <= a; ++b) {
            const double* first = &scores[a * nodes];
            const double* second = &scores[b * nodes];
            double sum = 0;
            for (std::size_t n = 0; n < nodes; ++n) sum += after[n] * first[n] * second[n];
            matrix(std::max(places[a], places[b]), std::min(places[a], places[b])) -= pattern.weight * sum;
        }
}

Matrix LogisticSurface::observed() const {
    Matrix matrix{at_.values.size()};
    for (std::size_t item = 0; item < at_.items; ++item) {
        const std::size_t slope = at_.slope_place(item);
        matrix(item, item) += complete_[item].intercept;
        matrix(slope, item) += complete_[item].both;
        matrix(slope, slope) += complete_[item].slope;
    }
    for (std::size_t n = 0; n < data_->size(); ++n) subtract_missing((*data_)[n], &after_[n * grid_->size()], matrix);
    for (std::size_t row = 0; row < matrix.size(); ++row) {
        for (std::size_t column = 0; column <= row; ++column)
            matrix(column, row) = matrix(row, column) *= scale_[row] * scale_[column];
        matrix(row, row) += diagonal_[row];
    }
    return matrix;
}

}  // namespace memory
