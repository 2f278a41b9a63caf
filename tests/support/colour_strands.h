#pragma once
// Strands and bowls that the tests of colour share.
#include <algorithm>

#include "huewright/hair/ladder.h"
#include "huewright/process/deposit.h"

namespace hw::test {

/// Natural hair at a level, or white hair for level 0; 70 µm, `members` alike.
inline process::LiftMembers natural_strand(double level, std::size_t members = 1) {
  process::LiftMembers hair;
  hair.resize(members);
  std::ranges::fill(hair.strand_um, 70);
  if (level <= 0) {
    hair.white_share = 1;
    return hair;
  }
  const auto exact =
      process::exact_hair(hair::default_ladder().lstar_of(level), 0.05, Micrometres(70));
  std::ranges::fill(hair.eumelanin_percent, exact->melanin_percent * 0.95);
  std::ranges::fill(hair.pheomelanin_percent, exact->melanin_percent * 0.05);
  std::ranges::fill(hair.surface_term, exact->surface_term);
  return hair;
}

inline colour::HairLab colour_of(const process::LiftMembers& hair) {
  std::vector<colour::HairLab> lab(hair.size());
  process::lift_colours(hair, process::starting_moment(hair), lab);
  return lab[0];
}

inline double level_of(const process::LiftMembers& hair) {
  return hair::default_ladder().level_of(colour_of(hair).l);
}

/// Once-lightened hair of a depth: warm residue on the lifted base, opened and worn as usual.
inline process::LiftMembers lifted_strand(double level) {
  process::LiftMembers hair = natural_strand(0);
  hair.white_share = 0;
  hair.base_share = {0.95};
  hair.opened = {1.9};
  hair.dye_opened = {4};
  hair.wear = {0.16};
  const double lstar = hair::default_ladder().lstar_of(level);
  double low = 0;
  double high = 4;
  for (int i = 0; i < 50; ++i) {
    hair.warm_percent = {(low + high) / 2};
    (colour_of(hair).l > lstar ? low : high) = hair.warm_percent[0];
  }
  return hair;
}

/// A shade by words without doubt.
inline process::Shade certain_shade(process::DyeClass dye_class, double level,
                                    const std::string& tone) {
  process::Shade shade = *process::shade_from_words("test", dye_class, level, tone);
  shade.strength_sd_ln = 0;
  for (process::Colourant& colourant : shade.colourants) colourant.sd_ln = 0;
  return shade;
}

/// A bowl as the label wants it.
inline process::DepositBowl label_bowl(process::DyeClass dye_class, double developer_percent = 0) {
  const process::ClassFacts& facts = process::class_facts(dye_class);
  process::DepositBowl bowl;
  bowl.dye_class = dye_class;
  bowl.developer_percent = developer_percent;
  bowl.developer_parts = bowl.label_parts = facts.developer_parts;
  bowl.minutes = facts.label_min;
  return bowl;
}

/// One shade on one strand with the most likely constants: own lift, then its layers.
inline process::LiftMembers coloured(const process::LiftMembers& hair,
                                     const process::DepositBowl& bowl, const process::Shade& shade,
                                     double share = 1) {
  InlineExecutor executor;
  process::LiftMembers after = process::after_own_lift(hair, bowl, executor);
  const process::Poured pour{shade, share};
  for (auto& layer : process::dye_layers({&pour, 1}, process::uptake(hair, bowl), Draws(1))) {
    after.dyes.push_back(std::move(layer));
  }
  return after;
}

}  // namespace hw::test
