#include "huewright/colour/matrix.h"

#include <cmath>

namespace hw::colour {

Vector3 operator*(const Matrix3& m, const Vector3& v) {
  Vector3 out{};
  for (std::size_t row = 0; row < 3; ++row) {
    out[row] = m[row][0] * v[0] + m[row][1] * v[1] + m[row][2] * v[2];
  }
  return out;
}

Matrix3 operator*(const Matrix3& a, const Matrix3& b) {
  Matrix3 out{};
  for (std::size_t row = 0; row < 3; ++row) {
    for (std::size_t column = 0; column < 3; ++column) {
      out[row][column] =
          a[row][0] * b[0][column] + a[row][1] * b[1][column] + a[row][2] * b[2][column];
    }
  }
  return out;
}

Matrix3 diagonal(const Vector3& v) {
  return {{{v[0], 0, 0}, {0, v[1], 0}, {0, 0, v[2]}}};
}

Result<Matrix3> inverse(const Matrix3& m) {
  // The cofactor of (row, column), with the cyclic indices that carry its sign.
  const auto cofactor = [&m](std::size_t row, std::size_t column) {
    const std::size_t r1 = (row + 1) % 3;
    const std::size_t r2 = (row + 2) % 3;
    const std::size_t c1 = (column + 1) % 3;
    const std::size_t c2 = (column + 2) % 3;
    return m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1];
  };
  const double determinant =
      m[0][0] * cofactor(0, 0) + m[0][1] * cofactor(0, 1) + m[0][2] * cofactor(0, 2);
  if (determinant == 0 || !std::isfinite(determinant)) {
    return fail(ErrorCode::out_of_range, "the matrix cannot be inverted", "matrix",
                "give three independent primaries");
  }
  Matrix3 out{};
  for (std::size_t row = 0; row < 3; ++row) {
    for (std::size_t column = 0; column < 3; ++column) {
      out[row][column] = cofactor(column, row) / determinant;
    }
  }
  return out;
}

}  // namespace hw::colour
