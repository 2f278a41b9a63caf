#include <gtest/gtest.h>

#include "huewright/colour/difference.h"
#include "huewright/process/remover.h"
#include "huewright/process/rules.h"
#include "support/colour_strands.h"

namespace hw::process {
namespace {

using test::colour_of;
using test::level_of;

LiftMembers dyed(double level, double amount, std::size_t members = 1) {
  LiftMembers hair = test::natural_strand(level, members);
  hair.dyes = {{hair::old_colour_absorption("neutral"), std::vector<double>(members, amount)}};
  return hair;
}

TEST(Remover, takes_old_dye_and_leaves_the_pigment) {
  const LiftMembers before = dyed(6, 80);
  const LiftMembers after = after_remover(before, OldDye::oxidative, 20, Draws(1));
  EXPECT_LT(after.dyes[0].amount[0], before.dyes[0].amount[0]);
  EXPECT_EQ(after.eumelanin_percent, before.eumelanin_percent);
  EXPECT_EQ(after.pheomelanin_percent, before.pheomelanin_percent);
  EXPECT_EQ(after.base_share, before.base_share);
  EXPECT_GT(level_of(after), level_of(before));
  EXPECT_LT(level_of(after), 6 + 1e-6);  // never lighter than the hair beneath
  const LiftMembers bare = test::natural_strand(6);
  EXPECT_EQ(colour_of(after_remover(bare, OldDye::oxidative, 20, Draws(1))).l, colour_of(bare).l);
}

TEST(Remover, costs_little_wear) {
  const LiftMembers before = dyed(6, 80, 400);
  const LiftMembers after = after_remover(before, OldDye::oxidative, 20, Draws(1));
  for (std::size_t m = 0; m < 400; ++m) {
    EXPECT_GT(after.wear[m], before.wear[m]);
    EXPECT_LT(after.wear[m], before.wear[m] + 0.05);
  }
}

TEST(Remover, time_takes_more_and_each_round_again) {
  double before = 1.0001;
  for (const double minutes : {0.0, 5.0, 10.0, 20.0, 40.0}) {
    const double left = remover_left(OldDye::oxidative, minutes, Draws(3), 1)[0];
    EXPECT_LT(left, before);
    EXPECT_GT(left, 0);
    before = left;
  }
  EXPECT_EQ(remover_left(OldDye::oxidative, 0, Draws(3), 1)[0], 1);
  const double once = remover_left(OldDye::oxidative, 20, Draws(3), 1)[0];
  const LiftMembers twice = after_remover(
      after_remover(dyed(6, 1), OldDye::oxidative, 20, Draws(3)), OldDye::oxidative, 20, Draws(3));
  EXPECT_NEAR(twice.dyes[0].amount[0], once * once, 1e-12);
}

TEST(Remover, promises_nothing_of_direct_dye) {
  constexpr std::size_t kMembers = 2000;
  const auto band = [](OldDye kind) {
    return band_of(remover_left(kind, remover_minutes().mid, Draws(5), kMembers));
  };
  EXPECT_NEAR(band(OldDye::oxidative).mid, 0.4, 0.02);
  EXPECT_NEAR(band(OldDye::oxidative).low, 0.2, 0.02);
  EXPECT_NEAR(band(OldDye::oxidative).high, 0.75, 0.04);
  EXPECT_EQ(band(OldDye::direct).high, 1);  // some heads keep all of it
  EXPECT_GT(band(OldDye::direct).mid, band(OldDye::unknown).mid);
  EXPECT_GT(band(OldDye::unknown).mid, band(OldDye::oxidative).mid);
  EXPECT_EQ(remover_left(OldDye::direct, 20, Draws(5), 9),
            remover_left(OldDye::direct, 20, Draws(5), 9));
}

TEST(Remover, reads_its_figures) {
  EXPECT_EQ(most_remover_rounds(), 2);
  EXPECT_LT(remover_minutes().low, remover_minutes().high);
  EXPECT_GT(chelate_minutes().mid, 0);
  EXPECT_EQ(remover_notes().size(), 3U);
}

TEST(Chelator, takes_minerals_so_that_lightener_may_go_on) {
  HairFacts pool;
  pool.mineral_build_up = true;
  ApplicationFacts step;
  step.bowl.parts = {{PartKind::lightener, Grams(30)},
                     {PartKind::developer, Grams(60), Percent(6)}};
  step.mix = *mix_bowl(step.bowl);
  const auto held = [&](const HairFacts& hair) {
    const auto list = check_application({}, hair, step);
    return std::any_of(list.begin(), list.end(),
                       [](const Refusal& one) { return one.id == "minerals_not_removed"; });
  };
  EXPECT_TRUE(held(pool));
  EXPECT_FALSE(held(after_chelating(pool)));
}

}  // namespace
}  // namespace hw::process
