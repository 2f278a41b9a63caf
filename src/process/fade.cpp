#include "huewright/process/fade.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "huewright/base/elementary.h"
#include "huewright/process/kinetics.h"
#include "process_tables.h"

namespace hw::process {
namespace {

constexpr double kLightPower = 0.58;  // 16 h + 2 washes against 32 h + 4: bib photofilters_2005

struct Row {
  std::string dye_class, family, hair;
  FadeConstants constants;
};

const std::vector<Row>& rows() {
  static const std::vector<Row> all = [] {
    const auto table = parse_table(tables::fade, "process/fade.csv");
    HW_CHECK(table.has_value());
    std::vector<Row> list;
    for (std::size_t row = 0; row < table->rows(); ++row) {
      FadeConstants constants;
      constants.washes = *table->number(row, "washes");
      constants.power = *table->number(row, "power");
      constants.light_h = *table->number(row, "light_h");
      list.push_back({*table->text(row, "class"), *table->text(row, "family"),
                      *table->text(row, "hair"), constants});
    }
    return list;
  }();
  return all;
}

/// Straight between the corners; flat beyond them.
double ph_factor(double ph) {
  constexpr double kAcid = 5.5, kNeutral = 7, kAlkaline = 8.5;
  constexpr double kAcidFactor = 0.9, kAlkalineFactor = 1.3;
  if (ph <= kAcid) return kAcidFactor;
  if (ph <= kNeutral) return kAcidFactor + (1 - kAcidFactor) * (ph - kAcid) / (kNeutral - kAcid);
  const double alkaline = std::min(1.0, (ph - kNeutral) / (kAlkaline - kNeutral));
  return 1 + (kAlkalineFactor - 1) * alkaline;
}

double ln_lost(double washes, double n0, double power, double light_h, double h0) {
  const double wash = washes > 0 ? pow_portable(washes / n0, power) : 0;
  const double light = light_h > 0 ? pow_portable(light_h / h0, kLightPower) : 0;
  return wash + light;
}

}  // namespace

double wash_factor(const WashHabit& habit) {
  constexpr double kReferenceCelsius = 38;
  constexpr double kWashKjPerMol = 35;  // 27 to 69 for protein and dye loss; guess within
  constexpr double kHard = 1.25;
  return arrhenius_factor(kWashKjPerMol, kReferenceCelsius, habit.temperature_c) *
         ph_factor(habit.ph) * (habit.hard ? kHard : 1);
}

FadeConstants fade_constants(DyeClass dye_class, DyeFamily family, HairState hair) {
  constexpr std::array kFamilies = {"red", "copper", "brown", "violet", "blue", "yellow"};
  constexpr std::array kHair = {"virgin", "white", "bleached"};
  const std::string class_word = class_facts(dye_class).word;
  const std::string family_word = kFamilies[static_cast<std::size_t>(family)];
  const std::string hair_word = kHair[static_cast<std::size_t>(hair)];
  // The first row that names the family, or any, and the hair, or any: the table is in that order.
  const auto at = std::find_if(rows().begin(), rows().end(), [&](const Row& row) {
    return row.dye_class == class_word && (row.family == family_word || row.family == "any") &&
           (row.hair == hair_word || row.hair == "any");
  });
  HW_CHECK(at != rows().end());
  return at->constants;
}

double dye_left(const FadeConstants& constants, double washes, const WashHabit& habit,
                double light_h) {
  return exp_portable(-ln_lost(washes * wash_factor(habit), constants.washes, constants.power,
                               light_h, constants.light_h));
}

std::vector<FadeConstants> draw_fade(const FadeConstants& constants, const Draws& draws,
                                     std::size_t members) {
  constexpr std::uint64_t kStream = 0xfade;
  constexpr double kPowerHalfRange = 0.1;  // 0.4 to 0.7 for the whole trade; guess for one dye
  constexpr double kLightSd = 0.3;
  std::vector<FadeConstants> drawn(members, constants);
  for (std::size_t m = 0; m < members; ++m) {
    drawn[m].washes *= exp_portable(constants.washes_sd_ln * draws.normal(kStream, m));
    drawn[m].power += kPowerHalfRange * (2 * draws.uniform(kStream + 1, m) - 1);
    drawn[m].light_h *= exp_portable(kLightSd * draws.normal(kStream + 2, m));
    drawn[m].washes_sd_ln = 0;
  }
  return drawn;
}

std::vector<double> dye_left_members(const FadeConstants& constants, double washes,
                                     const WashHabit& habit, double light_h, const Draws& draws,
                                     std::size_t members) {
  std::vector<double> left;
  left.reserve(members);
  for (const FadeConstants& one : draw_fade(constants, draws, members)) {
    left.push_back(dye_left(one, washes, habit, light_h));
  }
  return left;
}

}  // namespace hw::process
