#pragma once
// The colour under one white that looks like a given colour under another (corresponding colour),
// full adaptation: XYZ_to = M⁻¹ · diag(ρ_to / ρ_from) · M · XYZ_from, ρ = M · white.
// M for Bradford and von Kries: lindbloom, "Chromatic Adaptation"; CAT02: cie159_2004.
#include "huewright/colour/lab.h"
#include "huewright/colour/matrix.h"

namespace hw::colour {

enum class Adaptation {
  bradford,     ///< used everywhere unless said
  von_kries,    ///< Hunt-Pointer-Estevez cones
  xyz_scaling,  ///< each of X, Y, Z scaled by itself
  cat02,        ///< of CIECAM02
};

/// A white of a chromaticity [Y = 100]. x, y: CIE chromaticity, y > 0.
[[nodiscard]] constexpr WhitePoint white_from_xy(double x, double y) {
  return {100 * x / y, 100, 100 * (1 - x - y) / y};
}

/// The matrix that takes XYZ from one white to another [1]. from, to: any scale, all parts > 0; the
/// result is for whites of equal Y. Exact inverse when from and to change places.
/// Worked: Bradford, .96422/1/.82521 to .95047/1/1.08883: first row .9555766, −.0230393, .0631636.
[[nodiscard]] Matrix3 adaptation_matrix(const WhitePoint& from, const WhitePoint& to,
                                        Adaptation by = Adaptation::bradford);

/// The corresponding colour under another white, same observer [Y = 100 for the perfect diffuser].
/// Use: adapt<D50>(xyz). Whites map to whites. Source: lindbloom, "Chromatic Adaptation".
template <class To, class From, class Obs>
[[nodiscard]] Xyz<To, Obs> adapt(const Xyz<From, Obs>& xyz, Adaptation by = Adaptation::bradford) {
  const auto out = adaptation_matrix(white_of<From, Obs>(), white_of<To, Obs>(), by) *
                   Vector3{xyz.x, xyz.y, xyz.z};
  return {out[0], out[1], out[2]};
}

/// The daylight colour that looks like a colour seen under a light known at run time [Lab D65/10].
/// lab: by the 10 degree observer. Error: conflict, when it was seen by the 2 degree observer.
/// Worked: the white of any light gives (100, 0, 0).
[[nodiscard]] Result<HairLab> looks_in_daylight(const ViewedLab& lab);

}  // namespace hw::colour
