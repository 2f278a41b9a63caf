#include <algorithm>

#include "huewright/colour/difference.h"
#include "huewright/plan/colour_plan.h"
#include "support/demo_case.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

process::Product colour(const char* id, process::DyeClass dye_class, double level,
                        const char* tone) {
  process::Product product;
  product.id = id;
  product.kind = process::PartKind::colour;
  product.dye_class = dye_class;
  product.level = level;
  product.tone = tone;
  product.price_per_g = 0.1;
  return product;
}

Case with_colours() {
  using enum process::DyeClass;
  Case head = test::plain_head();
  head.person.skin_test = process::SkinTest::clear;
  head.wished_level = 6;
  head.shelf.push_back(colour("red", demi, 6, "red"));
  head.shelf.push_back(colour("brown", demi, 5, "neutral"));
  head.shelf.push_back(colour("copper", demi, 7, "copper"));
  head.shelf.push_back(colour("clear", demi, 5, "clear"));
  head.shelf.push_back(colour("mask", direct, 6, "red"));
  return head;
}

struct Planned {
  LiftPlan lifts;
  std::vector<ColourCourse> courses;
};

Planned planned(const Case& head, const Target& target) {
  InlineExecutor executor;
  Planned result;
  result.lifts = *plan_lift(head, executor);
  auto courses = plan_colour(head, result.lifts, target, executor);
  EXPECT_TRUE(courses.has_value()) << one_line(courses.error());
  result.courses = *std::move(courses);
  return result;
}

Target red_brown() {
  return *target_colour({30, 16, 13});
}

TEST(PlanColour, comes_nearer_to_the_target_than_the_lift_alone) {
  const Planned result = planned(with_colours(), red_brown());
  ASSERT_FALSE(result.courses.empty());
  const ColourCourse& best = result.courses.front();
  ASSERT_TRUE(best.lift);
  const double lifted = colour::delta_e_2000(red_brown().centre, best.lift->zones[1].lab);
  EXPECT_LT(best.colour.zones[1].expected_de00, lifted);
  EXPECT_GT(best.colour.zones[1].lab.a, best.lift->zones[1].lab.a);
}

TEST(PlanColour, no_course_is_worse_than_another_in_everything) {
  const Planned result = planned(with_colours(), red_brown());
  const auto minutes = [](const ColourCourse& c) {
    return c.colour.minutes + (c.lift ? c.lift->minutes : 0);
  };
  for (const auto& a : result.courses) {
    for (const auto& b : result.courses) {
      const bool worse = a.colour.expected_de00 > b.colour.expected_de00 &&
                         a.wear_high() > b.wear_high() && minutes(a) > minutes(b);
      EXPECT_FALSE(worse) << words_of(a) << " / " << words_of(b);
    }
  }
}

TEST(PlanColour, pours_keep_the_makers_ratio_and_the_shelf) {
  const Case head = with_colours();
  for (const auto& course : planned(head, red_brown()).courses) {
    double grams = 0;
    for (const auto& item : course.colour.items) {
      const auto product = std::find_if(head.shelf.begin(), head.shelf.end(),
                                        [&](const auto& p) { return p.id == item.product; });
      ASSERT_NE(product, head.shelf.end()) << item.product;
      if (product->kind == process::PartKind::colour) grams += item.grams;
    }
    const auto& facts = process::class_facts(course.colour.dye_class);
    if (facts.developer_parts > 0) {
      EXPECT_NEAR(course.colour.items.back().grams / grams, facts.developer_parts, 0.05);
    }
  }
}

TEST(PlanColour, oxidative_colour_waits_for_its_skin_test_and_a_mask_does_not) {
  Case head = with_colours();
  head.person.skin_test = process::SkinTest::not_done;
  bool demi = false;
  for (const auto& course : planned(head, red_brown()).courses) {
    const bool waits = std::any_of(course.colour.refusals.begin(), course.colour.refusals.end(),
                                   [](const auto& r) { return r.id == "skin_test_missing"; });
    const bool oxidative = course.colour.dye_class == process::DyeClass::demi;
    EXPECT_EQ(waits, oxidative);
    demi = demi || oxidative;
  }
  EXPECT_TRUE(demi);
}

TEST(PlanColour, washing_takes_the_colour_back_towards_the_canvas) {
  const Planned result = planned(with_colours(), red_brown());
  const ColourStep& step = result.courses.front().colour;
  for (const ColouredZone& zone : step.zones) {
    double before = 0;
    for (const FadedZone& faded : step.fade) {
      if (faded.zone != zone.zone) continue;
      EXPECT_GE(faded.de76, before - 0.5);
      EXPECT_GT(faded.lab.l, zone.lab.l - 0.1);
      before = faded.de76;
    }
    EXPECT_GT(before, 1);
  }
}

TEST(PlanColour, the_band_has_its_darker_and_lighter_end) {
  const Planned planned_courses = planned(with_colours(), red_brown());
  for (const ColouredZone& zone : planned_courses.courses.front().colour.zones) {
    EXPECT_LT(zone.lab_low.l, zone.lab.l);
    EXPECT_LT(zone.lab.l, zone.lab_high.l);
    EXPECT_GE(zone.within_3, 0);
    EXPECT_LE(zone.within_3, 1);
  }
}

TEST(PlanColour, a_shelf_without_colour_is_an_error) {
  InlineExecutor executor;
  const Case head = test::plain_head();
  const auto lifts = plan_lift(head, executor);
  const auto courses = plan_colour(head, *lifts, red_brown(), executor);
  ASSERT_FALSE(courses);
  EXPECT_EQ(courses.error().where, "shelf");
}

}  // namespace
}  // namespace hw::plan
