#pragma once
// Steps of a heavy-tailed random walk whose spread is that of the members.
#include <vector>

#include "huewright/base/random.h"
#include "square.h"

namespace hw::plan {

/// Steps from a multivariate Student t of 4 degrees of freedom about zero.
class StudentSteps {
 public:
  /// spread: covariance of what walks, positive definite; scale: of a step, in sds of it, > 0.
  StudentSteps(const Square& spread, double scale);
  /// Adds step `index` to a row, from streams first … first + d + 1.
  void add(std::vector<double>& row, const Draws& draws, std::uint64_t first,
           std::uint64_t index) const;

 private:
  Square root_;
  double scale_;
};

}  // namespace hw::plan
