#pragma once
// Sums of what people wrote down as decimals.
#include <cmath>

namespace hw::book {

/// A sum of money or grams as a person adds it up, to a millionth. In binary fractions 0.1 and 0.2
/// come to a little more than 0.3. sum: up to 10⁹ either way.
[[nodiscard]] inline double tidy(double sum) {
  constexpr double kParts = 1e6;
  return std::round(sum * kParts) / kParts;
}

}  // namespace hw::book
