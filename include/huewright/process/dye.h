#pragma once
// Dyes by generic name, how large they are, how fast they go into hair, and what precursors share.
//   D_water = k_B T / (6 π η r),  D_hair = D_water · 2.1e-6 Å⁻² · (7.9 Å − r)²
// Two measured dyes carry the size law (bib: holmes_1964 p. 604); between them it interpolates.
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/colour/spectrum.h"
#include "huewright/process/shade.h"

namespace hw::process {

/// One row of data/process/dyes.csv.
struct Dye {
  std::string name;  ///< INCI or Colour Index; "A + B" for what A and B form in hair
  DyeFamily family = DyeFamily::brown;
  DyeClass dye_class = DyeClass::direct;
  std::string chemistry;          ///< "nitro", "indo", "azo", …
  int charge = 0;                 ///< of the dye in the product
  std::vector<double> peaks_nm;   ///< empty where no spectrum was published
  double width_per_cm = 0;        ///< full width at half maximum
  double molar_absorptivity = 0;  ///< at the peak [L/mol/cm, decadic]; 0 when unknown
  double molar_mass = 0;          ///< [g/mol]
  double radius_angstrom = 0;     ///< of what diffuses
  std::string grade, source;
};

/// All rows. Read once.
[[nodiscard]] const std::vector<Dye>& dyes();
/// The dye of a name, whatever its case. Error: unknown_name (the hint names the nearest in class).
[[nodiscard]] Result<Dye> dye_named(std::string_view name);

/// Band of a dye at a peak of 1 [1]; two peaks share it half and half. Error: missing, for a dye
/// whose spectrum was not published.
[[nodiscard]] Result<colour::Spectrum> dye_shape(const Dye& dye);
/// Absorption [1/cm] of so much dye in hair: ln 10 · ε · c. mol_per_l: ≥ 0, of hair volume.
/// Errors: missing, where peak or molar absorptivity was not published.
[[nodiscard]] Result<colour::Spectrum> dye_in_hair(const Dye& dye, double mol_per_l);

/// Diffusion coefficient in water [m²/s] by Stokes and Einstein, 25 °C. radius_angstrom: > 0.
/// Worked: 2.0 Å gives 1.23e-9.
[[nodiscard]] double water_diffusion_m2_per_s(double radius_angstrom);
/// Diffusion coefficient in intact hair at 25 °C [m²/s] by the size law; 0 at and beyond 7.9 Å.
/// Worked: 2.0 Å gives 9.0e-14.
[[nodiscard]] double dye_diffusion_m2_per_s(double radius_angstrom);

/// Share of the final amount that a strand has taken up from a constant bath [0–1].
/// diffusion_m2_per_s: > 0; biot: cuticle resistance turned round, kNoResistance for none.
/// Worked: 5e-15 m²/s, 30 min, 72 µm, none: 0.18. Source: bib: crank_1975 ch. 5.
[[nodiscard]] double fibre_fill(double diffusion_m2_per_s, double minutes, double strand_um,
                                double biot);

/// Peak of a 2-nitro-p-phenylenediamine from what stands at its two nitrogens [nm]: 471, and 25
/// for an alkyl next to the nitro group, 20 for the first and 20 for the second hydroxyethyl at the
/// far one. Good to 10 nm, not for two methyls at either end. Source: bib: corbett_1984 p. 307.
struct NitroSubstituents {
  bool near_alkyl = false;
  int far_alkyls = 0;  ///< 0–2
};
[[nodiscard]] double nitro_peak_nm(const NitroSubstituents& substituents);

/// Share of each primary's dye when primaries compete for the same coupler [1]: its mole share,
/// whatever the coupler. moles: ≥ 0, one > 0. Source: bib: primaries_1982 p. 380.
[[nodiscard]] std::vector<double> primary_shares(std::span<const double> moles);

}  // namespace hw::process
