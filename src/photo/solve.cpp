#include "solve.h"

#include <cmath>

namespace hw::photo {
namespace {

/// L of A = L·Lᵀ in the lower half of a.
bool factor(std::vector<double>& a, std::size_t n) {
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t i = j; i < n; ++i) {
      double sum = a[i * n + j];
      for (std::size_t k = 0; k < j; ++k) sum -= a[i * n + k] * a[j * n + k];
      if (i == j) {
        if (!(sum > 0) || !std::isfinite(sum)) return false;
        a[j * n + j] = std::sqrt(sum);
      } else {
        a[i * n + j] = sum / a[j * n + j];
      }
    }
  }
  return true;
}

void substitute(const std::vector<double>& l, std::size_t n, std::vector<double>& b) {
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k) b[i] -= l[i * n + k] * b[k];
    b[i] /= l[i * n + i];
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) b[i] -= l[k * n + i] * b[k];
    b[i] /= l[i * n + i];
  }
}

}  // namespace

std::optional<std::vector<double>> solve_positive(std::vector<double> a, std::vector<double> b) {
  if (!factor(a, b.size())) return std::nullopt;
  substitute(a, b.size(), b);
  return b;
}

std::optional<std::vector<double>> inverse_positive(const std::vector<double>& a, std::size_t n) {
  std::vector<double> l = a;
  if (!factor(l, n)) return std::nullopt;
  std::vector<double> inverse(n * n);
  for (std::size_t j = 0; j < n; ++j) {
    std::vector<double> column(n, 0.0);
    column[j] = 1;
    substitute(l, n, column);
    for (std::size_t i = 0; i < n; ++i) inverse[i * n + j] = column[i];
  }
  return inverse;
}

}  // namespace hw::photo
