#pragma once
// RGB spaces. A space is a small record (primaries, white, transfer curve); a type that names one
// is its tag. LinearRgb<Srgb>, EncodedRgb<Srgb> and their Display P3 sisters are different types.
#include <string_view>

#include "huewright/colour/adaptation.h"

namespace hw::colour {

/// The curve between light and the stored number.
struct Transfer {
  /// 0: the piecewise curve of sRGB; above 0: a plain power with this exponent [1].
  double gamma = 0;
};

/// CIE 1931 chromaticities of the three primaries [1].
struct Primaries {
  double red_x, red_y, green_x, green_y, blue_x, blue_y;
};

struct RgbSpace {
  std::string_view name;
  Matrix3 to_xyz;    ///< linear RGB (white 1, 1, 1) to XYZ with Y = 1
  Matrix3 from_xyz;  ///< its inverse
  Transfer transfer;
};

/// The record of a space from what defines it. white: Y > 0, any scale; primaries: not in one line.
/// Error: out_of_range. Source: smpte_rp177 for the derivation.
/// Worked: the sRGB primaries and D65 (.3127, .3290) give Y = .2126 R + .7152 G + .0722 B.
[[nodiscard]] Result<RgbSpace> make_rgb_space(std::string_view name, const Primaries& primaries,
                                              const WhitePoint& white, Transfer transfer);

/// The screen's daylight: chromaticity .3127, .3290 (iec61966_2_1, white).
struct ScreenD65 {
  static constexpr WhitePoint kWhite = white_from_xy(0.3127, 0.3290);
};

/// sRGB (iec61966_2_1).
struct Srgb {
  using White = ScreenD65;
  [[nodiscard]] static const RgbSpace& space();
};
/// Display P3: the primaries of smpte_rp431_2, D65, the sRGB curve (css_color_4, display-p3).
struct DisplayP3 {
  using White = ScreenD65;
  [[nodiscard]] static const RgbSpace& space();
};

/// Amounts of light of the primaries [1 for the white]; below 0 or above 1 out of gamut.
template <class Space>
struct LinearRgb {
  double r = 0;
  double g = 0;
  double b = 0;
};
/// The numbers a file or a screen takes [0 to 1 in gamut].
template <class Space>
struct EncodedRgb {
  double r = 0;
  double g = 0;
  double b = 0;
};

/// Encodes a light amount; negative amounts mirror the curve. Source: iec61966_2_1.
/// Worked: sRGB, 0.5 gives 0.735357.
[[nodiscard]] double encode(double linear, Transfer transfer);
/// The inverse of encode().
[[nodiscard]] double decode(double encoded, Transfer transfer);

template <class Space>
[[nodiscard]] EncodedRgb<Space> encode(const LinearRgb<Space>& rgb) {
  const Transfer t = Space::space().transfer;
  return {encode(rgb.r, t), encode(rgb.g, t), encode(rgb.b, t)};
}
template <class Space>
[[nodiscard]] LinearRgb<Space> decode(const EncodedRgb<Space>& rgb) {
  const Transfer t = Space::space().transfer;
  return {decode(rgb.r, t), decode(rgb.g, t), decode(rgb.b, t)};
}

/// Linear RGB of a space from XYZ under its white [1]; not clipped.
template <class Space>
[[nodiscard]] LinearRgb<Space> xyz_to_rgb(const Xyz<typename Space::White, Deg2>& xyz) {
  const auto rgb = Space::space().from_xyz * Vector3{xyz.x / 100, xyz.y / 100, xyz.z / 100};
  return {rgb[0], rgb[1], rgb[2]};
}
/// XYZ [Y = 100 for the white] of linear RGB.
template <class Space>
[[nodiscard]] Xyz<typename Space::White, Deg2> rgb_to_xyz(const LinearRgb<Space>& rgb) {
  const auto xyz = Space::space().to_xyz * Vector3{rgb.r, rgb.g, rgb.b};
  return {100 * xyz[0], 100 * xyz[1], 100 * xyz[2]};
}

/// Contrast of two screen colours [1 to 21]; either order. Source: wcag21, "contrast ratio".
/// Worked: white on black is 21.
[[nodiscard]] double contrast_ratio(const EncodedRgb<Srgb>& one, const EncodedRgb<Srgb>& two);

}  // namespace hw::colour
