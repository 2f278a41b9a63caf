#include "student_t.h"

#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"

namespace hw::plan {

StudentSteps::StudentSteps(const Square& spread, double scale) : root_(spread.d), scale_(scale) {
  auto root = cholesky(spread);
  HW_CHECK(root.has_value());
  root_ = *std::move(root);
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
