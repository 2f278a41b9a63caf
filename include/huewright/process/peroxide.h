#pragma once
// Arithmetic of hydrogen peroxide: strengths in the units labels and chemistry pages use, blending
// to a wished strength, heat, the active ion, what the oxidant can do at most.
//   2 H2O2 → 2 H2O + O2: one litre at X "volumes" sets free X litres of oxygen at 0 °C, 1 atm.
// Labels call 3, 6, 9, 12 per cent 10, 20, 30, 40 volume; the program counts volume that way
// everywhere (per cent × 10/3). The gas law below is a check on that habit, never shown.
#include <vector>

#include "huewright/base/result.h"
#include "huewright/base/units.h"

namespace hw::process {

/// Mass of one mole of H2O2 [g/mol]: 2·1.00794 + 2·15.9994, standard atomic weights (from memory).
inline constexpr double kPeroxideGramsPerMol = 34.0147;

/// Nominal strength in volumes [1] as labels count it: per cent × 10/3.
/// peroxide: per cent by mass, ≥ 0. Source: @cite eu_2019_831, which equates 12 % with 40 volumes.
/// Example: 6 % gives 20.
[[nodiscard]] double nominal_volume(Percent peroxide);

/// The percentage a nominal strength stands for [per cent by mass]: volumes × 3/10.
/// volumes: ≥ 0. Example: 30 gives 9.
[[nodiscard]] Percent percent_of_nominal_volume(double volumes);

/// What a page means by a mole: volume of a mole of gas and mass of a mole of peroxide.
struct GasConvention {
  double litres_per_mol;
  double peroxide_grams_per_mol;
};

/// Ideal gas at 0 °C and 101.325 kPa [L/mol]. Source: @cite codata_2018, molar volume.
inline constexpr GasConvention kOneAtmosphere{22.41397, kPeroxideGramsPerMol};

/// Amount of peroxide in a litre of solution [mol/L]: volumes × 2 / (litres of gas per mol).
/// volumes: ≥ 0. Source: the reaction above. Example: 30 with 22.4 L/mol gives 2.679.
[[nodiscard]] double molarity_of_volumes(double volumes, GasConvention gas = kOneAtmosphere);

/// Oxidising equivalents in a litre [eq/L]: two for each mol. Example: 10, 22.4 L/mol gives 1.79.
[[nodiscard]] double normality_of_volumes(double volumes, GasConvention gas = kOneAtmosphere);

/// Mass of peroxide in a litre [g/L]. Example: 10 volumes, 22.4 L/mol, 34 g/mol give 30.36.
[[nodiscard]] double grams_per_litre_of_volumes(double volumes, GasConvention gas = kOneAtmosphere);

/// Mass of peroxide in 100 mL [per cent w/v]. Example: 20 volumes give 6.07.
[[nodiscard]] double weight_per_volume_of_volumes(double volumes,
                                                  GasConvention gas = kOneAtmosphere);

/// Volumes [1] of a solution given by equivalents [eq/L], ≥ 0. Example: 1.5, 22.4 L/mol
/// gives 16.8/2.
[[nodiscard]] double volumes_of_normality(double normality, GasConvention gas = kOneAtmosphere);

/// Volumes [1] of a solution given in per cent w/v, ≥ 0: 3.295 for each per cent.
[[nodiscard]] double volumes_of_weight_per_volume(double percent_wv,
                                                  GasConvention gas = kOneAtmosphere);

/// Density of peroxide in water at 20 °C [g/mL], good to about 0.5 per cent: a parabola through
/// water whose two coefficients were fitted to the 35, 50 and 100 % values of
/// @cite wikipedia_hydrogen_peroxide. peroxide: per cent by mass, held to 0 to 100.
/// Nothing that is shown or simulated rests on it. Example: 35 % gives 1.131.
[[nodiscard]] double density_g_per_ml(Percent peroxide);

/// Parts of each strength that blend to a target [same order as strengths; only ratios matter], by
/// alligation: every strength above the target is paired with every one below, and each takes the
/// distance of its partners from the target. Strengths equal to the target take one part when
/// nothing else can be paired and none otherwise.
/// strengths: any one unit, ≥ 0, at least one. target: the same unit, ≥ 0.
/// Errors: no strength; a negative or non-finite number; target outside the strengths
/// (unreachable). Example: 50, 20 and 5 for 10 give 5, 5, 50, that is 1 : 1 : 10.
[[nodiscard]] Result<std::vector<double>> alligation_parts(const std::vector<double>& strengths,
                                                           double target);

/// Oxidant that one gram of hair meets [mmol H2O2/g hair].
/// peroxide: of the mix, per cent by mass, ≥ 0. grams_per_gram_hair: mix to hair, ≥ 0.
/// Example: 4 % at 1 g/g gives 1.18.
[[nodiscard]] double oxidant_mmol_per_gram_hair(Percent peroxide, double grams_per_gram_hair);

/// Largest share of a hair's cystine [0 to 1] that this much oxidant could turn into cysteic acid,
/// if it did nothing else: one cystine takes five H2O2, and hair holds 0.73 mmol of it per gram.
/// mmol_per_gram_hair: ≥ 0. Source: half-cystine 1407 and 1512 µmol/g, @cite robbins_kelly_1969,
/// p. 562; the five by the reaction's electrons. Example: 1.18 mmol/g gives 0.32.
[[nodiscard]] double cystine_share_within_reach(double mmol_per_gram_hair);

/// Rise in temperature [K] if all peroxide of a mix fell apart at once and no heat left the bowl:
/// 98.2 kJ/mol into a paste that takes up heat like water, 6.9 K for each per cent.
/// peroxide: per cent by mass, ≥ 0. A bound, never a forecast. Example: 6 % gives 41.
[[nodiscard]] double adiabatic_rise_k(Percent peroxide);

/// Share of the peroxide present as the ion HO2⁻ [0 to 1], the species that bleaches:
/// 1 / (1 + 10^(11.6 − pH)). ph: any; meant for 2 to 14. The 11.6 (25 °C) is from memory.
/// Example: pH 10 gives 0.0245.
[[nodiscard]] double perhydroxyl_share(double ph);

/// What is left of a strength [0 to 1] when the water held in damp hair has mixed with the film:
/// mix / (mix + water). grams_per_gram_hair: mix to hair, > 0. water_g_per_g: water to hair, ≥ 0.
/// Errors: either outside its range or not a number.
/// Source: mass balance. Example: 1.2 g mix and 0.3 g water give 0.8.
[[nodiscard]] Result<double> share_after_held_water(double grams_per_gram_hair,
                                                    double water_g_per_g);

}  // namespace hw::process
