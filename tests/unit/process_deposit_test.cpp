#include <algorithm>

#include "huewright/base/statistics.h"
#include "huewright/colour/difference.h"
#include "huewright/hair/ladder.h"
#include "huewright/hair/words.h"
#include "support/colour_strands.h"
#include "support/reference.h"

namespace hw::process {
namespace {

using test::colour_of;
using test::coloured;
using test::level_of;
using test::natural_strand;

/// A strand lifted to a depth: warm residue on the lifted base.
LiftMembers lifted(double warm_percent) {
  LiftMembers hair = natural_strand(0);
  hair.white_share = 0;
  hair.warm_percent[0] = warm_percent;
  hair.base_share[0] = 0.95;
  hair.opened[0] = 2;
  hair.wear[0] = 0.15;
  return hair;
}

TEST(Deposit, a_shade_makes_white_hair_its_own_level) {
  for (const double level : {4.0, 5.0, 6.0, 7.0, 8.0}) {
    const auto after = coloured(natural_strand(0), test::label_bowl(DyeClass::permanent, 6),
                                test::certain_shade(DyeClass::permanent, level, "neutral"));
    EXPECT_NEAR(level_of(after), level, 0.3) << level;
  }
}

TEST(Deposit, tones_turn_white_hair_their_own_way) {
  const auto lab = [](const char* tone) {
    return colour_of(coloured(natural_strand(0), test::label_bowl(DyeClass::permanent, 6),
                              test::certain_shade(DyeClass::permanent, 6, tone)));
  };
  EXPECT_GT(lab("red").a, lab("neutral").a + 8);
  EXPECT_GT(lab("copper").b, lab("red").b + 1);
  EXPECT_LT(lab("mahogany").b, lab("red").b - 3);
  EXPECT_LT(lab("ash").b, lab("neutral").b - 3);
  EXPECT_LT(lab("violet").b, lab("mahogany").b);
}

TEST(Deposit, violet_tames_yellow_and_blue_tames_orange) {
  // Source: violet against yellow, blue against orange; state-exam material, common practice.
  const double yellow = colour_of(lifted(0.08)).b;
  const auto toned = colour_of(coloured(lifted(0.08), test::label_bowl(DyeClass::demi, 1.5),
                                        test::certain_shade(DyeClass::demi, 9, "violet")));
  EXPECT_LT(toned.b, yellow - 5);
  const colour::HairLab orange = colour_of(lifted(0.5));
  const auto cooled = colour_of(coloured(lifted(0.5), test::label_bowl(DyeClass::demi, 1.5),
                                         test::certain_shade(DyeClass::demi, 7, "blue")));
  EXPECT_LT(std::hypot(cooled.a, cooled.b), std::hypot(orange.a, orange.b) - 5);
}

TEST(Deposit, a_shade_of_level_seven_on_dark_and_on_white_strands) {
  // A colour educator: a level-7 shade makes white hair 7 and level-3 hair about 5 (grade C, not a
  // measurement). The law gives less on level 3: dye only adds, and the mix's own lift is small.
  // The gap is shown, not forced away.
  const auto on_white = coloured(natural_strand(0), test::label_bowl(DyeClass::permanent, 6),
                                 test::certain_shade(DyeClass::permanent, 7, "neutral"));
  EXPECT_PUBLISHED_RANGE("level-7 shade on white hair [level]",
                         {"common practice, no source", "a colour educator, worked case"}, 6.5, 7.5,
                         level_of(on_white));
  const auto on_three = coloured(natural_strand(3), test::label_bowl(DyeClass::permanent, 6),
                                 test::certain_shade(DyeClass::permanent, 7, "neutral"));
  const double gap = 5 - level_of(on_three);
  RecordProperty("gap_to_rule_of_thumb_levels", std::to_string(gap));
  EXPECT_GT(gap, 0);
  EXPECT_LT(gap, 3);
}

TEST(Deposit, colour_does_not_lift_colour) {
  LiftMembers old = natural_strand(6);
  old.dyes = {{hair::old_colour_absorption("neutral"), {60}}};
  const double before = level_of(old);
  const auto after = coloured(old, test::label_bowl(DyeClass::permanent, 6),
                              test::certain_shade(DyeClass::permanent, 9, "neutral"));
  // What rises a little is the natural pigment beneath; the old dye stays.
  EXPECT_LT(level_of(after), before + 0.5);
}

TEST(Deposit, light_ends_end_lighter_than_the_lengths_under_one_bowl) {
  const Shade shade = test::certain_shade(DyeClass::demi, 6, "red");
  const double ends =
      level_of(coloured(lifted(0.15), test::label_bowl(DyeClass::demi, 1.5), shade));
  const double lengths =
      level_of(coloured(lifted(0.6), test::label_bowl(DyeClass::demi, 1.5), shade));
  EXPECT_GT(ends, lengths);
}

TEST(Deposit, a_second_bowl_evens_what_the_first_left_uneven) {
  const Shade shade = test::certain_shade(DyeClass::demi, 5, "neutral");
  const auto gap = [](const LiftMembers& a, const LiftMembers& b) {
    return colour::delta_e_2000(colour_of(a), colour_of(b));
  };
  const DepositBowl bowl = test::label_bowl(DyeClass::demi, 1.5);
  const LiftMembers ends = coloured(lifted(0.1), bowl, shade);
  const LiftMembers lengths = coloured(lifted(0.5), bowl, shade);
  const LiftMembers ends_again = coloured(ends, bowl, shade);
  const LiftMembers lengths_again = coloured(lengths, bowl, shade);
  EXPECT_LT(gap(ends_again, lengths_again), gap(ends, lengths));
}

TEST(Deposit, more_minutes_opening_and_warmth_take_more_and_an_unclean_canvas_less) {
  const LiftMembers hair = lifted(0.2);
  for (const DyeClass dye_class :
       {DyeClass::direct, DyeClass::cationic, DyeClass::demi, DyeClass::permanent}) {
    DepositBowl bowl = test::label_bowl(dye_class, 3);
    const double plain = uptake(hair, bowl)[0];
    DepositBowl longer = bowl;
    longer.minutes *= 1.5;
    EXPECT_GT(uptake(hair, longer)[0], plain);
    DepositBowl unclean = bowl;
    unclean.clean_canvas = false;
    EXPECT_LT(uptake(hair, unclean)[0], plain);
    LiftMembers open = hair;
    open.opened[0] = 4;
    EXPECT_GE(uptake(open, bowl)[0], plain);
    DepositBowl warm = bowl;
    warm.temperature_c = 32;
    EXPECT_GE(uptake(hair, warm)[0], plain);
    DepositBowl damp = bowl;
    damp.water_per_hair = 0.3;
    EXPECT_LT(uptake(hair, damp)[0], plain);
  }
  // Semi and demi take less well on an unclean canvas, permanent hardly: common practice, no
  // source.
  EXPECT_LT(class_facts(DyeClass::demi).unclean, class_facts(DyeClass::permanent).unclean - 0.1);
}

TEST(Deposit, two_half_shares_are_one_whole) {
  InlineExecutor executor;
  const LiftMembers hair = lifted(0.2);
  const DepositBowl bowl = test::label_bowl(DyeClass::demi, 1.5);
  const Shade shade = test::certain_shade(DyeClass::demi, 6, "copper");
  const std::vector<Poured> halves = {{shade, 0.5}, {shade, 0.5}};
  const Poured whole{shade, 1};
  const auto two = deposit(hair, bowl, halves, Draws(1), executor);
  const auto one = deposit(hair, bowl, {&whole, 1}, Draws(1), executor);
  EXPECT_NEAR(colour::delta_e_2000(colour_of(two), colour_of(one)), 0, 1e-9);
  const Poured clear{clear_shade("clear", DyeClass::demi), 1};
  const auto nothing = deposit(hair, bowl, {&clear, 1}, Draws(1), executor);
  EXPECT_TRUE(nothing.dyes.empty());
}

TEST(Deposit, words_that_no_tube_bears_are_errors) {
  EXPECT_FALSE(shade_from_words("x", DyeClass::demi, 11, "neutral"));
  const auto unknown = shade_from_words("x", DyeClass::demi, 5, "sparkly");
  ASSERT_FALSE(unknown);
  EXPECT_NE(unknown.error().hint.find("mahogany"), std::string::npos);
  EXPECT_FALSE(dye_class_named("temporary"));
}

}  // namespace
}  // namespace hw::process
