#include <limits>

#include "huewright/hair/words.h"
#include "support/reference.h"

namespace hw::hair {
namespace {

using test::Source;

struct Taught {
  std::string column;
  double from = 0;
  double to = 0;
};

/// The taught range nearest to a level, for one stage.
Taught nearest_taught(const std::string& stage, double level) {
  const Table table = test::test_table("hair/stage_columns.csv");
  Taught best;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < table.rows(); ++i) {
    if (*table.text(i, "stage") != stage) continue;
    const double from = *table.number(i, "from_level");
    const double to = *table.number(i, "to_level");
    const double miss = std::max({from - level, level - to, 0.0});
    if (miss < least) {
      least = miss;
      best = {*table.text(i, "column"), from, to};
    }
  }
  return best;
}

// Red-brown is left out: black hair barely lifted shows it, and the columns put it at level 1 or 2.
TEST(HairWords, warm_stages_fall_within_a_level_of_where_they_are_taught) {
  int stages = 0;
  for (const WarmStage& stage : warm_stages()) {
    if (stage.name == "red-brown" || stage.name == "palest yellow") continue;
    const double level = default_ladder().level_of(stage.middle.l);
    const Taught taught = nearest_taught(stage.name, level);
    const Source source{"common practice, no source",
                        "lift stages by level, column '" + taught.column + "'"};
    EXPECT_PUBLISHED_RANGE("level of stage " + stage.name, source, taught.from - 1, taught.to + 1,
                           level);
    ++stages;
  }
  EXPECT_EQ(stages, 6);
}

TEST(HairWords, measured_natural_hair_is_called_neutral) {
  const Source black{"scanavez_2000", "Table IV, black hair (18.37, -0.05, -0.84)"};
  EXPECT_PUBLISHED_RANGE("strength of tone of black hair", black, 0, 1,
                         tone_offset({18.37, -0.05, -0.84}).strength);
  const Source brown{"scanavez_2000", "dark brown hair, mean of seven settings (22.7, 3.9, 4.8)"};
  EXPECT_PUBLISHED_RANGE("strength of tone of dark brown hair", brown, 0, 1,
                         tone_offset({22.7, 3.9, 4.8}).strength);
  EXPECT_EQ(describe({22.7, 3.9, 4.8}).tone, "neutral");
  EXPECT_EQ(describe({22.7, 3.9, 4.8}).level_name, "dark brown");
}

}  // namespace
}  // namespace hw::hair
