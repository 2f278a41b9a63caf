#include <gtest/gtest.h>

#include <cmath>

#include "huewright/base/random.h"
#include "huewright/plan/bowl_groups.h"
#include "huewright/plan/formula.h"

namespace hw::plan {
namespace {

/// Lightened hair with this much melanin [%], 64 members.
FormulaZone zone_of(double melanin_percent, const colour::HairLab& target) {
  const Draws draws(3);
  FormulaZone zone;
  zone.canvas.resize(64);
  zone.uptake.resize(64);
  for (std::size_t m = 0; m < 64; ++m) {
    zone.canvas.pheo_like_percent[m] = melanin_percent * std::exp(0.1 * draws.normal(1, m));
    zone.canvas.base_share[m] = 0.9;
    zone.canvas.radius_cm[m] = 36e-4;
    zone.uptake[m] = std::exp(0.1 * draws.normal(2, m));
  }
  zone.target = target;
  return zone;
}

std::vector<FormulaShade> shelf() {
  const auto shade = [](const char* id, double peak_nm, double height) {
    return FormulaShade{id, hair::dye_absorption({{peak_nm, 4500, height}}), 1e9, 0.1};
  };
  return {shade("yellow", 440, 160), shade("red", 510, 200), shade("blue", 600, 160)};
}

/// 20 g of colour for each zone.
FormulaRules rules_of(std::size_t, std::size_t count) {
  FormulaRules rules;
  rules.colour_g = 20 * static_cast<double>(count);
  return rules;
}

constexpr colour::HairLab kBrown{30, 14, 12};
constexpr colour::HairLab kDark{22, 6, 3};

TEST(PlanBowlGroups, zones_alike_share_a_bowl) {
  InlineExecutor executor;
  const std::vector<FormulaZone> zones = {zone_of(0.1, kBrown), zone_of(0.1, kBrown)};
  const auto grouping = group_bowls(shelf(), zones, rules_of, executor);
  ASSERT_TRUE(grouping) << one_line(grouping.error());
  ASSERT_EQ(grouping->groups.size(), 1U);
  EXPECT_EQ(grouping->groups[0].count, 2U);
  EXPECT_EQ(grouping->ways, 2U);
  EXPECT_DOUBLE_EQ(*grouping->common_de00, grouping->expected_de00);
}

TEST(PlanBowlGroups, a_zone_that_wants_another_colour_gets_its_own) {
  InlineExecutor executor;
  const std::vector<FormulaZone> zones = {zone_of(0.12, kBrown), zone_of(0.1, kBrown),
                                          zone_of(0.08, kDark)};
  const auto grouping = group_bowls(shelf(), zones, rules_of, executor);
  ASSERT_TRUE(grouping);
  ASSERT_EQ(grouping->groups.size(), 2U);
  EXPECT_EQ(grouping->groups[0].count, 2U);
  EXPECT_EQ(grouping->groups[1].first, 2U);
  EXPECT_EQ(grouping->ways, 4U);
  EXPECT_LT(grouping->expected_de00 + kBowlTrouble, *grouping->common_de00);
  EXPECT_EQ(grouping->groups[0].formula.zone_de00.size(), 2U);
}

TEST(PlanBowlGroups, what_a_bowl_must_bring_decides_how_many_there_are) {
  InlineExecutor executor;
  const std::vector<FormulaZone> zones = {zone_of(0.2, kBrown), zone_of(0.08, {33, 16, 14}),
                                          zone_of(0.03, kDark)};
  std::size_t before = zones.size() + 1;
  for (const double trouble : {0.0, 0.7, 2.0, 5.0, 100.0}) {
    const auto grouping = group_bowls(shelf(), zones, rules_of, executor, trouble);
    ASSERT_TRUE(grouping);
    EXPECT_LE(grouping->groups.size(), before) << trouble;
    // Each bowl after the first brings more than its trouble.
    EXPECT_LE(grouping->expected_de00 + trouble * static_cast<double>(grouping->groups.size() - 1),
              *grouping->common_de00 + 1e-9);
    before = grouping->groups.size();
  }
  EXPECT_EQ(before, 1U);
  EXPECT_GT(group_bowls(shelf(), zones, rules_of, executor, 0)->groups.size(), 1U);
}

TEST(PlanBowlGroups, more_hair_weighs_more) {
  InlineExecutor executor;
  std::vector<FormulaZone> zones = {zone_of(0.12, kBrown), zone_of(0.12, kDark)};
  ASSERT_EQ(group_bowls(shelf(), zones, rules_of, executor)->groups.size(), 2U);
  zones[1].weight = 0.01;  // a few strands are not worth a bowl
  EXPECT_EQ(group_bowls(shelf(), zones, rules_of, executor)->groups.size(), 1U);
}

TEST(PlanBowlGroups, bowls_together_keep_to_the_stock) {
  InlineExecutor executor;
  const std::vector<FormulaZone> zones = {zone_of(0.12, kBrown), zone_of(0.08, kDark)};
  for (const double stock : {0.0, 3.0, 6.0, 12.0}) {
    std::vector<FormulaShade> little = shelf();
    for (FormulaShade& shade : little) shade.stock_g = stock;
    const auto grouping = group_bowls(little, zones, rules_of, executor);
    ASSERT_TRUE(grouping) << stock;
    std::vector<double> grams(little.size(), 0);
    for (const BowlGroup& group : grouping->groups) {
      for (const FormulaPour& pour : group.formula.pours) grams[pour.shade] += pour.grams;
    }
    for (const double poured : grams) EXPECT_LE(poured, stock + 1e-9);
  }
}

TEST(PlanBowlGroups, the_answer_is_the_same_on_any_number_of_threads) {
  InlineExecutor one;
  const auto two = make_thread_pool(2);
  const std::vector<FormulaZone> zones = {zone_of(0.2, kBrown), zone_of(0.05, kDark)};
  const auto a = group_bowls(shelf(), zones, rules_of, one);
  const auto b = group_bowls(shelf(), zones, rules_of, *two);
  ASSERT_TRUE(a && b);
  EXPECT_EQ(a->expected_de00, b->expected_de00);
  EXPECT_EQ(a->groups.size(), b->groups.size());
}

TEST(PlanBowlGroups, what_cannot_be_mixed_is_an_error) {
  InlineExecutor executor;
  EXPECT_FALSE(group_bowls(shelf(), {}, rules_of, executor));
  const std::vector<FormulaZone> many(13, zone_of(0.1, kBrown));
  EXPECT_FALSE(group_bowls(shelf(), many, rules_of, executor));
  const std::vector<FormulaZone> zones = {zone_of(0.2, kBrown), zone_of(0.05, kDark)};
  EXPECT_FALSE(group_bowls({}, zones, rules_of, executor));
}

}  // namespace
}  // namespace hw::plan
