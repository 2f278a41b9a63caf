#pragma once
// 3 × 3 matrices of colour conversions.
#include <array>

#include "huewright/base/result.h"

namespace hw::colour {

using Vector3 = std::array<double, 3>;
/// Rows of a 3 × 3 matrix.
using Matrix3 = std::array<Vector3, 3>;

[[nodiscard]] Vector3 operator*(const Matrix3& m, const Vector3& v);
[[nodiscard]] Matrix3 operator*(const Matrix3& a, const Matrix3& b);
[[nodiscard]] Matrix3 diagonal(const Vector3& v);
/// The inverse. Error: out_of_range when the determinant is 0 or not finite.
[[nodiscard]] Result<Matrix3> inverse(const Matrix3& m);

}  // namespace hw::colour
