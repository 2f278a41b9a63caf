#pragma once
// Least squares in a few unknowns, with and without the bound that none is negative.
#include <cstddef>
#include <vector>

namespace hw::process {

/// A small dense matrix, column by column: column j, row i at values[j·rows + i].
struct Columns {
  std::size_t rows = 0;
  std::size_t cols = 0;
  std::vector<double> values;
  Columns(std::size_t row_count, std::size_t col_count)
      : rows(row_count), cols(col_count), values(row_count * col_count) {}
  [[nodiscard]] double& at(std::size_t row, std::size_t col) { return values[col * rows + row]; }
  [[nodiscard]] double at(std::size_t row, std::size_t col) const {
    return values[col * rows + row];
  }
};

struct LeastSquares {
  std::vector<double> x;     ///< one per column
  double residual_norm = 0;  ///< |A x − b|
};

/// x that makes |A x − b| least. A column that the others give already gets 0. b: one per row.
/// Source: bib: lawson_hanson_1974 ch. 11, by orthogonal columns.
[[nodiscard]] LeastSquares least_squares(const Columns& a, const std::vector<double>& b);

/// The same with every x ≥ 0. Where several are equally good, one of them. Deterministic.
/// Source: bib: lawson_hanson_1974 ch. 23, active sets. Worked: A = [1 1; 1 2], b = [1, 0] gives
/// x = [0.5, 0].
[[nodiscard]] LeastSquares nonnegative_least_squares(const Columns& a,
                                                     const std::vector<double>& b);

}  // namespace hw::process
