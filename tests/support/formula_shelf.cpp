#include "formula_shelf.h"

#include <cmath>

#include "huewright/process/shade.h"

namespace hw::plan::test {
namespace {

enum Stream : std::uint64_t {
  kTone = 100,
  kLevel,
  kPeak,
  kWidth,
  kHeight,
  kPrice,
  kTarget,
  kMelanin,
  kHair
};

FormulaShade random_shade(const Draws& draws, std::size_t number) {
  FormulaShade shade;
  shade.id = "shade " + std::to_string(number);
  shade.price_per_g = 0.05 + 0.3 * draws.uniform(kPrice, number);
  if (number % 3 == 2) {
    const double height = 10 + 240 * draws.uniform(kHeight, number);
    shade.full = hair::dye_absorption({{420 + 200 * draws.uniform(kPeak, number),
                                        2500 + 2500 * draws.uniform(kWidth, number), height}});
    return shade;
  }
  const auto& tones = process::shade_tones();
  const std::string& tone = tones[draws.below(tones.size(), kTone, number)];
  const double level = 2 + static_cast<double>(draws.below(8, kLevel, number));
  const auto of_words = process::shade_from_words(shade.id, process::DyeClass::demi, level, tone);
  shade.full = of_words.value().full;
  return shade;
}

}  // namespace

std::vector<FormulaShade> random_shelf(const Draws& draws, std::size_t count) {
  std::vector<FormulaShade> shelf;
  for (std::size_t k = 0; k < count; ++k) shelf.push_back(random_shade(draws, k));
  return shelf;
}

std::vector<FormulaZone> random_zones(const Draws& draws, std::size_t count, std::size_t members) {
  std::vector<FormulaZone> zones(count);
  double melanin_percent = 0.05 + 0.25 * draws.uniform(kMelanin, 0);
  const colour::HairLab target{25 + 30 * draws.uniform(kTarget, 0),
                               2 + 20 * draws.uniform(kTarget, 1),
                               2 + 24 * draws.uniform(kTarget, 2)};
  for (std::size_t z = 0; z < count; ++z) {
    FormulaZone& zone = zones[z];
    zone.canvas.resize(members);
    zone.uptake.resize(members);
    for (std::size_t m = 0; m < members; ++m) {
      const auto spread = [&](std::uint64_t stream, double sd) {
        return std::exp(sd * draws.normal(kHair + stream, m));
      };
      zone.canvas.eumelanin_percent[m] = 0.2 * melanin_percent * spread(1, 0.3);
      zone.canvas.pheo_like_percent[m] = melanin_percent * spread(2, 0.3);
      zone.canvas.base_share[m] = 0.9 * spread(3, 0.05);
      zone.canvas.radius_cm[m] = 36e-4 * spread(4, 0.1);
      zone.uptake[m] = (1 + 0.15 * static_cast<double>(z)) * spread(5, 0.25);
    }
    zone.canvas.white_share = draws.seed() % 5 == 0 ? 0.3 : 0;
    zone.target = target;
    zone.weight = 1 + draws.uniform(kHair, z);
    melanin_percent *= 0.3 + 0.5 * draws.uniform(kMelanin, z + 1);
  }
  return zones;
}

std::vector<FormulaZone> first_members(const std::vector<FormulaZone>& zones, std::size_t members) {
  std::vector<FormulaZone> few = zones;
  for (FormulaZone& zone : few) {
    for (auto* array :
         {&zone.canvas.eumelanin_percent, &zone.canvas.pheo_like_percent, &zone.canvas.base_share,
          &zone.canvas.radius_cm, &zone.canvas.surface_term, &zone.uptake}) {
      array->resize(members);
    }
    for (hair::DyeLayer& dye : zone.canvas.dyes) dye.amount.resize(members);
  }
  return few;
}

}  // namespace hw::plan::test
