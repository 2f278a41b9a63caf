#include "square.h"

#include <cmath>

namespace hw::plan {

std::optional<Square> cholesky(const Square& matrix) {
  Square root(matrix.d);
  for (std::size_t i = 0; i < matrix.d; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = matrix(i, j);
      for (std::size_t k = 0; k < j; ++k) sum -= root(i, k) * root(j, k);
      if (i == j) {
        if (!(sum > 0)) return std::nullopt;
        root(i, i) = std::sqrt(sum);
      } else {
        root(i, j) = sum / root(j, j);
      }
    }
  }
  return root;
}

std::vector<double> solve(const Square& root, std::vector<double> right) {
  for (std::size_t i = 0; i < root.d; ++i) {
    for (std::size_t k = 0; k < i; ++k) right[i] -= root(i, k) * right[k];
    right[i] /= root(i, i);
  }
  for (std::size_t i = root.d; i-- > 0;) {
    for (std::size_t k = i + 1; k < root.d; ++k) right[i] -= root(k, i) * right[k];
    right[i] /= root(i, i);
  }
  return right;
}

Square inverse(const Square& root) {
  Square out(root.d);
  for (std::size_t j = 0; j < root.d; ++j) {
    std::vector<double> unit(root.d, 0);
    unit[j] = 1;
    const auto column = solve(root, std::move(unit));
    for (std::size_t i = 0; i < root.d; ++i) out(i, j) = column[i];
  }
  return out;
}

Square covariance_of(const std::vector<std::vector<double>>& rows) {
  constexpr double kLeastVariance = 1e-6;
  const std::size_t d = rows.front().size();
  const double share = 1 / static_cast<double>(rows.size());
  std::vector<double> middle(d, 0);
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < d; ++i) middle[i] += share * row[i];
  }
  Square spread(d);
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < d; ++i) {
      const double off = share * (row[i] - middle[i]);
      for (std::size_t j = 0; j < d; ++j) spread(i, j) += off * (row[j] - middle[j]);
    }
  }
  for (std::size_t i = 0; i < d; ++i) spread(i, i) += kLeastVariance;
  return spread;
}

}  // namespace hw::plan
