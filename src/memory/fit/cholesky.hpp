#pragma once

#include <cstddef>
#include <vector>

namespace memory {

/// A square matrix, row by row.
class Matrix {
public:
    explicit Matrix(std::size_t size) : size_{size}, cells_(size * size, 0.0) {}
    [[nodiscard]] std::size_t size() const { return size_; }
    [[nodiscard]] double& operator()(std::size_t row, std::size_t column) { return cells_[row * size_ + column]; }
    [[nodiscard]] double operator()(std::size_t row, std::size_t column) const { return cells_[row * size_ + column]; }

private:
    std::size_t size_;
    std::vector<double> cells_;
};

/// A symmetric positive definite matrix taken apart into L * L transposed, to solve with it again and again.
/// Throws  std::domain_error when the matrix is not positive definite.
class Cholesky {
public:
    explicit Cholesky(Matrix matrix);
    [[nodiscard]] std::vector<double> solve(std::vector<double> right) const;
    [[nodiscard]] Matrix inverse() const;
    /// Natural logarithm of the determinant.
    [[nodiscard]] double log_determinant() const;

private:
    Matrix lower_;
};

}  // namespace memory
