#include "huewright/colour/lab.h"

#include <cmath>
#include <numbers>

namespace hw::colour {
namespace {

// Constants of the CIELAB equations, cie015_2018.
constexpr double kKnee = 24.0 / 116.0;  // of f; its cube is the knee of t
constexpr double kSlope = 841.0 / 108.0;
constexpr double kOffset = 16.0 / 116.0;
constexpr double kDegrees = 180.0 / std::numbers::pi;
constexpr double kFullTurn = 360;  // degrees

double f(double t) {
  return t > kKnee * kKnee * kKnee ? std::cbrt(t) : kSlope * t + kOffset;
}

double f_inverse(double f_value) {
  return f_value > kKnee ? f_value * f_value * f_value : (f_value - kOffset) / kSlope;
}

}  // namespace

namespace detail {

Triple lab_from_xyz(const Triple& xyz, const WhitePoint& white) {
  const double fx = f(xyz.first / white.x);
  const double fy = f(xyz.second / white.y);
  const double fz = f(xyz.third / white.z);
  return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

Triple xyz_from_lab(const Triple& lab, const WhitePoint& white) {
  const double fy = (lab.first + 16) / 116;
  const double fx = fy + lab.second / 500;
  const double fz = fy - lab.third / 200;
  return {white.x * f_inverse(fx), white.y * f_inverse(fy), white.z * f_inverse(fz)};
}

Triple polar(const Triple& lab) {
  const double chroma = std::hypot(lab.second, lab.third);
  if (chroma == 0) return {lab.first, 0, 0};
  const double hue = std::atan2(lab.third, lab.second) * kDegrees;
  return {lab.first, chroma, hue < 0 ? hue + kFullTurn : hue};
}

Triple from_polar(const Triple& lch) {
  const double hue = lch.third / kDegrees;
  return {lch.first, lch.second * std::cos(hue), lch.second * std::sin(hue)};
}

Triple weigh(const Spectrum& reflectance, const Viewing& viewing) {
  Triple sum;
  for (std::size_t band = 0; band < kBands; ++band) {
    sum.first += reflectance[band] * viewing.x[band];
    sum.second += reflectance[band] * viewing.y[band];
    sum.third += reflectance[band] * viewing.z[band];
  }
  return sum;
}

}  // namespace detail

double lightness_of(double y_share) {
  return 116 * f(y_share) - 16;
}

ViewedLab xyz_to_lab(const ViewedXyz& xyz) {
  const auto lab = detail::lab_from_xyz({xyz.x, xyz.y, xyz.z}, xyz.white);
  return {lab.first, lab.second, lab.third, xyz.white, xyz.observer};
}

ViewedXyz lab_to_xyz(const ViewedLab& lab) {
  const auto xyz = detail::xyz_from_lab({lab.l, lab.a, lab.b}, lab.white);
  return {xyz.first, xyz.second, xyz.third, lab.white, lab.observer};
}

ViewedXyz xyz_under(const Spectrum& reflectance, const Viewing& viewing) {
  const auto xyz = detail::weigh(reflectance, viewing);
  return {xyz.first, xyz.second, xyz.third, viewing.white, viewing.observer};
}

ViewedLab lab_under(const Spectrum& reflectance, const Viewing& viewing) {
  return xyz_to_lab(xyz_under(reflectance, viewing));
}

}  // namespace hw::colour
