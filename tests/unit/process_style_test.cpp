#include "huewright/process/style.h"
#include "support/reference.h"

namespace hw::process {
namespace {

const test::Source kPractice{"common practice, no source", ""};
constexpr double kDensity = 190;

TwistPlan plan(const TwistTask& task, double parting = 0) {
  const auto made = twist_plan(task, parting);
  EXPECT_TRUE(made.has_value());
  return made.value_or(TwistPlan{});
}

TEST(ProcessStyle, twists_and_minutes_on_six_hundred_square_centimetres) {
  struct Row {
    double parting, twists, low, high;
  };
  const test::Source area{"own derivation", "600 cm2 over parting squared, 0.5 to 1.0 min each"};
  TwistTask task;
  task.scalp_cm2 = 600;
  for (const Row& row : {Row{1.5, 267, 135, 265}, Row{2, 150, 75, 150}, Row{2.5, 96, 50, 95},
                         Row{3, 67, 35, 65}, Row{4, 38, 20, 40}}) {
    const TwistPlan made = plan(task, row.parting);
    const std::string name = std::to_string(row.parting) + " cm";
    EXPECT_PUBLISHED("twists with partings of " + name, area, row.twists, made.twists, 0.5);
    // Printed minutes are rounded to fives.
    EXPECT_PUBLISHED("twisting minutes, low, " + name, area, row.low, made.minutes.low, 2.5);
    EXPECT_PUBLISHED("twisting minutes, high, " + name, area, row.high, made.minutes.high, 2.5);
  }
}

TEST(ProcessStyle, the_fitting_parting_lies_in_the_trade_s_ranges) {
  struct Row {
    double parting, from, to;
  };
  for (const Row& row : {Row{2, 5, 10}, Row{2.5, 10, 20}, Row{3, 15, 25}, Row{4, 25, 40}}) {
    const double middle = (row.from + row.to) / 2;
    EXPECT_PUBLISHED("parting for " + std::to_string(middle) + " cm [cm]", kPractice, row.parting,
                     fitting_parting_cm(middle, kDensity), 0.5);
  }
  EXPECT_PUBLISHED("parting for very short hair [cm]", kPractice, 1.5,
                   fitting_parting_cm(4, kDensity), 0.01);
}

TEST(ProcessStyle, short_hair_needs_smaller_partings_for_the_same_definition) {
  double last = 0;
  for (const double length : {5.0, 8.0, 12.0, 18.0, 24.0, 30.0}) {
    const double fits = fitting_parting_cm(length, kDensity);
    EXPECT_GT(fits, last) << length;
    EXPECT_EQ(definition_of(fits, length, kDensity), Definition::usual);
    last = fits;
  }
  // One parting from long to short hair only loses definition.
  EXPECT_EQ(definition_of(2.5, 30, kDensity), Definition::crisp);
  EXPECT_EQ(definition_of(2.5, 15, kDensity), Definition::usual);
  EXPECT_EQ(definition_of(2.5, 5.5, kDensity), Definition::soft);
  EXPECT_EQ(definition_of(2.5, 3, kDensity), Definition::soft);
  EXPECT_EQ(definition_of(4, 5, kDensity), Definition::undefined);
  const std::string check = "parting for 8 over that for 25 cm stretched [1]";
  EXPECT_PUBLISHED_RANGE(check, kPractice, 0.3, 0.99,
                         fitting_parting_cm(8, kDensity) / fitting_parting_cm(25, kDensity));
}

TEST(ProcessStyle, dense_hair_needs_smaller_partings_so_that_twists_stay_as_thick) {
  EXPECT_LT(fitting_parting_cm(15, 247), fitting_parting_cm(15, 190));
  EXPECT_GT(fitting_parting_cm(15, 143), fitting_parting_cm(15, 190));
  const auto strands = [](double density) {
    const double side = fitting_parting_cm(15, density);
    return side * side * density;
  };
  EXPECT_NEAR(strands(247), strands(143), 1e-9);
  EXPECT_EQ(fitting_parting_cm(15, 1000), fitting_parting_cm(15, 400));
  EXPECT_EQ(fitting_parting_cm(1, 190), fitting_parting_cm(3, 190));
}

TEST(ProcessStyle, small_means_two_sizes_in_the_trade_and_centimetres_are_shown) {
  // 6 to 8 sections in a quarter of the head are called small twists as well.
  const test::Source guide{"common practice, no source", "a twisting guide"};
  EXPECT_PUBLISHED("parting of 28 twists on 600 cm2 [cm]", guide, 4.5, parting_of(600, 28), 0.5);
  TwistTask task;
  task.stretched_cm = 8;
  const TwistPlan made = plan(task, 4.6);
  EXPECT_EQ(made.definition, Definition::undefined);
  EXPECT_NE(made.advice.find("4.6 cm"), std::string::npos) << made.advice;
  EXPECT_EQ(made.advice.find("small"), std::string::npos) << made.advice;
}

TEST(ProcessStyle, the_plan_parts_to_half_a_centimetre_and_shares_work_between_hands) {
  TwistTask task;
  task.scalp_cm2 = 600;
  const TwistPlan alone = plan(task);
  EXPECT_EQ(alone.parting_cm, 2.5);
  EXPECT_EQ(alone.twists, 96);
  EXPECT_EQ(alone.minutes.mid, 72);
  EXPECT_EQ(alone.definition, Definition::usual);
  task.hands = 2;
  EXPECT_EQ(plan(task).minutes.mid, 36);
  task.stretched_cm = 3;
  task.hairs_per_cm2 = 400;
  EXPECT_GE(plan(task).parting_cm, 1);
  EXPECT_TRUE(plan(task).short_for_flat_twists);
  task.stretched_cm = 10;
  EXPECT_FALSE(plan(task).short_for_flat_twists);
  EXPECT_EQ(twists_on(1, 10), 1);
}

TEST(ProcessStyle, advice_names_the_parting_that_fits) {
  TwistTask task;
  for (const double parting : {1.0, 2.5, 3.5, 6.0}) {
    const TwistPlan made = plan(task, parting);
    EXPECT_TRUE(made.advice.ends_with(".")) << made.advice;
    if (made.definition != Definition::usual) {
      EXPECT_NE(made.advice.find("2.5 cm"), std::string::npos) << made.advice;
    }
  }
  EXPECT_EQ(name_of(Definition::crisp), "crisp");
  EXPECT_EQ(name_of(Definition::usual), "as usual");
  EXPECT_EQ(name_of(Definition::soft), "soft");
  EXPECT_EQ(name_of(Definition::undefined), "undefined");
}

TEST(ProcessStyle, product_follows_the_hair_and_the_head) {
  TwistTask task;
  task.hair_g = 80;
  const TwistPlan made = plan(task);
  EXPECT_PUBLISHED("leave-in for 80 g, low [g]", kPractice, 8, made.leave_in_g.low, 0.01);
  EXPECT_PUBLISHED("leave-in for 80 g, high [g]", kPractice, 16, made.leave_in_g.high, 0.01);
  EXPECT_PUBLISHED("foam for a head, low [g]", kPractice, 30, made.foam_g.low, 0.01);
  EXPECT_PUBLISHED("foam for a head, high [g]", kPractice, 60, made.foam_g.high, 0.01);
  EXPECT_PUBLISHED("days a twist-out keeps, low", kPractice, 3, twist_out_keeps_days().low, 0.5);
  EXPECT_PUBLISHED("days a twist-out keeps, high", kPractice, 7, twist_out_keeps_days().high, 0.5);
  EXPECT_GE(twists_keep_days().low, twist_out_keeps_days().high);
}

TEST(ProcessStyle, steps_end_dry_and_cool) {
  const auto& steps = twist_out_steps();
  ASSERT_GE(steps.size(), 6U);
  EXPECT_NE(steps.front().find("Leave-in"), std::string::npos);
  EXPECT_NE(steps.back().find("dry and cool"), std::string::npos);
}

TEST(ProcessStyle, out_of_range_names_the_key) {
  const auto fault = [](auto change, double parting = 0) {
    TwistTask task;
    change(task);
    const auto result = twist_plan(task, parting);
    return result ? std::string("none") : result.error().where;
  };
  EXPECT_EQ(fault([](TwistTask&) {}), "none");
  EXPECT_EQ(fault([](TwistTask& t) { t.scalp_cm2 = 0; }), "twists.scalp_cm2");
  EXPECT_EQ(fault([](TwistTask& t) { t.stretched_cm = 2.9; }), "twists.stretched_cm");
  EXPECT_EQ(fault([](TwistTask& t) { t.hairs_per_cm2 = 401; }), "twists.hairs_per_cm2");
  EXPECT_EQ(fault([](TwistTask& t) { t.hair_g = std::nan(""); }), "twists.hair_g");
  EXPECT_EQ(fault([](TwistTask& t) { t.hands = 0; }), "twists.hands");
  EXPECT_EQ(fault([](TwistTask& t) { t.minutes_each.low = 0; }), "twists.minutes_each");
  EXPECT_EQ(fault([](TwistTask&) {}, 0.4), "twists.parting_cm");
  EXPECT_EQ(fault([](TwistTask&) {}, 10.1), "twists.parting_cm");
}

}  // namespace
}  // namespace hw::process
