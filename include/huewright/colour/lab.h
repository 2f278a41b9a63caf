#pragma once
// Colours that know their white and observer. Xyz<D65, Deg10> and Xyz<D50, Deg2> are different
// types: passing one for the other does not compile. A colour under a light known only at run time
// is a ViewedXyz or ViewedLab: it carries its white with it, mixes with none of the tagged types,
// and comparing two under different whites is an Error.
//
// CIE 1976 L*a*b* (cie015_2018, CIELAB equations), t = X/Xn, Y/Yn or Z/Zn:
//   f(t) = t^(1/3)                 for t > (24/116)^3
//   f(t) = (841/108)·t + 16/116    otherwise
//   L = 116·f(Y) − 16,  a = 500·(f(X) − f(Y)),  b = 200·(f(Y) − f(Z))
// Ranges: L 0 to 100 for surfaces; a and b about −130 to 130.
#include <string_view>

#include "huewright/colour/light.h"

namespace hw::colour {

// Tags. A light's white is the 5 nm sum's own, so a perfect diffuser is exactly (100, 0, 0).
struct A {
  static constexpr Illuminant kIlluminant = Illuminant::a;
};
struct D50 {
  static constexpr Illuminant kIlluminant = Illuminant::d50;
};
struct D55 {
  static constexpr Illuminant kIlluminant = Illuminant::d55;
};
struct D65 {
  static constexpr Illuminant kIlluminant = Illuminant::d65;
};
struct D75 {
  static constexpr Illuminant kIlluminant = Illuminant::d75;
};
struct Fl2 {
  static constexpr Illuminant kIlluminant = Illuminant::fl2;
};
struct Fl11 {
  static constexpr Illuminant kIlluminant = Illuminant::fl11;
};
struct LedB3 {
  static constexpr Illuminant kIlluminant = Illuminant::led_b3;
};
struct Deg2 {
  static constexpr Observer kObserver = Observer::deg2;
};
struct Deg10 {
  static constexpr Observer kObserver = Observer::deg10;
};

/// Tristimulus values [Y = 100 for the perfect diffuser].
template <class White, class Obs>
struct Xyz {
  double x = 0;
  double y = 0;
  double z = 0;
};

/// CIE 1976 L*a*b* [L 0 to 100].
template <class White, class Obs>
struct Lab {
  double l = 0;
  double a = 0;
  double b = 0;
};

/// Lab in polar form [h in degrees, 0 to 360, 0 for a neutral].
template <class White, class Obs>
struct Lch {
  double l = 0;
  double c = 0;
  double h = 0;
};

/// What every number about hair is in.
using HairXyz = Xyz<D65, Deg10>;
using HairLab = Lab<D65, Deg10>;
using HairLch = Lch<D65, Deg10>;

/// Colours under a light known only at run time; the white and observer travel with the numbers.
struct ViewedXyz {
  double x = 0;
  double y = 0;
  double z = 0;
  WhitePoint white;
  Observer observer = Observer::deg10;
};
struct ViewedLab {
  double l = 0;
  double a = 0;
  double b = 0;
  WhitePoint white;
  Observer observer = Observer::deg10;
};

/// The white of a tag pair [Y = 100]. A tag either names a light or states its white as kWhite.
template <class White, class Obs>
[[nodiscard]] const WhitePoint& white_of() {
  if constexpr (requires { White::kWhite; }) {
    return White::kWhite;
  } else {
    return viewing(White::kIlluminant, Obs::kObserver).white;
  }
}

namespace detail {
struct Triple {
  double first = 0;
  double second = 0;
  double third = 0;
};
[[nodiscard]] Triple lab_from_xyz(const Triple& xyz, const WhitePoint& white);
[[nodiscard]] Triple xyz_from_lab(const Triple& lab, const WhitePoint& white);
[[nodiscard]] Triple polar(const Triple& lab);
[[nodiscard]] Triple from_polar(const Triple& lch);
[[nodiscard]] Triple weigh(const Spectrum& reflectance, const Viewing& viewing);
}  // namespace detail

/// Lab of tristimulus values, relative to the white of their tags [L 0 to 100].
/// xyz: finite, any; below 0 the linear branch goes on. Source: cie015_2018, CIELAB.
/// Worked: half the white's X, Y, Z gives (76.069, 0, 0).
template <class White, class Obs>
[[nodiscard]] Lab<White, Obs> xyz_to_lab(const Xyz<White, Obs>& xyz) {
  const auto lab = detail::lab_from_xyz({xyz.x, xyz.y, xyz.z}, white_of<White, Obs>());
  return {lab.first, lab.second, lab.third};
}
[[nodiscard]] ViewedLab xyz_to_lab(const ViewedXyz& xyz);

/// L* alone, of Y as a share of the white's [L 0 to 100]. Source: cie015_2018, CIELAB.
/// Worked: 0.5 gives 76.069.
[[nodiscard]] double lightness_of(double y_share);

/// The inverse of xyz_to_lab [Y = 100 for the perfect diffuser].
template <class White, class Obs>
[[nodiscard]] Xyz<White, Obs> lab_to_xyz(const Lab<White, Obs>& lab) {
  const auto xyz = detail::xyz_from_lab({lab.l, lab.a, lab.b}, white_of<White, Obs>());
  return {xyz.first, xyz.second, xyz.third};
}
[[nodiscard]] ViewedXyz lab_to_xyz(const ViewedLab& lab);

/// Lightness, chroma, hue angle. Source: cie015_2018, CIELAB. Worked: (50, 0, 10) gives h = 90.
template <class White, class Obs>
[[nodiscard]] Lch<White, Obs> lab_to_lch(const Lab<White, Obs>& lab) {
  const auto lch = detail::polar({lab.l, lab.a, lab.b});
  return {lch.first, lch.second, lch.third};
}
template <class White, class Obs>
[[nodiscard]] Lab<White, Obs> lch_to_lab(const Lch<White, Obs>& lch) {
  const auto lab = detail::from_polar({lch.l, lch.c, lch.h});
  return {lab.first, lab.second, lab.third};
}

/// Tristimulus values of a surface under the tags' light [Y = 100 for the perfect diffuser].
/// reflectance: 0 to 1 per band; values outside are summed as they are.
template <class White, class Obs>
[[nodiscard]] Xyz<White, Obs> xyz_under(const Spectrum& reflectance) {
  const auto xyz = detail::weigh(reflectance, viewing(White::kIlluminant, Obs::kObserver));
  return {xyz.first, xyz.second, xyz.third};
}
[[nodiscard]] ViewedXyz xyz_under(const Spectrum& reflectance, const Viewing& viewing);

/// Lab of a surface under the tags' light.
template <class White, class Obs>
[[nodiscard]] Lab<White, Obs> lab_under(const Spectrum& reflectance) {
  return xyz_to_lab(xyz_under<White, Obs>(reflectance));
}
[[nodiscard]] ViewedLab lab_under(const Spectrum& reflectance, const Viewing& viewing);

/// Lab of a surface in D65, 10 degrees. reflectance: 0 to 1 per band.
/// Worked: reflectance 1 in every band gives (100, 0, 0); 0.18 gives (49.50, 0, 0).
[[nodiscard]] inline HairLab lab_of(const Spectrum& reflectance) {
  return lab_under<D65, Deg10>(reflectance);
}

}  // namespace hw::colour
