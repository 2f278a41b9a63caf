#include "huewright/hair/ladder.h"
#include "support/reference.h"

namespace hw::hair {
namespace {

using test::Source;

TEST(HairLadder, puts_measured_black_and_dark_brown_on_their_levels) {
  const Source black{"scanavez_2000", "Table IV, black hair, specular included and excluded"};
  // A level is a trade grade: half a level is as near as two people agree.
  EXPECT_PUBLISHED("black hair of L* 18.37 is level 1", black, 1, default_ladder().level_of(18.37),
                   0.5);
  EXPECT_PUBLISHED("black hair of L* 18.00 is level 1", black, 1, default_ladder().level_of(18.00),
                   0.5);
  const Source brown{"scanavez_2000", "Tables II to III, mean of seven settings"};
  EXPECT_PUBLISHED("dark brown hair of L* 22.7 is level 3", brown, 3,
                   default_ladder().level_of(22.7), 0.5);
}

TEST(HairLadder, perceived_depth_follows_the_published_power) {
  const Source source{"dyed_hair_brightness_2023", "abstract, exponent 0.766"};
  // 2^0.766 = 1.7005; the exponent's last digit moves it by 0.0006.
  EXPECT_PUBLISHED("L* 40 looks this much lighter than L* 20", source, 1.70,
                   perceived_depth(40) / perceived_depth(20), 0.005);
  EXPECT_EQ(perceived_depth(0), 0);
}

}  // namespace
}  // namespace hw::hair
