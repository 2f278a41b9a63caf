// The trade's rules for a colour step, on both sides of each edge, and its worked cases.
#include <algorithm>

#include "huewright/plan/colour_rules.h"
#include "support/colour_strands.h"
#include "support/demo_case.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

using process::DyeClass;
using test::lifted_strand;
using test::natural_strand;

const hair::Ladder& ladder() {
  return hair::default_ladder();
}

CanvasLook lifted_to(double level) {
  return look_of(lifted_strand(level), ladder());
}

process::Product colour(const char* id, DyeClass dye_class, double level, const char* tone) {
  process::Product product;
  product.id = id;
  product.kind = process::PartKind::colour;
  product.dye_class = dye_class;
  product.level = level;
  product.tone = tone;
  return product;
}

Target at_level(double level, double a, double b) {
  return *target_colour({ladder().lstar_of(level), a, b});
}

bool holds(const std::vector<process::Refusal>& list, const std::string& id) {
  return std::any_of(list.begin(), list.end(), [&](const auto& one) { return one.id == id; });
}

TEST(ColourRules, hair_is_looked_at_as_lightened_or_coloured) {
  EXPECT_TRUE(lifted_to(8).lightened);
  EXPECT_NEAR(lifted_to(8).level, 8, 0.01);
  EXPECT_FALSE(look_of(natural_strand(8), ladder()).lightened);
  process::LiftMembers dyed = natural_strand(8);
  EXPECT_FALSE(look_of(dyed, ladder()).old_colour);
  dyed.dyes = {{hair::old_colour_absorption("neutral"), {60}}};
  EXPECT_TRUE(look_of(dyed, ladder()).old_colour);
  dyed.dyes[0].amount[0] = 0.1;  // a trace that no eye sees
  EXPECT_FALSE(look_of(dyed, ladder()).old_colour);
}

TEST(ColourRules, a_filler_appears_beyond_two_levels_darker_on_lightened_hair) {
  const test::Source source{"filler_how_to", "more than 2 levels darker on lightened hair"};
  EXPECT_PUBLISHED("filler at 2.1 levels darker [0 or 1]", source, 1,
                   needs_filler(lifted_to(8), 5.9), 0.5);
  EXPECT_PUBLISHED("filler at 1.9 levels darker [0 or 1]", source, 0,
                   needs_filler(lifted_to(8), 6.1), 0.5);
  EXPECT_FALSE(
      needs_filler(look_of(natural_strand(8), ladder()), 4));  // untouched hair has its own
  EXPECT_FALSE(needs_filler(lifted_to(5), 8));                 // lighter is no filling
}

TEST(ColourRules, the_two_teachings_on_fillers_stand_side_by_side) {
  EXPECT_EQ(fill_advice(lifted_to(10), 5).by_target, FillWhen::first);
  EXPECT_FALSE(fill_advice(lifted_to(10), 5).disputed());
  const FillAdvice light = fill_advice(lifted_to(10), 7.2);
  EXPECT_EQ(light.by_gap, FillWhen::first);
  EXPECT_EQ(light.by_target, FillWhen::in_formula);
  EXPECT_TRUE(light.disputed());
  EXPECT_NE(light.sentence.find("Teachings differ"), std::string::npos);
  const FillAdvice near = fill_advice(lifted_to(7.5), 6);
  EXPECT_EQ(near.by_gap, FillWhen::not_needed);
  EXPECT_EQ(near.by_target, FillWhen::first);
  EXPECT_TRUE(fill_advice(lifted_to(8), 7.5).sentence.empty());
  // Level 6 and darker first, level 7 and lighter in the formula: the worked case as printed.
  const test::Source stylist{"filler_stylist", "level 6 or darker; 7 or lighter"};
  const auto first = [](double level) {
    return fill_advice(lifted_to(10), level).by_target == FillWhen::first;
  };
  EXPECT_PUBLISHED("fill first at target 6 [0 or 1]", stylist, 1, first(6), 0.5);
  EXPECT_PUBLISHED("fill first at target 7 [0 or 1]", stylist, 0, first(7), 0.5);
}

TEST(ColourRules, the_filler_is_gold_copper_or_red_between_canvas_and_target) {
  std::vector<process::Product> shelf = {colour("gold", DyeClass::demi, 6, "gold"),
                                         colour("copper", DyeClass::demi, 5, "copper"),
                                         colour("deep", DyeClass::demi, 2, "red"),
                                         colour("pale", DyeClass::demi, 10, "gold"),
                                         colour("ash", DyeClass::demi, 6, "ash"),
                                         colour("fast", DyeClass::permanent, 6, "copper"),
                                         colour("mask", DyeClass::direct, 5, "copper")};
  const Target mahogany = *look("mahogany");
  auto step = filler_for(lifted_to(9), mahogany, shelf, ladder());
  ASSERT_TRUE(step);
  ASSERT_EQ(step->ways.size(), 1);  // no developer on the shelf: direct colour alone
  EXPECT_EQ(step->ways[0].dye_class, DyeClass::direct);
  shelf.push_back(test::developer("d6", 6));
  EXPECT_EQ(filler_for(lifted_to(9), mahogany, shelf, ladder())->ways.size(),
            1);  // 6 % is too much
  shelf.push_back(test::developer("d3", 3));
  shelf.push_back(test::developer("d2", 1.9));
  step = filler_for(lifted_to(9), mahogany, shelf, ladder());
  ASSERT_EQ(step->ways.size(), 3);
  EXPECT_EQ(step->ways[0].dye_class, DyeClass::demi);
  EXPECT_EQ(shelf[*step->ways[0].developer].id, "d2");
  EXPECT_EQ(step->ways[0].shades, (std::vector<std::size_t>{0, 1}));
  EXPECT_EQ(step->ways[1].shades, (std::vector<std::size_t>{5}));
  const test::Source source{"filler_how_to", "minutes on the hair"};
  EXPECT_PUBLISHED("filler, fewest minutes", source, 10, step->minutes.low, 0.5);
  EXPECT_PUBLISHED("filler, most minutes", source, 15, step->minutes.high, 0.5);
  EXPECT_FALSE(filler_for(lifted_to(5), mahogany, shelf, ladder()));
}

TEST(ColourRules, what_a_filler_looks_like_is_the_warmth_that_is_missing) {
  for (const double target : {2.0, 3.0, 4.0, 5.0, 6.0}) {
    const CanvasLook canvas = lifted_to(9);
    const colour::HairLab fill = fill_colour(canvas, target, ladder());
    EXPECT_NEAR(ladder().level_of(fill.l), target + 1, 1e-6);
    EXPECT_LT(fill.l, canvas.lab.l);
    EXPECT_GT(fill.a, canvas.lab.a);  // redder than the pale canvas
  }
  // Never lighter than the canvas: 3.2 levels are filled to 6 at most, half a level are not.
  const CanvasLook near = lifted_to(5.5);
  EXPECT_LE(fill_colour(near, 5, ladder()).l, near.lab.l + 1e-9);
}

TEST(ColourRules, a_shelf_without_a_filler_is_told_what_would_do) {
  const auto step = filler_for(lifted_to(9), *look("mahogany"), {}, ladder());
  ASSERT_TRUE(step);
  EXPECT_TRUE(step->ways.empty());
  EXPECT_NE(step->sentence.find("The shelf has none"), std::string::npos) << step->sentence;
}

TEST(ColourRules, a_bowl_tones_glosses_or_deposits) {
  EXPECT_EQ(purpose_for(lifted_to(8), 8, 0), Purpose::tone);
  EXPECT_EQ(purpose_for(lifted_to(8), 7.05, 0), Purpose::tone);
  EXPECT_EQ(purpose_for(lifted_to(8), 6.95, 0), Purpose::deposit);
  EXPECT_EQ(purpose_for(look_of(natural_strand(8), ladder()), 8, 0), Purpose::deposit);
  EXPECT_EQ(purpose_for(lifted_to(8), 8, 0.75), Purpose::gloss);
  EXPECT_EQ(purpose_for(lifted_to(8), 8, 0.74), Purpose::tone);
  EXPECT_EQ(purpose_for(lifted_to(8), 5, 1), Purpose::gloss);
}

TEST(ColourRules, warmth_is_kept_for_red_brown_and_taken_off_by_its_opposite) {
  const Target red_brown = at_level(5, 16, 13);
  EXPECT_EQ(warmth_rule(lifted_to(6), red_brown).aim, WarmthAim::keep);
  EXPECT_EQ(warmth_rule(look_of(natural_strand(3), ladder()), red_brown).aim, WarmthAim::none);
  const auto countered = [&](double level, const char* word) {
    const WarmthRule rule = warmth_rule(lifted_to(level), *look(word));
    EXPECT_EQ(rule.aim, WarmthAim::neutralise) << level << ' ' << word;
    return rule;
  };
  const auto has = [](const WarmthRule& rule, const char* tone) {
    return std::find(rule.counters.begin(), rule.counters.end(), tone) != rule.counters.end();
  };
  // Violet for yellow, blue for orange, green for red: bib exam_preparation_colouring.
  EXPECT_TRUE(has(countered(9.5, "beige"), "violet"));
  EXPECT_TRUE(has(countered(6.3, "ash brown"), "blue"));
  EXPECT_TRUE(has(countered(4, "mocha"), "matt"));
  EXPECT_FALSE(has(countered(9.5, "beige"), "blue"));
}

TEST(ColourRules, white_hair_asks_for_naturals_above_a_quarter) {
  EXPECT_TRUE(white_rule(0, DyeClass::permanent, 3, 5).says.empty());
  EXPECT_EQ(white_rule(0.25, DyeClass::permanent, 3, 5).naturals_least, 0);
  const WhiteRule rule = white_rule(0.3, DyeClass::permanent, 3, 5);
  EXPECT_TRUE(rule.covers);
  const test::Source half{"grey_magazine", "half natural, half fashion"};
  EXPECT_PUBLISHED("natural part of the shades above 25 % white", half, 0.5, rule.naturals_least,
                   0.05);
  EXPECT_NEAR(rule.naturals_other, 0.3, 1e-12);  // the teaching that scales it: bib grey_slides
  EXPECT_TRUE(white_rule(0.4, DyeClass::demi, 3, 5).blends);
  EXPECT_FALSE(white_rule(0.41, DyeClass::demi, 3, 5).blends);
  EXPECT_FALSE(white_rule(0.2, DyeClass::direct, 3, 5).covers);
  EXPECT_FALSE(white_rule(0.2, DyeClass::direct, 3, 5).says.empty());
  EXPECT_FALSE(white_rule(0.2, DyeClass::permanent, 4, 8).covers);
  EXPECT_TRUE(white_rule(0.2, DyeClass::permanent, 4, 7.9).covers);
}

TEST(ColourRules, naturals_are_counted_by_mass_without_clear) {
  const std::vector<std::string> tones = {"red", "neutral", "gold", "clear"};
  const std::vector<double> grams = {20, 10, 10, 60};
  EXPECT_NEAR(naturals_share(tones, grams), 0.5, 1e-12);
  const WhiteRule rule = white_rule(0.5, DyeClass::permanent, 3, 5);
  EXPECT_TRUE(naturals_note(rule, 0.5).empty());
  EXPECT_FALSE(naturals_note(rule, 0.49).empty());
  EXPECT_EQ(naturals_share({}, {}), 0);
}

TEST(ColourRules, colour_alone_is_stopped_by_old_colour_and_by_the_rule_of_thumb) {
  process::LiftMembers dyed = natural_strand(7);
  dyed.dyes = {{hair::old_colour_absorption("neutral"), {60}}};
  const CanvasLook old = look_of(dyed, ladder());
  const auto check = [](const CanvasLook& canvas, double target, std::optional<double> natural,
                        DyeClass dye_class = DyeClass::permanent) {
    return check_reach(canvas, target, natural, dye_class, {});
  };
  EXPECT_TRUE(holds(check(old, old.level + 0.6, {}), "old_colour_not_lifted"));
  EXPECT_FALSE(holds(check(old, old.level + 0.5, {}), "old_colour_not_lifted"));
  EXPECT_FALSE(holds(check(old, old.level - 1, {}), "old_colour_not_lifted"));
  const CanvasLook four = look_of(natural_strand(4), ladder());
  EXPECT_TRUE(holds(check(four, 7.1, 4), "colour_alone_cannot"));  // asks for a level 10.2
  EXPECT_FALSE(holds(check(four, 7, 4), "colour_alone_cannot"));   // a level 10, worked case
  EXPECT_FALSE(holds(check(four, 9, 4, DyeClass::demi), "colour_alone_cannot"));
}

}  // namespace
}  // namespace hw::plan
