#include "formula_cases.h"

#include <fmt/format.h>

#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/random.h"
#include "huewright/process/shade.h"

namespace hw::bench {
namespace {

constexpr std::uint64_t kSeed = 7;

plan::FormulaShade shade_of_words(std::size_t number) {
  constexpr std::size_t kStride = 5;  // no divisor of the number of tones: levels and tones mix
  constexpr double kPricePerG = 0.15;
  const auto& tones = process::shade_tones();
  const std::size_t tone = number * kStride % tones.size();
  const double level = 3 + static_cast<double>(number * 3 % 7);
  const std::string id = fmt::format("{}-{}-{}", tones[tone], level, number);
  const auto shade = process::shade_from_words(id, process::DyeClass::demi, level, tones[tone]);
  HW_CHECK(shade.has_value());
  return {id, shade->full, 1e9, kPricePerG};
}

plan::FormulaShade shade_of_spectrum(std::size_t number) {
  constexpr double kPricePerG = 0.2;
  const Draws draws(kSeed);
  const double peak_nm = 420 + 200 * draws.uniform(1, number);
  const double width_per_cm = 2500 + 2500 * draws.uniform(2, number);
  const double height_per_cm = 20 + 230 * draws.uniform(3, number);
  return {fmt::format("dye-{:.0f}", peak_nm),
          hair::dye_absorption({{peak_nm, width_per_cm, height_per_cm}}), 1e9, kPricePerG};
}

}  // namespace

std::vector<plan::FormulaShade> formula_shelf(std::size_t count) {
  HW_CHECK(count <= 90);
  std::vector<plan::FormulaShade> shelf;
  for (std::size_t k = 0; k < count; ++k) {
    shelf.push_back(k % 3 == 2 ? shade_of_spectrum(k) : shade_of_words(k));
  }
  return shelf;
}

std::vector<plan::FormulaZone> formula_zones(std::size_t count, std::size_t members,
                                             const colour::HairLab& target) {
  const Draws draws(kSeed);
  std::vector<plan::FormulaZone> zones(count);
  for (std::size_t z = 0; z < count; ++z) {
    plan::FormulaZone& zone = zones[z];
    const double melanin_percent = 0.18 / (1 + static_cast<double>(z));  // roots darker than ends
    zone.canvas.resize(members);
    zone.uptake.resize(members);
    for (std::size_t m = 0; m < members; ++m) {
      zone.canvas.eumelanin_percent[m] = 0.2 * melanin_percent * std::exp(0.3 * draws.normal(1, m));
      zone.canvas.pheo_like_percent[m] = melanin_percent * std::exp(0.3 * draws.normal(2, m));
      zone.canvas.base_share[m] = 0.9 + 0.05 * draws.normal(3, m);
      zone.canvas.radius_cm[m] = 36e-4 * std::exp(0.1 * draws.normal(4, m));
      zone.uptake[m] = (1 + 0.2 * static_cast<double>(z)) * std::exp(0.25 * draws.normal(5, m));
    }
    zone.target = target;
  }
  return zones;
}

const std::vector<colour::HairLab>& formula_targets() {
  static const std::vector<colour::HairLab> targets = {
      {38, 9, 16}, {42, 24, 30}, {25, 18, 3}, {58, 6, 20}};
  return targets;
}

}  // namespace hw::bench
