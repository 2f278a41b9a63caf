#pragma once
// Small dense symmetric algebra.
#include <optional>
#include <vector>

namespace hw::plan {

/// A symmetric d × d matrix or its lower triangle, row by row.
struct Square {
  std::size_t d = 0;
  std::vector<double> at;
  explicit Square(std::size_t size) : d(size), at(size * size, 0) {}
  double& operator()(std::size_t i, std::size_t j) { return at[i * d + j]; }
  double operator()(std::size_t i, std::size_t j) const { return at[i * d + j]; }
};

/// Lower triangle L with L·Lᵀ = matrix; none when the symmetric matrix is not positive definite.
[[nodiscard]] std::optional<Square> cholesky(const Square& matrix);
/// x of matrix·x = right, by the matrix's root.
[[nodiscard]] std::vector<double> solve(const Square& root, std::vector<double> right);
/// Inverse of a matrix by its root.
[[nodiscard]] Square inverse(const Square& root);

/// Covariance of rows of one length; a quantity that no row varies gets a trace of variance.
[[nodiscard]] Square covariance_of(const std::vector<std::vector<double>>& rows);

}  // namespace hw::plan
