#pragma once
// Colour differences. Both colours must be Lab of the same white and observer; anything else does
// not compile. Two ViewedLab are compared at run time: different whites are an Error.
//   delta_e_76    cie015_2018, CIELAB (a distance)
//   delta_e_94    cie116_1995 (first is the reference: not symmetric)
//   delta_e_cmc   clarke1984 (first is the reference: not symmetric)
//   delta_e_2000  sharma2005 eq. 2 to 22 (symmetric)
#include "huewright/colour/lab.h"

namespace hw::colour {

/// What the CIE94 weights were set for.
enum class Cie94Use {
  graphic_arts,  ///< kL = 1, K1 = 0.045, K2 = 0.015
  textiles,      ///< kL = 2, K1 = 0.048, K2 = 0.014
};

/// Divisors of the lightness, chroma and hue terms of CIEDE2000 [1]; 1 under the reference
/// conditions, kl = 2 for textiles.
struct Parametric {
  double kl = 1;
  double kc = 1;
  double kh = 1;
};

namespace detail {
[[nodiscard]] double delta_e_76(const Triple& one, const Triple& two);
[[nodiscard]] double delta_e_94(const Triple& reference, const Triple& sample, Cie94Use use);
[[nodiscard]] double delta_e_cmc(const Triple& reference, const Triple& sample, double l, double c);
[[nodiscard]] double delta_e_2000(const Triple& one, const Triple& two, const Parametric& k);
template <class White, class Obs>
[[nodiscard]] constexpr Triple raw(const Lab<White, Obs>& lab) {
  return {lab.l, lab.a, lab.b};
}
/// Error: conflict, when the two were seen under different whites or by different observers.
[[nodiscard]] Result<void> same_viewing(const ViewedLab& one, const ViewedLab& two);
}  // namespace detail

/// CIE 1976 difference [ΔE*ab]. Worked: (50, 30, 40) and (50, 0, 0) give 50.
template <class White, class Obs>
[[nodiscard]] double delta_e_76(const Lab<White, Obs>& one, const Lab<White, Obs>& two) {
  return detail::delta_e_76(detail::raw(one), detail::raw(two));
}

/// CIE 1994 difference of a sample from a reference [ΔE*94]. use: graphic arts unless said.
/// Worked: from (0, 0, 0) to (100, 0, 0) it is 100, for textiles 50.
template <class White, class Obs>
[[nodiscard]] double delta_e_94(const Lab<White, Obs>& reference, const Lab<White, Obs>& sample,
                                Cie94Use use = Cie94Use::graphic_arts) {
  return detail::delta_e_94(detail::raw(reference), detail::raw(sample), use);
}

/// CMC(l:c) difference of a sample from a reference [ΔE CMC]. l, c: > 0; 2:1 for acceptability,
/// 1:1 for perceptibility. Worked: reference (50, 30, 40), sample (50, 0, 0), 2:1: 19.4894.
template <class White, class Obs>
[[nodiscard]] double delta_e_cmc(const Lab<White, Obs>& reference, const Lab<White, Obs>& sample,
                                 double l = 2, double c = 1) {
  return detail::delta_e_cmc(detail::raw(reference), detail::raw(sample), l, c);
}

/// CIEDE2000 difference [ΔE00]; meant for differences below 5. Symmetric. Two hues exactly opposite
/// sit on a jump of the formula, where the last bit of the angle decides (sharma2005 pair 14).
/// Worked: (50, 2.5, 0) and (73, 25, −18) give 27.1492.
template <class White, class Obs>
[[nodiscard]] double delta_e_2000(const Lab<White, Obs>& one, const Lab<White, Obs>& two,
                                  const Parametric& k = {}) {
  return detail::delta_e_2000(detail::raw(one), detail::raw(two), k);
}

/// CIEDE2000 of two colours seen at run time [ΔE00]. Error: conflict, when white or observer
/// differ.
[[nodiscard]] Result<double> delta_e_2000(const ViewedLab& one, const ViewedLab& two,
                                          const Parametric& k = {});
/// CIE 1976 difference of two colours seen at run time [ΔE*ab]. Error: conflict, as above.
[[nodiscard]] Result<double> delta_e_76(const ViewedLab& one, const ViewedLab& two);

}  // namespace hw::colour
