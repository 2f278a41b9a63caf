#include <algorithm>

#include "huewright/base/random.h"
#include "huewright/colour/difference.h"
#include "huewright/plan/formula.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

/// A lifted canvas at about level 7 with some scatter, 64 members.
FormulaZone canvas(double melanin_percent, double white_share = 0) {
  const Draws draws(3);
  FormulaZone zone;
  zone.canvas.resize(64);
  zone.uptake.resize(64);
  for (std::size_t m = 0; m < 64; ++m) {
    zone.canvas.pheo_like_percent[m] = melanin_percent * std::exp(0.2 * draws.normal(1, m));
    zone.canvas.base_share[m] = 0.9;
    zone.canvas.radius_cm[m] = 36e-4;
    zone.uptake[m] = std::exp(0.2 * draws.normal(2, m));
  }
  zone.canvas.white_share = white_share;
  return zone;
}

FormulaShade shade(const char* id, double peak_nm, double height) {
  return {id, hair::dye_absorption({{peak_nm, 4500, height}}), 1e9, 0.1};
}

std::vector<FormulaShade> small_shelf() {
  return {shade("yellow", 440, 160), shade("red", 510, 200), shade("blue", 600, 160)};
}

/// Every whole-gram mixture of three shades and clear, on all members.
double exhaustive(const std::vector<FormulaShade>& shelf, const std::vector<FormulaZone>& zones,
                  const FormulaRules& rules) {
  double best = 1e300;
  const auto bowl = static_cast<int>(rules.colour_g);
  const auto least = static_cast<int>(rules.smallest_g);
  for (int a = 0; a <= bowl; ++a) {
    for (int b = 0; a + b <= bowl; ++b) {
      for (int c = 0; a + b + c <= bowl; ++c) {
        if (!rules.clear && a + b + c != bowl) continue;
        bool pourable = true;
        for (const int grams : {a, b, c}) pourable = pourable && (grams == 0 || grams >= least);
        if (!pourable) continue;
        const std::vector<double> shares = {a / rules.colour_g, b / rules.colour_g,
                                            c / rules.colour_g};
        double sum = 0;
        for (const double de : score_shares(shelf, zones, shares)) sum += de / double(zones.size());
        best = std::min(best, sum);
      }
    }
  }
  return best;
}

TEST(PlanFormula, agrees_with_exhaustive_search_on_a_small_shelf) {
  InlineExecutor executor;
  FormulaRules rules;
  rules.colour_g = 20;
  rules.smallest_g = 2;
  for (const colour::HairLab target : {colour::HairLab{30, 20, 12}, colour::HairLab{38, 12, 22},
                                       colour::HairLab{25, 6, 2}, colour::HairLab{45, 25, 5}}) {
    std::vector<FormulaZone> zones = {canvas(0.15)};
    zones[0].target = target;
    const auto found = find_formulas(small_shelf(), zones, rules, executor);
    ASSERT_TRUE(found) << one_line(found.error());
    EXPECT_LE(found->best.front().expected_de00, exhaustive(small_shelf(), zones, rules) + 0.05)
        << target.l;
  }
}

TEST(PlanFormula, one_bowl_for_two_zones_is_the_best_compromise) {
  InlineExecutor executor;
  FormulaRules rules;
  rules.colour_g = 15;
  rules.clear = false;
  std::vector<FormulaZone> zones = {canvas(0.25), canvas(0.08)};
  for (FormulaZone& zone : zones) zone.target = {30, 20, 12};
  const auto found = find_formulas(small_shelf(), zones, rules, executor);
  ASSERT_TRUE(found);
  EXPECT_LE(found->best.front().expected_de00, exhaustive(small_shelf(), zones, rules) + 0.05);
  EXPECT_EQ(found->best.front().zone_de00.size(), 2u);
}

TEST(PlanFormula, keeps_to_stock_scale_smallest_pour_and_number_of_shades) {
  InlineExecutor executor;
  std::vector<FormulaShade> shelf = small_shelf();
  shelf.push_back(shade("violet", 560, 150));
  shelf.push_back(shade("copper", 470, 180));
  shelf[1].stock_g = 7;
  FormulaRules rules;
  rules.colour_g = 45;
  rules.step_g = 0.5;
  rules.smallest_g = 3;
  std::vector<FormulaZone> zones = {canvas(0.15, 0.3)};
  zones[0].target = {30, 22, 10};
  const auto found = find_formulas(shelf, zones, rules, executor);
  ASSERT_TRUE(found);
  for (const Formula& formula : found->best) {
    double sum = formula.clear_g;
    EXPECT_LE(formula.pours.size(), rules.most_shades);
    EXPECT_GE(formula.clear_g, -1e-9);
    for (const FormulaPour& pour : formula.pours) {
      sum += pour.grams;
      EXPECT_GE(pour.grams, rules.smallest_g);
      EXPECT_LE(pour.grams, shelf[pour.shade].stock_g);
      EXPECT_NEAR(std::remainder(pour.grams, rules.step_g), 0, 1e-9);
    }
    EXPECT_NEAR(sum, rules.colour_g, 1e-9);
  }
}

TEST(PlanFormula, a_price_on_colour_makes_the_bowl_cheaper) {
  InlineExecutor executor;
  std::vector<FormulaZone> zones = {canvas(0.15)};
  zones[0].target = {28, 20, 10};
  FormulaRules rules;
  const auto dear = find_formulas(small_shelf(), zones, rules, executor);
  rules.de_per_money = 1.5;
  const auto cheap = find_formulas(small_shelf(), zones, rules, executor);
  ASSERT_TRUE(dear && cheap);
  EXPECT_LT(cheap->best.front().cost, dear->best.front().cost);
  EXPECT_GE(cheap->best.front().expected_de00, dear->best.front().expected_de00);
}

TEST(PlanFormula, the_lower_bound_never_drops_the_best_subset) {
  InlineExecutor executor;
  // Shades from far too pale to far too deep: most subsets cannot reach the depth.
  std::vector<FormulaShade> shelf;
  const Draws draws(5);
  for (std::uint64_t k = 0; k < 12; ++k) {
    shelf.push_back(shade("s", 430 + 190 * draws.uniform(1, k),
                          k < 8 ? 8 + 4 * draws.uniform(2, k) : 150 + 100 * draws.uniform(2, k)));
  }
  FormulaRules rules;
  rules.most_shades = 2;
  rules.clear = false;
  std::vector<FormulaZone> zones = {canvas(0.1)};
  zones[0].target = {28, 18, 8};
  const auto found = find_formulas(shelf, zones, rules, executor);
  ASSERT_TRUE(found);
  EXPECT_GT(found->dropped, 0u);
  double best = 1e300;
  for (std::size_t a = 0; a < shelf.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      for (double share = 0; share <= 1; share += 1.0 / 60) {
        std::vector<double> shares(shelf.size(), 0);
        shares[a] = share;
        shares[b] = 1 - share;
        best = std::min(best, score_shares(shelf, zones, shares)[0]);
      }
    }
  }
  EXPECT_LE(found->best.front().expected_de00, best + 0.05);
}

TEST(PlanFormula, gives_the_same_answer_on_any_number_of_threads) {
  InlineExecutor one;
  const auto three = make_thread_pool(3);
  std::vector<FormulaZone> zones = {canvas(0.15)};
  zones[0].target = {32, 18, 14};
  const auto a = find_formulas(small_shelf(), zones, {}, one);
  const auto b = find_formulas(small_shelf(), zones, {}, *three);
  ASSERT_TRUE(a && b);
  EXPECT_EQ(a->best.front().objective, b->best.front().objective);
  EXPECT_EQ(a->evaluations, b->evaluations);
}

TEST(PlanFormula, what_cannot_be_mixed_is_an_error) {
  InlineExecutor executor;
  std::vector<FormulaZone> zones = {canvas(0.15)};
  EXPECT_FALSE(find_formulas({}, zones, {}, executor));
  EXPECT_FALSE(find_formulas(small_shelf(), {}, {}, executor));
  std::vector<FormulaShade> empty = small_shelf();
  for (FormulaShade& one : empty) one.stock_g = 0;
  FormulaRules rules;
  rules.clear = false;
  EXPECT_FALSE(find_formulas(empty, zones, rules, executor));
  rules.most_shades = 9;
  EXPECT_FALSE(find_formulas(small_shelf(), zones, rules, executor));
}

}  // namespace
}  // namespace hw::plan
