#pragma once
// What absorbs inside a strand. Everything adds linearly in the absorption coefficient
//   mu(l) = ln10 · 10 · rho · (wE·eE(l) + wP·eP(l)) + share·scale·base(l) + Σ amount_j·dye_j(l)
//   [1/cm]
// wE, wP: melanin in per cent of hair mass; eE, eP: decadic extinction [1/cm per mg/mL] of
// data/hair/melanin_extinction.csv; rho: density of hair. Warm residue, what a lightener leaves of
// eumelanin before it is colourless, is read with the pheomelanin table.
// Source: sarna_swartz_2006, jacques_melanin; the base terms are guesses (see Base).
#include <vector>

#include "huewright/colour/spectrum.h"

namespace hw::hair {

/// Density of hair [g/cm³]; from memory, 1.32.
inline constexpr double kHairDensity = 1.32;

/// Absorption [1/cm] of one per cent of hair mass of each melanin, 380–780 nm by 5 nm.
[[nodiscard]] const colour::Spectrum& eumelanin_per_percent();
[[nodiscard]] const colour::Spectrum& pheomelanin_per_percent();

/// What a strand absorbs without melanin: flat + blue·exp(−(l − 450 nm)/decay) [1/cm].
struct Base {
  double flat_per_cm = 0;
  double blue_per_cm = 0;  ///< at 450 nm
  double decay_nm = 65;
};

inline constexpr Base kNaturalBase{0, 0, 65};     // natural pigmented hair: none
inline constexpr Base kLiftedBase{3.0, 7.0, 65};  // bare lifted strand near L* 74; guess
inline constexpr Base kWhiteBase{4.6, 9.6, 70};  // natural white hair near Lab (70, 1.5, 15); guess

[[nodiscard]] colour::Spectrum base_absorption(const Base& base);

/// A dye as it sits in hair: absorption [1/cm] of one unit of amount. Bands are Gaussian in
/// wavenumber (guess for the shape), peak in nm, full width at half maximum in 1/cm.
struct DyeBand {
  double peak_nm = 0;
  double width_per_cm = 5000;
  double height_per_cm = 0;
};
[[nodiscard]] colour::Spectrum dye_absorption(const std::vector<DyeBand>& bands);

/// Generic remains of an old artificial colour by its tone word ("neutral", "red", "copper",
/// "ash"), one unit = 1/cm at the mean of 450–650 nm. Guess: three broad bands of indo dyes
/// (corbett_1971 gives peaks of 484, 511 and 554–672 nm for the oxidative dye family), mixed by
/// tone.
[[nodiscard]] colour::Spectrum old_colour_absorption(const std::string& tone);

}  // namespace hw::hair
