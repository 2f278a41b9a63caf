#include <limits>
#include <set>

#include "huewright/hair/ladder.h"

namespace hw::hair {
namespace {

const std::vector<double> kEven = {10, 20, 30, 40, 50, 60, 70, 80, 90, 95};

TEST(HairLadder, reads_levels_linearly_between_rungs) {
  const Ladder& ladder = default_ladder();
  EXPECT_DOUBLE_EQ(ladder.level_of(30), 5);
  EXPECT_DOUBLE_EQ(ladder.level_of(33), 5.5);
  EXPECT_DOUBLE_EQ(ladder.lstar_of(5.5), 33);
  EXPECT_DOUBLE_EQ(ladder.lstar_of(10), 70);
}

TEST(HairLadder, holds_the_end_rungs_outside) {
  const Ladder& ladder = default_ladder();
  EXPECT_EQ(ladder.level_of(0), 1);
  EXPECT_EQ(ladder.level_of(99), 10);
  EXPECT_EQ(ladder.lstar_of(-3), ladder.lstar_of(1));
  EXPECT_EQ(ladder.lstar_of(12), ladder.lstar_of(10));
}

TEST(HairLadder, refuses_what_is_not_a_ladder_and_says_where) {
  EXPECT_EQ(make_ladder(std::vector<double>{1, 2}).error().code, ErrorCode::malformed);
  auto flat = kEven;
  flat[4] = flat[3];
  const auto tie = make_ladder(flat);
  ASSERT_FALSE(tie);
  EXPECT_EQ(tie.error().code, ErrorCode::conflict);
  EXPECT_EQ(tie.error().where, "ladder[4]");
  auto high = kEven;
  high[9] = 100.5;
  EXPECT_EQ(make_ladder(high).error().where, "ladder[9]");
  auto odd = kEven;
  odd[0] = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(make_ladder(odd).error().code, ErrorCode::out_of_range);
}

TEST(HairLadderRefit, without_swatches_gives_the_prior_bit_for_bit) {
  const auto fitted = refit(default_ladder(), {});
  ASSERT_TRUE(fitted);
  EXPECT_EQ(fitted->ladder, default_ladder());
  for (const double moved : fitted->moved_lstar) EXPECT_EQ(moved, 0);
}

TEST(HairLadderRefit, a_swatch_moves_its_rung_most_and_neighbours_less) {
  const std::vector<Swatch> swatches = {{5, 33, 0.5}};
  const auto fitted = refit(default_ladder(), swatches);
  ASSERT_TRUE(fitted);
  const auto& moved = fitted->moved_lstar;
  // One observation of one rung: the posterior mean is the shrunk miss, sd² / (sd² + 0.5²) of 3.
  EXPECT_NEAR(moved[4], 3 * 9 / (9 + 0.25), 1e-9);
  // Neighbours follow by correlation times the ratio of their sd: 0.7·2/3 and 0.7·3/3.
  EXPECT_NEAR(moved[3], moved[4] * 0.7 * 2 / 3, 1e-9);
  EXPECT_NEAR(moved[5], moved[4] * 0.7, 1e-9);
  EXPECT_GT(moved[0], 0);
  EXPECT_LT(moved[0], moved[3]);
  EXPECT_EQ(fitted->pooled, 0u);
}

TEST(HairLadderRefit, a_swatch_between_levels_is_met_between_rungs) {
  const std::vector<Swatch> swatches = {{6.5, 44, 0.01}};
  const auto fitted = refit(default_ladder(), swatches);
  ASSERT_TRUE(fitted);
  EXPECT_NEAR(fitted->ladder.lstar_of(6.5), 44, 0.01);
}

TEST(HairLadderRefit, many_swatches_overrule_the_prior) {
  std::vector<Swatch> swatches;
  for (int repeat = 0; repeat < 200; ++repeat) {
    for (int level = 1; level <= 10; ++level) {
      swatches.push_back(
          {static_cast<double>(level), kEven[static_cast<std::size_t>(level - 1)], 1});
    }
  }
  const auto fitted = refit(default_ladder(), swatches);
  ASSERT_TRUE(fitted);
  for (std::size_t i = 0; i < kRungs; ++i) {
    EXPECT_NEAR(fitted->ladder.rungs()[i], kEven[i], 0.2) << i;
  }
}

TEST(HairLadderRefit, contradicting_swatches_are_pooled_and_still_rise) {
  const std::vector<Swatch> swatches = {{3, 30, 0.1}, {6, 25, 0.1}};
  const auto fitted = refit(default_ladder(), swatches);
  ASSERT_TRUE(fitted);
  EXPECT_GT(fitted->pooled, 0u);
  for (std::size_t i = 1; i < kRungs; ++i) {
    EXPECT_GT(fitted->ladder.rungs()[i], fitted->ladder.rungs()[i - 1]);
  }
}

TEST(HairLadderRefit, names_the_swatch_that_is_wrong) {
  const std::vector<Swatch> level = {{5, 30, 1}, {11, 30, 1}};
  EXPECT_EQ(refit(default_ladder(), level).error().where, "swatches[1].level");
  const std::vector<Swatch> lstar = {{5, 130, 1}};
  EXPECT_EQ(refit(default_ladder(), lstar).error().where, "swatches[0].lstar");
  const std::vector<Swatch> spread = {{5, 30, 0}};
  EXPECT_EQ(refit(default_ladder(), spread).error().where, "swatches[0].sd_lstar");
  RungPrior stiff = default_rung_prior();
  stiff.neighbour_correlation = 1;
  EXPECT_EQ(refit(default_ladder(), {}, stiff).error().where, "scatter.neighbour_correlation");
}

}  // namespace
}  // namespace hw::hair
