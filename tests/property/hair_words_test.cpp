#include <numbers>

#include "huewright/hair/words.h"

namespace hw::hair {
namespace {

TEST(HairWordsProperty, every_depth_hue_and_chroma_has_all_its_words) {
  for (double l = 15; l <= 90; l += 1) {
    for (double h = 0; h < 360; h += 5) {
      for (double c = 0; c <= 60; c += 4) {
        const double turn = h * std::numbers::pi / 180;
        const ColourWords words = describe({l, c * std::cos(turn), c * std::sin(turn)});
        ASSERT_FALSE(words.tone.empty());
        ASSERT_FALSE(words.level_name.empty());
        ASSERT_GE(words.level, 1);
        ASSERT_LE(words.level, 10);
        if (l < 20) {
          ASSERT_TRUE(words.tone == "neutral" || words.tone == "warm" || words.tone == "cool");
        }
      }
    }
  }
}

TEST(HairWordsProperty, strength_grows_with_distance_from_natural_hair) {
  for (double l = 20; l <= 90; l += 5) {
    for (double h = 0; h < 360; h += 15) {
      const double turn = h * std::numbers::pi / 180;
      double before = -1;
      for (double step = 0; step < 30; step += 1) {
        // Start far inside: (5, 12) lies near the natural line at every depth.
        const colour::HairLab away{l, 5 + (40 + step) * std::cos(turn),
                                   12 + (40 + step) * std::sin(turn)};
        const double strength = tone_offset(away).strength;
        EXPECT_GT(strength, before);
        before = strength;
      }
    }
  }
}

}  // namespace
}  // namespace hw::hair
