#pragma once
// Steps of a heavy-tailed random walk whose spread is that of the members.
#include <span>
#include <vector>

#include "huewright/base/random.h"

namespace hw::plan {

/// A symmetric d × d matrix or its lower triangle, row by row.
struct Square {
  std::size_t d = 0;
  std::vector<double> at;
  explicit Square(std::size_t size) : d(size), at(size * size, 0) {}
  double& operator()(std::size_t i, std::size_t j) { return at[i * d + j]; }
  double operator()(std::size_t i, std::size_t j) const { return at[i * d + j]; }
};

/// Lower triangle L with L·Lᵀ = matrix; matrix: symmetric, positive definite.
[[nodiscard]] Square cholesky(const Square& matrix);

/// Covariance of rows of one length.
[[nodiscard]] Square covariance_of(const std::vector<std::vector<double>>& rows);

/// Steps from a multivariate Student t of 4 degrees of freedom about zero.
class StudentSteps {
 public:
  /// spread: covariance of what walks; scale: of a step, in sds of it, > 0.
  StudentSteps(const Square& spread, double scale) : root_(cholesky(spread)), scale_(scale) {}
  /// Adds step `index` to a row, from streams first … first + d + 1.
  void add(std::vector<double>& row, const Draws& draws, std::uint64_t first,
           std::uint64_t index) const;

 private:
  Square root_;
  double scale_;
};

}  // namespace hw::plan
