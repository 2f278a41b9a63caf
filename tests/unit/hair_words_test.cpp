#include <set>

#include "huewright/hair/tress.h"
#include "huewright/hair/words.h"

namespace hw::hair {
namespace {

std::string tone_of(double l, double a, double b) {
  return describe({l, a, b}).tone;
}

TEST(HairWords, name_a_lifted_orange_strand) {
  const ColourWords words = describe({35, 14.5, 22.8});
  EXPECT_NEAR(words.level, 5.83, 0.01);
  EXPECT_EQ(words.level_name, "dark blond");
  EXPECT_EQ(words.tone, "copper");
  EXPECT_EQ(words.warmth, "red-orange");
  EXPECT_EQ(sentence(words), "level 5.8, dark blond, copper tone, red-orange underlying warmth");
}

TEST(HairWords, leave_warmth_out_where_none_shows) {
  const ColourWords words = describe({36, 7.9, 16.3});
  EXPECT_EQ(words.tone, "neutral");
  EXPECT_EQ(words.warmth, "");
  EXPECT_EQ(sentence(words), "level 6.0, dark blond, neutral tone");
}

TEST(HairWords, judge_tone_against_natural_hair_not_against_grey) {
  EXPECT_EQ(tone_of(50, 7, 18.6), "neutral");
  EXPECT_EQ(tone_of(50, 3, 9), "ash");
  EXPECT_EQ(tone_of(50, 0.5, 1), "silver");
  EXPECT_EQ(tone_of(50, 8, 28), "gold");
  EXPECT_EQ(tone_of(50, 16, 29), "copper");
  EXPECT_EQ(tone_of(30, 22, 20), "red");
  EXPECT_EQ(tone_of(28, 16, 9.5), "mahogany");
  EXPECT_EQ(tone_of(28, 17, 4), "red-violet");
  EXPECT_EQ(tone_of(28, 10, -6), "violet");
  EXPECT_EQ(tone_of(40, 0, -20), "blue");
  EXPECT_EQ(tone_of(50, -12, 22), "green");
  EXPECT_EQ(tone_of(50, -1, 19), "matt");
}

TEST(HairWords, say_only_warm_or_cool_of_the_darkest_hair) {
  EXPECT_EQ(tone_of(18.5, 0.1, -0.5), "neutral");
  EXPECT_EQ(tone_of(19, 5, 3), "warm");
  EXPECT_EQ(tone_of(19, 0, -4), "cool");
  EXPECT_EQ(describe({19, 9, 8}).warmth, "");
}

TEST(HairWords, keep_the_number_and_give_each_level_its_own_name) {
  std::set<std::string> names;
  for (int level = 1; level <= 10; ++level) names.insert(level_name(level));
  EXPECT_EQ(names.size(), 10u);
  EXPECT_EQ(level_name(1.4), "black");
  EXPECT_EQ(level_name(9.6), "lightest blond");
  EXPECT_EQ(level_name(-5), level_name(1));
  EXPECT_EQ(level_name(50), level_name(10));
}

TEST(HairWords, follow_the_ladder_they_are_given) {
  const std::vector<double> own = {10, 20, 30, 40, 50, 60, 70, 80, 90, 95};
  const auto ladder = make_ladder(own);
  ASSERT_TRUE(ladder);
  EXPECT_DOUBLE_EQ(describe({35, 7.8, 15.9}, *ladder).level, 3.5);
  EXPECT_EQ(describe({30, 7.8, 15.9}, *ladder).level_name, "dark brown");
}

TEST(HairWords, stages_meet_at_their_borders) {
  const auto& stages = warm_stages();
  ASSERT_EQ(stages.size(), 8u);
  for (std::size_t i = 0; i < stages.size(); ++i) {
    EXPECT_EQ(warm_stage(stages[i].middle.l).name, stages[i].name);
    EXPECT_EQ(warm_stage(stages[i].from_lstar).name, stages[i].name);
    if (i > 0) {
      EXPECT_EQ(warm_stage(stages[i].from_lstar - 1e-9).name, stages[i - 1].name);
    }
  }
  EXPECT_EQ(warm_stage(-10).name, "red-brown");
  EXPECT_EQ(warm_stage(200).name, "palest yellow");
}

TEST(HairWords, every_stage_shows_its_own_warmth) {
  for (const WarmStage& stage : warm_stages()) {
    EXPECT_EQ(describe(stage.middle).warmth, stage.name);
  }
}

// The line of natural hair in the table is the tress law's own.
TEST(HairWords, natural_hair_of_every_depth_is_neutral) {
  for (const double melanin : {2.5, 1.2, 0.8, 0.54, 0.37, 0.24, 0.15, 0.086, 0.042, 0.016}) {
    Strand strand;
    strand.eumelanin_percent = 0.95 * melanin;
    strand.pheomelanin_percent = 0.05 * melanin;
    const ToneOffset offset = tone_offset(tress_lab(strand));
    // 0.15 radii is below 1 CIELAB unit: rounding of the table and straight lines between its rows.
    EXPECT_LT(offset.strength, 0.15) << melanin;
  }
}

}  // namespace
}  // namespace hw::hair
