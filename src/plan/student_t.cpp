#include "student_t.h"

#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"

namespace hw::plan {

Square cholesky(const Square& matrix) {
  Square root(matrix.d);
  for (std::size_t i = 0; i < matrix.d; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = matrix(i, j);
      for (std::size_t k = 0; k < j; ++k) sum -= root(i, k) * root(j, k);
      if (i == j) {
        HW_CHECK(sum > 0);
        root(i, i) = std::sqrt(sum);
      } else {
        root(i, j) = sum / root(j, j);
      }
    }
  }
  return root;
}

Square covariance_of(const std::vector<std::vector<double>>& rows) {
  constexpr double kLeastVariance = 1e-6;  // of a quantity that hardly any member varies
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

void StudentSteps::add(std::vector<double>& row, const Draws& draws, std::uint64_t first,
                       std::uint64_t index) const {
  constexpr double kFreedom = 4;  // degrees of freedom
  const std::size_t d = root_.d;
  // Chi-square of 4 degrees of freedom: −2 ln(u₁u₂).
  const double chi_square = -2 * (log_portable(draws.uniform(first + d, index)) +
                                  log_portable(draws.uniform(first + d + 1, index)));
  const double stretched = scale_ * std::sqrt(kFreedom / chi_square);
  for (std::size_t j = 0; j < d; ++j) {
    const double z = stretched * draws.normal(first + j, index);
    for (std::size_t i = j; i < d; ++i) row[i] += root_(i, j) * z;
  }
}

}  // namespace hw::plan
