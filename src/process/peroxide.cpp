#include "huewright/process/peroxide.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/base/elementary.h"

namespace hw::process {
namespace {

constexpr double kNominalVolumesOf12Percent = 40;  // EU law sets 12 % equal to 40 volumes
constexpr double kMolPeroxidePerMolOxygen = 2;     // 2 H2O2 → 2 H2O + O2
constexpr double kEquivalentsPerMol = 2;           // H2O2 takes up two electrons
constexpr double kLitreInHundredMl = 10;           // 1 L = 10 × 100 mL

/// ρ = ρ_water + a·c + b·c², c in per cent by mass, 20 °C [g/mL].
constexpr double kWaterDensity = 0.9982;               // pure water at 20 °C, from memory
constexpr double kDensityPerPercent = 0.0034;          // fitted, see the header
constexpr double kDensityPerPercentSquared = 1.12e-5;  // fitted, see the header

/// Half-cystine of nearly unaltered hair, mean of 1407 and 1512 [µmol/g]; two halves make one.
constexpr double kCystineMmolPerGram = (1407 + 1512) / 2.0 / 2.0 / 1000.0;
constexpr double kPeroxidePerCystine = 5;  // RSSR + 5 H2O2 → 2 RSO3H + 4 H2O

/// Heat of 2 H2O2 → 2 H2O + O2 [kJ/mol H2O2]: formation enthalpies −285.8 and −187.6, data sheets.
constexpr double kDecompositionKjPerMol = 285.8 - 187.6;
constexpr double kWaterHeatKjPerKgK = 4.18;  // liquid water, 25 °C, from memory

constexpr double kPeroxidePka = 11.6;  // H2O2 in water, 25 °C, from memory

bool is_amount(double value) {
  return std::isfinite(value) && value >= 0;
}

}  // namespace

double nominal_volume(Percent peroxide) {
  return peroxide.value() * kNominalVolumesOf12Percent / 12;
}

Percent percent_of_nominal_volume(double volumes) {
  return Percent(volumes * 12 / kNominalVolumesOf12Percent);
}

double molarity_of_volumes(double volumes, GasConvention gas) {
  return volumes * kMolPeroxidePerMolOxygen / gas.litres_per_mol;
}

double normality_of_volumes(double volumes, GasConvention gas) {
  return kEquivalentsPerMol * molarity_of_volumes(volumes, gas);
}

double grams_per_litre_of_volumes(double volumes, GasConvention gas) {
  return molarity_of_volumes(volumes, gas) * gas.peroxide_grams_per_mol;
}

double weight_per_volume_of_volumes(double volumes, GasConvention gas) {
  return grams_per_litre_of_volumes(volumes, gas) / kLitreInHundredMl;
}

double volumes_of_normality(double normality, GasConvention gas) {
  return normality / normality_of_volumes(1, gas);
}

double volumes_of_weight_per_volume(double percent_wv, GasConvention gas) {
  return percent_wv / weight_per_volume_of_volumes(1, gas);
}

double density_g_per_ml(Percent peroxide) {
  const double c = std::clamp(peroxide.value(), 0.0, 100.0);
  return kWaterDensity + kDensityPerPercent * c + kDensityPerPercentSquared * c * c;
}

Result<std::vector<double>> alligation_parts(const std::vector<double>& strengths, double target) {
  if (strengths.empty()) {
    return fail(ErrorCode::missing, "nothing to blend", "strengths", "give at least one strength");
  }
  for (std::size_t i = 0; i < strengths.size(); ++i) {
    if (is_amount(strengths[i])) continue;
    return fail(ErrorCode::out_of_range, fmt::format("{} is no strength", strengths[i]),
                fmt::format("strengths[{}]", i), "give a number of 0 or more");
  }
  const auto [weakest, strongest] = std::minmax_element(strengths.begin(), strengths.end());
  if (!(*weakest <= target && target <= *strongest)) {
    return fail(ErrorCode::unreachable,
                fmt::format("{} lies outside {} to {}", target, *weakest, *strongest), "target",
                "add something stronger or weaker");
  }
  std::vector<double> parts(strengths.size(), 0.0);
  for (std::size_t high = 0; high < strengths.size(); ++high) {
    for (std::size_t low = 0; low < strengths.size(); ++low) {
      if (!(strengths[high] > target && target > strengths[low])) continue;
      parts[high] += target - strengths[low];
      parts[low] += strengths[high] - target;
    }
  }
  const bool paired = *weakest < target && target < *strongest;
  for (std::size_t i = 0; i < strengths.size() && !paired; ++i) {
    if (strengths[i] == target) parts[i] = 1;
  }
  return parts;
}

double oxidant_mmol_per_gram_hair(Percent peroxide, double grams_per_gram_hair) {
  const double grams_peroxide = peroxide.value() / 100 * grams_per_gram_hair;
  return grams_peroxide * 1000 / kPeroxideGramsPerMol;
}

double cystine_share_within_reach(double mmol_per_gram_hair) {
  return std::min(1.0, mmol_per_gram_hair / (kPeroxidePerCystine * kCystineMmolPerGram));
}

double adiabatic_rise_k(Percent peroxide) {
  const double mol_per_kg = peroxide.value() / 100 * 1000 / kPeroxideGramsPerMol;
  return mol_per_kg * kDecompositionKjPerMol / kWaterHeatKjPerKgK;
}

double perhydroxyl_share(double ph) {
  return 1 / (1 + pow_portable(10, kPeroxidePka - ph));
}

Result<double> share_after_held_water(double grams_per_gram_hair, double water_g_per_g) {
  if (!(std::isfinite(grams_per_gram_hair) && grams_per_gram_hair > 0)) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{} g mix per g hair is not above 0", grams_per_gram_hair),
                "grams_per_gram_hair", "1 to 3 is usual");
  }
  if (!is_amount(water_g_per_g)) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{} g water per g hair is below 0", water_g_per_g),
                "water_held_g_per_g", "0 for dry hair; 0.3 for towel-dry hair");
  }
  return grams_per_gram_hair / (grams_per_gram_hair + water_g_per_g);
}

}  // namespace hw::process
