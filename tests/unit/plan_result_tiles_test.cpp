// What a course ends in, in three lights.
#include <gmock/gmock.h>

#include "huewright/colour/difference.h"
#include "huewright/plan/result_tiles.h"
#include "support/coloured_head.h"

namespace hw::plan {
namespace {

std::vector<ZoneTiles> tiles_of(const Course& course) {
  const auto& [head, plan] = test::planned_colour();
  InlineExecutor executor;
  return result_tiles(head, plan.zones, course, executor);
}

TEST(ResultTiles, are_the_planners_result_in_daylight) {
  const Course& course = test::lift_then_colour();
  const auto tiles = tiles_of(course);
  ASSERT_EQ(tiles.size(), course.zones.size());
  for (std::size_t z = 0; z < tiles.size(); ++z) {
    const ColourBand& result = course.zones[z].result;
    EXPECT_EQ(tiles[z].zone, course.zones[z].zone);
    // One member stands for the few whose mean the planner gives; the ends are the same members,
    // their reflectances averaged where the planner averages their Lab.
    EXPECT_LT(colour::delta_e_2000(tiles[z].likely.seen[0], result.lab), 3) << tiles[z].zone;
    EXPECT_LT(colour::delta_e_2000(tiles[z].lighter.seen[0], result.lab_high), 0.5);
    EXPECT_LT(colour::delta_e_2000(tiles[z].darker.seen[0], result.lab_low), 0.5);
    EXPECT_GT(tiles[z].lighter.seen[0].l, tiles[z].likely.seen[0].l);
    EXPECT_LT(tiles[z].darker.seen[0].l, tiles[z].likely.seen[0].l);
  }
}

TEST(ResultTiles, a_second_visit_without_bowls_only_fades_the_first) {
  Course course = test::lift_then_colour();
  const auto fresh = tiles_of(course);
  course.visits = 2;
  const auto later = tiles_of(course);
  EXPECT_GT(later[1].likely.seen[0].l, fresh[1].likely.seen[0].l);
}

TEST(ResultTiles, a_grey_is_grey_in_every_light) {
  colour::Spectrum grey{};
  grey.fill(0.18);
  const ResultTile tile = result_tile(grey);
  for (const colour::HairLab& lab : tile.seen) {
    EXPECT_NEAR(lab.l, 49.50, 0.01);  // as lab_of() of the colour floor has it
    EXPECT_NEAR(lab.a, 0, 1e-9);
    EXPECT_NEAR(lab.b, 0, 1e-9);
  }
}

TEST(ResultTiles, a_step_in_the_red_turns_under_the_tube) {
  // A band of red light that the tube hardly has: what the Lab alone could never tell.
  colour::Spectrum brown{};
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    const double nm = colour::kFirstNm + colour::kStepNm * static_cast<double>(i);
    brown[i] = nm < 600 ? 0.04 : 0.16;
  }
  const ResultTile tile = result_tile(brown);
  EXPECT_LT(tile.seen[2].a, tile.seen[0].a - 3);
  EXPECT_GT(colour::delta_e_2000(tile.seen[0], tile.seen[2]), 2);
  EXPECT_EQ(tile_lights()[0].light, colour::Illuminant::d65);
}

TEST(ResultTiles, the_turn_is_said_in_words) {
  EXPECT_EQ(turn_words({40, 10, 10}, {40, 10.3, 10}), "as in daylight");
  EXPECT_THAT(turn_words({40, 10, 10}, {42, 10, 10}), testing::EndsWith("off: lighter"));
  EXPECT_THAT(turn_words({40, 10, 10}, {38, 7, 14}),
              testing::EndsWith("off: darker, less red, yellower"));
  EXPECT_THAT(turn_words({40, 10, 14}, {40, 14, 10}),
              testing::EndsWith("off: redder, less yellow"));
}

}  // namespace
}  // namespace hw::plan
