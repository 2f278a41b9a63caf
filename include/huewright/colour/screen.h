#pragma once
// From a hair colour to the numbers a screen takes. Gamut mapping is the last step, done once: in
// OKLCH at constant lightness and hue, chroma falls until the colour cut to the gamut is within
// ΔE_OK 0.02 of the colour wanted (css_color_4 sec. 13.2.1, binary search with local MINDE).
//
// OKLab (ottosson2020): lms = M1·XYZ, lms' = cube root, (L, a, b) = M2·lms'. Rows of M1 are scaled
// so that the screen's white is exactly lms = 1, as css_color_4 does.
// Ranges: L 0 to 1, a and b about −0.4 to 0.4.
#include <array>
#include <cstdint>

#include "huewright/colour/rgb.h"

namespace hw::colour {

using ScreenXyz = Xyz<ScreenD65, Deg2>;
using ScreenLab = Lab<ScreenD65, Deg2>;

struct OkLab {
  double l = 0;  ///< 0 to 1
  double a = 0;
  double b = 0;
};
struct OkLch {
  double l = 0;  ///< 0 to 1
  double c = 0;  ///< 0 to about 0.4
  double h = 0;  ///< degrees, 0 to 360, 0 for a neutral
};

/// OKLab of a screen colour [L 0 to 1]. Source: ottosson2020. Worked: the white gives (1, 0, 0).
[[nodiscard]] OkLab xyz_to_oklab(const ScreenXyz& xyz);
[[nodiscard]] ScreenXyz oklab_to_xyz(const OkLab& lab);
[[nodiscard]] OkLch oklab_to_oklch(const OkLab& lab);
[[nodiscard]] OkLab oklch_to_oklab(const OkLch& lch);
/// Distance in OKLab [ΔE_OK]. Source: css_color_4, deltaEOK.
[[nodiscard]] double delta_e_ok(const OkLab& one, const OkLab& two);

enum class ScreenSpace { srgb, display_p3 };

/// A space by its name: "srgb" or "display-p3". Error: unknown_name.
[[nodiscard]] Result<ScreenSpace> screen_space_named(std::string_view name);

/// A colour ready for the screen.
struct ScreenColour {
  double r = 0;  ///< encoded, 0 to 1
  double g = 0;
  double b = 0;
  bool in_gamut = true;  ///< false: the screen cannot show it and this is the nearest it can
};

/// A hair colour re-read under the screen's white: the same L, a, b. Black to white and every
/// neutral stay where they are; what the two observers see differently is left out.
[[nodiscard]] constexpr ScreenLab on_screen_white(const HairLab& lab) {
  return {lab.l, lab.a, lab.b};
}

/// A screen colour brought into the gamut [encoded, 0 to 1]. Colours inside are returned unchanged
/// but for rounding below half a step of 16 bits. Source: css_color_4 sec. 13.2.1.
[[nodiscard]] ScreenColour map_to_gamut(const ScreenXyz& xyz, ScreenSpace space);

/// A hair colour for a screen [encoded RGB, 0 to 1]. lab: finite, L any: 100 and above a neutral is
/// white, 0 and below is black. Deterministic. Error cases: none.
/// Source: iec61966_2_1, css_color_4. Worked: (100, 0, 0) gives 1, 1, 1; (50, 0, 0) gives
/// 0.46633 three times.
[[nodiscard]] ScreenColour to_screen(const HairLab& lab, ScreenSpace space);

/// The three channels as whole numbers [0 to 255], for 24-bit colour in a terminal.
[[nodiscard]] std::array<std::uint8_t, 3> eight_bit(const ScreenColour& colour);

}  // namespace hw::colour
