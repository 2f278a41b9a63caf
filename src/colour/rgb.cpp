#include "huewright/colour/rgb.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "huewright/base/check.h"

namespace hw::colour {
namespace {

// The sRGB curve, iec61966_2_1, transfer characteristic.
constexpr double kLinearKnee = 0.0031308;
constexpr double kEncodedKnee = 0.04045;
constexpr double kToeSlope = 12.92;
constexpr double kOffset = 0.055;
constexpr double kExponent = 2.4;

Vector3 unit_luminance(double x, double y) {
  return {x / y, 1, (1 - x - y) / y};
}

RgbSpace screen_space(std::string_view name, const Primaries& primaries) {
  const auto space = make_rgb_space(name, primaries, ScreenD65::kWhite, Transfer{});
  HW_CHECK(space.has_value());
  return *space;
}

}  // namespace

Result<RgbSpace> make_rgb_space(std::string_view name, const Primaries& p, const WhitePoint& white,
                                Transfer transfer) {
  const Vector3 red = unit_luminance(p.red_x, p.red_y);
  const Vector3 green = unit_luminance(p.green_x, p.green_y);
  const Vector3 blue = unit_luminance(p.blue_x, p.blue_y);
  const Matrix3 columns = {
      {{red[0], green[0], blue[0]}, {red[1], green[1], blue[1]}, {red[2], green[2], blue[2]}}};
  const auto back = inverse(columns);
  if (!back) return tl::unexpected(back.error());
  // The luminance of each primary, so that the three together make the white.
  const Vector3 luminance = *back * Vector3{white.x / white.y, 1, white.z / white.y};
  RgbSpace out{name, columns * diagonal(luminance), {}, transfer};
  auto from_xyz = inverse(out.to_xyz);
  if (!from_xyz) return tl::unexpected(std::move(from_xyz).error());
  out.from_xyz = *from_xyz;
  return out;
}

const RgbSpace& Srgb::space() {
  static const RgbSpace space =
      screen_space("srgb", {0.640, 0.330, 0.300, 0.600, 0.150, 0.060});  // iec61966_2_1, primaries
  return space;
}

const RgbSpace& DisplayP3::space() {
  static const RgbSpace space =
      screen_space("display-p3", {0.680, 0.320, 0.265, 0.690, 0.150, 0.060});  // smpte_rp431_2
  return space;
}

double encode(double linear, Transfer transfer) {
  const double size = std::abs(linear);
  if (transfer.gamma > 0) return std::copysign(std::pow(size, 1 / transfer.gamma), linear);
  if (size <= kLinearKnee) return kToeSlope * linear;
  return std::copysign((1 + kOffset) * std::pow(size, 1 / kExponent) - kOffset, linear);
}

double decode(double encoded, Transfer transfer) {
  const double size = std::abs(encoded);
  if (transfer.gamma > 0) return std::copysign(std::pow(size, transfer.gamma), encoded);
  if (size <= kEncodedKnee) return encoded / kToeSlope;
  return std::copysign(std::pow((size + kOffset) / (1 + kOffset), kExponent), encoded);
}

double contrast_ratio(const EncodedRgb<Srgb>& one, const EncodedRgb<Srgb>& two) {
  constexpr double kFlare = 0.05;  // wcag21, ambient light in the definition
  const auto luminance = [](const EncodedRgb<Srgb>& rgb) {
    return rgb_to_xyz(decode(rgb)).y / 100;
  };
  const auto [dark, light] = std::minmax({luminance(one), luminance(two)});
  return (light + kFlare) / (dark + kFlare);
}

}  // namespace hw::colour
