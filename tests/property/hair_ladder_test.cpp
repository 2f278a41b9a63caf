#include <algorithm>

#include "huewright/base/random.h"
#include "huewright/hair/ladder.h"

namespace hw::hair {
namespace {

std::vector<Swatch> random_swatches(const Draws& draws, std::uint64_t stream) {
  const auto count = static_cast<std::size_t>(20 * draws.uniform(stream, 0));
  std::vector<Swatch> swatches;
  for (std::size_t i = 0; i < count; ++i) {
    const std::uint64_t at = 3 * i + 1;
    swatches.push_back({1 + 9 * draws.uniform(stream, at), 100 * draws.uniform(stream, at + 1),
                        0.05 + 5 * draws.uniform(stream, at + 2)});
  }
  return swatches;
}

TEST(HairLadderProperty, level_and_depth_invert_each_other) {
  const Ladder& ladder = default_ladder();
  for (int i = 0; i <= 900; ++i) {
    const double level = 1 + i / 100.0;
    EXPECT_NEAR(ladder.level_of(ladder.lstar_of(level)), level, 1e-9);
  }
}

TEST(HairLadderProperty, a_lighter_depth_never_has_a_lower_level) {
  double before = 0;
  for (double lstar = 0; lstar <= 100; lstar += 0.05) {
    const double level = default_ladder().level_of(lstar);
    EXPECT_GE(level, before);
    before = level;
  }
}

TEST(HairLadderProperty, refit_rises_within_range_whatever_the_swatches) {
  const Draws draws(2024);
  for (std::uint64_t trial = 0; trial < 400; ++trial) {
    const auto swatches = random_swatches(draws, trial);
    const auto fitted = refit(default_ladder(), swatches);
    ASSERT_TRUE(fitted) << trial << " " << fitted.error().message;
    const auto& rungs = fitted->ladder.rungs();
    EXPECT_GE(rungs.front(), 0);
    EXPECT_LE(rungs.back(), 100);
    for (std::size_t i = 1; i < kRungs; ++i) EXPECT_GT(rungs[i], rungs[i - 1]) << trial;
  }
}

TEST(HairLadderProperty, refit_does_not_depend_on_the_order_of_swatches) {
  const Draws draws(7);
  for (std::uint64_t trial = 0; trial < 100; ++trial) {
    auto swatches = random_swatches(draws, trial);
    const auto fitted = refit(default_ladder(), swatches);
    std::reverse(swatches.begin(), swatches.end());
    const auto turned = refit(default_ladder(), swatches);
    for (std::size_t i = 0; i < kRungs; ++i) {
      EXPECT_NEAR(fitted->ladder.rungs()[i], turned->ladder.rungs()[i], 1e-7);
    }
  }
}

TEST(HairLadderProperty, a_swatch_on_the_ladder_moves_nothing) {
  for (double level = 1; level <= 10; level += 0.25) {
    const std::vector<Swatch> swatches = {{level, default_ladder().lstar_of(level), 0.3}};
    const auto fitted = refit(default_ladder(), swatches);
    for (const double moved : fitted->moved_lstar) EXPECT_NEAR(moved, 0, 1e-9);
  }
}

}  // namespace
}  // namespace hw::hair
