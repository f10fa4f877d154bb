#include "memory/fit/cholesky.hpp"

#include <cmath>
#include <stdexcept>

namespace memory {

Cholesky::Cholesky(Matrix matrix) : lower_{std::move(matrix)} {
    for (std::size_t j = 0; j < lower_.size(); ++j) {
        double pivot = lower_(j, j);
        for (std::size_t k = 0; k < j; ++k) pivot -= lower_(j, k) * lower_(j, k);
        if (!(pivot > 0)) throw std::domain_error{"the matrix is not positive definite"};
        const double root = std::sqrt(pivot);
        lower_(j, j) = root;
        for (std::size_t i = j + 1; i < lower_.size(); ++i) {
            double cell = lower_(i, j);
            for (std::size_t k = 0; k < j; ++k) cell -= lower_(i, k) * lower_(j, k);
            lower_(i, j) = cell / root;
        }
    }
}

std::vector<double> Cholesky::solve(std::vector<double> right) const {
    const std::size_t size = lower_.size();
    for (std::size_t i = 0; i < size; ++i) {
        for (std::size_t k = 0; k < i; ++k) right[i] -= lower_(i, k) * right[k];
        right[i] /= lower_(i, i);
    }
    for (std::size_t i = size; i-- > 0;) {
        for (std::size_t k = i + 1; k < size; ++k) right[i] -= lower_(k, i) * right[k];
        right[i] /= lower_(i, i);
    }
    return right;
}

Matrix Cholesky::inverse() const {
    Matrix inverse{lower_.size()};
    for (std::size_t column = 0; column < lower_.size(); ++column) {
        std::vector<double> unit(lower_.size(), 0.0);
        unit[column] = 1;
        const auto solved = solve(std::move(unit));
        for (std::size_t row = 0; row < lower_.size(); ++row) inverse(row, column) = solved[row];
    }
    return inverse;
}

double Cholesky::log_determinant() const {
    double sum = 0;
    for (std::size_t j = 0; j < lower_.size(); ++j) sum += 2 * std::log(lower_(j, j));
    return sum;
}

}  // namespace memory
