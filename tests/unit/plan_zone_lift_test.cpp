// A stop read between two rows of a run, for a first judgement, is the simulated one.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>

#include "huewright/plan/belief.h"
#include "support/demo_case.h"
#include "zone_lift.h"

namespace hw::plan {
namespace {

TEST(ZoneLift, stops_between_rows_are_where_a_simulation_comes) {
  InlineExecutor executor;
  const Case head = test::plain_head();
  const auto beliefs = believe(head, executor);
  ASSERT_TRUE(beliefs);
  const auto recipes = lift_recipes(head);
  ASSERT_TRUE(recipes);
  double level = 0;
  double wear = 0;
  std::size_t stops = 0;
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    const ZoneBelief& belief = (*beliefs)[z];
    const ZoneStart start{head.zones[z], belief.members, belief.level_now};
    for (const Recipe& recipe : *recipes) {
      const std::vector<double> wishes = {4, 5, 6.5, 8};
      const auto exact = lift_zone(head, start, recipe, 1, wishes);
      const auto rough = lift_zone(head, start, recipe, 1, wishes, Stops::between_rows);
      for (std::size_t i = 0; i < wishes.size(); ++i) {
        EXPECT_EQ(rough[i].outcome.stop_min.mid, exact[i].outcome.stop_min.mid);
        EXPECT_EQ(rough[i].outcome.already_there, exact[i].outcome.already_there);
        const double off = std::abs(rough[i].outcome.level.mid - exact[i].outcome.level.mid);
        level = std::max(level, off);
        wear = std::max(wear, std::abs(rough[i].outcome.wear.high - exact[i].outcome.wear.high));
        stops += exact[i].outcome.already_there ? 0 : 1;
      }
    }
  }
  std::printf("%zu stops, between rows: at most %.4f level and %.5f wear off\n", stops, level,
              wear);
  EXPECT_GT(stops, 20U);
  EXPECT_LE(level, 0.05);
  EXPECT_LE(wear, 0.002);
}

}  // namespace
}  // namespace hw::plan
