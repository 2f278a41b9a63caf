#pragma once
// Small systems of linear equations.
#include <optional>
#include <vector>

namespace hw::photo {

/// x of A·x = b for a symmetric positive definite A by Cholesky [unit of b over that of A]. a: n ×
/// n, row by row; b: n. Empty when A is not positive definite or not finite.
[[nodiscard]] std::optional<std::vector<double>> solve_positive(std::vector<double> a,
                                                                std::vector<double> b);
/// The inverse of such a matrix, n × n.
[[nodiscard]] std::optional<std::vector<double>> inverse_positive(const std::vector<double>& a,
                                                                  std::size_t n);

}  // namespace hw::photo
