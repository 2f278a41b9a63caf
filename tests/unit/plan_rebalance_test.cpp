// Correction during mixing.
#include <random>

#include "huewright/plan/pours.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

using process::PartKind;

const std::vector<BowlPart> kColour{
    {"brown", PartKind::colour, 2}, {"red", PartKind::colour, 1}, {"d6", PartKind::developer, 3}};

Rebalanced made(const std::vector<BowlPart>& parts, const std::vector<double>& poured,
                double wanted_g, double step_g = 1) {
  const auto result = rebalance(parts, poured, wanted_g, step_g);
  EXPECT_TRUE(result.has_value());
  return result.value_or(Rebalanced{});
}

TEST(Rebalance, without_a_slip_it_says_what_is_left_to_pour) {
  const auto bowl = made(kColour, {20, 0, 0}, 60);
  EXPECT_EQ(bowl.still[0].grams, 0);
  EXPECT_EQ(bowl.still[1].grams, 10);
  EXPECT_EQ(bowl.still[2].grams, 30);
  EXPECT_EQ(bowl.still[2].id, "d6");
  EXPECT_EQ(bowl.grams, 60);
  EXPECT_EQ(bowl.more_g, 0);
}

TEST(Rebalance, too_much_of_a_shade_raises_the_others) {
  const auto bowl = made(kColour, {24, 0, 0}, 60);
  EXPECT_EQ(bowl.still[1].grams, 12);
  EXPECT_EQ(bowl.still[2].grams, 36);
  EXPECT_EQ(bowl.more_g, 12);
  const std::vector<BowlPart> two{{"red", PartKind::colour, 1}, {"d6", PartKind::developer, 2}};
  const auto worked = made(two, {36, 0}, 90);
  EXPECT_EQ(worked.still[1].grams, 72);
  EXPECT_EQ(worked.more_g, 18);
}

TEST(Rebalance, too_much_developer_takes_more_colour) {
  const auto bowl = made(kColour, {20, 10, 33}, 60);
  EXPECT_EQ(bowl.still[0].grams, 2);
  EXPECT_EQ(bowl.still[1].grams, 1);
  EXPECT_EQ(bowl.still[2].grams, 0);
  EXPECT_LE(33.0, 20 + 2 + 10 + 1);
}

TEST(Rebalance, any_slip_keeps_the_parts_and_the_ratio) {
  std::mt19937 draw(11);
  std::uniform_real_distribution<double> of_one(0, 1);
  int slips = 0;
  double worst = 0;
  for (int i = 0; i < 3000; ++i) {
    std::vector<BowlPart> parts{{"a", PartKind::colour, 0.5 + 3 * of_one(draw)},
                                {"b", PartKind::colour, 0.5 + 3 * of_one(draw)},
                                {"dev", PartKind::developer, 1 + 6 * of_one(draw)},
                                {"w", PartKind::water, 0.5 + of_one(draw)}};
    if (i % 3 == 0) parts[0].kind = parts[1].kind = PartKind::shampoo;  // no base: the largest
    std::vector<double> poured;
    for (int p = 0; p < 4; ++p) poured.push_back(of_one(draw) < 0.4 ? 0 : 60 * of_one(draw));
    const double step = i % 2 == 0 ? 1 : 0.1;
    const auto bowl = made(parts, poured, 100, step);
    double all = 0, sum = 0;
    for (int p = 0; p < 4; ++p) all += parts[p].parts;
    for (int p = 0; p < 4; ++p) {
      EXPECT_GE(bowl.still[p].grams, 0);
      sum += poured[p] + bowl.still[p].grams;
      const double off = poured[p] + bowl.still[p].grams - bowl.grams * parts[p].parts / all;
      worst = std::max(worst, std::abs(off) / step);
    }
    EXPECT_NEAR(sum, bowl.grams, 1e-9);
    slips += bowl.more_g > 4 * step;
    if (parts[0].kind != PartKind::colour) continue;
    const double base = poured[0] + bowl.still[0].grams + poured[1] + bowl.still[1].grams;
    EXPECT_LE(poured[2] + bowl.still[2].grams,
              base * parts[2].parts / (parts[0].parts + parts[1].parts) + 1e-9);
  }
  EXPECT_GT(slips, 500);
  EXPECT_LT(worst, 1.5);  // steps of the scale
  RecordProperty("worst_off_steps", std::to_string(worst));
}

TEST(Rebalance, out_of_range_names_the_place) {
  EXPECT_EQ(rebalance(kColour, std::vector<double>{1, 2}, 60, 1).error().where, "poured");
  EXPECT_EQ(rebalance(kColour, std::vector<double>{1, -2, 0}, 60, 1).error().where, "poured[1]");
  EXPECT_EQ(rebalance(kColour, std::vector<double>{1, 2, 0}, -1, 1).error().where, "wanted_g");
  EXPECT_EQ(rebalance(kColour, std::vector<double>{1, 2, 0}, 60, 0).error().where, "step_g");
  EXPECT_EQ(rebalance({}, {}, 60, 1).error().where, "parts");
}

}  // namespace
}  // namespace hw::plan
