#include <algorithm>

#include "huewright/base/elementary.h"
#include "huewright/base/random.h"
#include "huewright/colour/difference.h"
#include "huewright/hair/words.h"
#include "huewright/plan/target.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

double hue(const Target& target) {
  return colour::lab_to_lch(target.centre).h;
}

TEST(PlanTarget, every_look_is_a_colour_that_hair_can_have) {
  EXPECT_GE(default_looks().size(), 25u);
  for (const Look& known : default_looks()) {
    const auto target = look(known.word);
    ASSERT_TRUE(target) << known.word;
    EXPECT_GT(target->sd_l, 0) << known.word;
    EXPECT_EQ(target->words, known.word);
    EXPECT_FALSE(known.grade.empty());
    EXPECT_FALSE(known.source.empty());
    // Chroma that dyed hair can show at its depth: none of it passes what lifted hair shows.
    EXPECT_LT(std::hypot(known.a, known.b), 40) << known.word;
  }
}

TEST(PlanTarget, words_lie_in_the_order_that_the_trade_knows) {
  const auto at = [](const char* word) { return *look(word); };
  // Depth: common practice, no source.
  const std::vector<std::string> darker_to_lighter = {
      "black", "espresso", "chocolate", "chestnut", "caramel", "honey", "platinum"};
  for (std::size_t i = 1; i < darker_to_lighter.size(); ++i) {
    EXPECT_GT(at(darker_to_lighter[i].c_str()).centre.l,
              at(darker_to_lighter[i - 1].c_str()).centre.l);
  }
  // Hue from violet through red to gold: common practice, no source.
  const auto signed_hue = [&](const char* word) {
    const double h = hue(at(word));
    return h > 180 ? h - 360 : h;
  };
  EXPECT_LT(signed_hue("plum"), signed_hue("burgundy"));
  EXPECT_LT(signed_hue("burgundy"), signed_hue("mahogany"));
  EXPECT_LT(signed_hue("mahogany"), signed_hue("auburn"));
  EXPECT_LT(signed_hue("auburn"), signed_hue("copper"));
  EXPECT_LT(signed_hue("copper"), signed_hue("honey"));
}

TEST(PlanTarget, words_of_a_look_are_those_that_describe_it) {
  const auto tone = [](const char* word) { return hair::describe(look(word)->centre).tone; };
  EXPECT_EQ(tone("copper"), "copper");
  EXPECT_EQ(tone("red"), "red");
  EXPECT_EQ(tone("mahogany"), "mahogany");
  EXPECT_EQ(tone("honey"), "gold");
  EXPECT_EQ(tone("chestnut"), "red");
  EXPECT_EQ(tone("silver"), "silver");
}

TEST(PlanTarget, a_word_in_dispute_is_wide_and_says_so) {
  const Target mahogany = *look("  Mahogany ");
  EXPECT_NE(mahogany.note.find("agree on a picture, not on the word"), std::string::npos);
  const Target chestnut = *look("chestnut");
  EXPECT_GT(mahogany.sd_a, chestnut.sd_a);
  EXPECT_GT(mahogany.sd_b, chestnut.sd_b);
  EXPECT_TRUE(chestnut.note.empty());
}

TEST(PlanTarget, an_unknown_word_names_the_nearest_ones) {
  const auto found = look("mahagoni");
  ASSERT_FALSE(found);
  EXPECT_EQ(found.error().code, ErrorCode::unknown_name);
  EXPECT_NE(found.error().hint.find("mahogany"), std::string::npos);
}

TEST(PlanTarget, a_salon_keeps_its_own_words_and_its_faults_are_named) {
  const std::string head = "word,level,sd_level,a,sd_a,b,sd_b,note,grade,source\n";
  const auto own = parse_looks(head + "Our Toffee,6,0.5,9,2,19,3,,own,salon\n", "own.csv");
  ASSERT_TRUE(own);
  EXPECT_TRUE(look("our toffee", hair::default_ladder(), *own));
  EXPECT_FALSE(look("toffee", hair::default_ladder(), *own));
  EXPECT_FALSE(parse_looks(head + "x,12,0.5,9,2,19,3,,own,salon\n", "own.csv"));
  EXPECT_FALSE(parse_looks(head + "x,6,0,9,2,19,3,,own,salon\n", "own.csv"));
  const auto twice = parse_looks(head + "x,6,1,9,2,19,3,,o,s\nX,5,1,9,2,19,3,,o,s\n", "own.csv");
  ASSERT_FALSE(twice);
  EXPECT_EQ(twice.error().code, ErrorCode::conflict);
  EXPECT_FALSE(parse_looks("word,level\nx,6\n", "own.csv"));
}

TEST(PlanTarget, a_photo_is_a_wide_patch_and_never_a_number) {
  const Target photo = *target_photo({60, 12, 25});
  EXPECT_FALSE(photo.exact());
  EXPECT_GE(photo.sd_l, 10);
  EXPECT_FALSE(photo.note.empty());
  EXPECT_PUBLISHED("what a photo reads above a contact instrument [L*]",
                   {"vaughn_2009", "abstract"}, 33.42, 60 - photo.centre.l, 0.005);
  EXPECT_PUBLISHED("what a photo reads above a contact instrument [b*]",
                   {"vaughn_2009", "abstract"}, 8.00, 25 - photo.centre.b, 0.005);
  const Target swatch = *target_swatch({30, 12, 10});
  EXPECT_TRUE(swatch.exact());
  EXPECT_LT(swatch.sd_l, photo.sd_l / 5);
  EXPECT_TRUE(target_last_time({30, 12, 10})->exact());
  EXPECT_FALSE(target_colour({130, 0, 0}));
}

TEST(PlanTarget, lighter_ends_move_in_depth_alone) {
  const Target lengths = *look("chestnut");
  const Target ends = lighter(lengths, 1.5);
  const hair::Ladder& ladder = hair::default_ladder();
  EXPECT_NEAR(ladder.level_of(ends.centre.l) - ladder.level_of(lengths.centre.l), 1.5, 1e-9);
  EXPECT_EQ(ends.centre.a, lengths.centre.a);
}

TEST(PlanTarget, points_of_a_patch_have_its_mean_and_spread) {
  const Target target = *look("mahogany");
  double sum = 0, mean = 0, var = 0, fourth = 0;
  for (const TargetPoint& point : target_points(target)) {
    sum += point.weight;
    mean += point.weight * point.lab.a;
  }
  for (const TargetPoint& point : target_points(target)) {
    var += point.weight * std::pow(point.lab.a - mean, 2);
    fourth += point.weight * std::pow(point.lab.a - mean, 4);
  }
  EXPECT_NEAR(sum, 1, 1e-12);
  EXPECT_NEAR(mean, target.centre.a, 1e-9);
  EXPECT_NEAR(var, target.sd_a * target.sd_a, 1e-9);
  EXPECT_NEAR(fourth, 3 * std::pow(target.sd_a, 4), 1e-6);  // as of a normal
}

TEST(PlanTarget, expected_difference_agrees_with_drawing_the_patch) {
  const Target target = *look("auburn");
  const colour::HairLab got{34, 12, 18};
  const Draws draws(7);
  double sum = 0;
  constexpr std::size_t kMany = 20000;
  for (std::size_t i = 0; i < kMany; ++i) {
    sum += colour::delta_e_2000(
        got, colour::HairLab{target.centre.l + target.sd_l * draws.normal(1, i),
                             target.centre.a + target.sd_a * draws.normal(2, i),
                             target.centre.b + target.sd_b * draws.normal(3, i)});
  }
  EXPECT_NEAR(expected_de00(got, target), sum / kMany, 0.15);
  EXPECT_GT(expected_de00(got, target), expected_de00(target.centre, target));
  EXPECT_EQ(sds_off(target.centre, target), 0);
  EXPECT_GT(sds_off({60, 5, 20}, target), 3);
}

}  // namespace
}  // namespace hw::plan
