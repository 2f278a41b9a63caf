#pragma once
// A head with a target and a demi shelf, planned once, for tests of what is drawn of its courses.
#include <gtest/gtest.h>

#include "demo_case.h"
#include "huewright/plan/plan.h"

namespace hw::test {

inline process::Product colour_product(const char* id, double level, const char* tone) {
  process::Product product;
  product.id = id;
  product.kind = process::PartKind::colour;
  product.dye_class = process::DyeClass::demi;
  product.level = level;
  product.tone = tone;
  product.price_per_g = 0.1;
  return product;
}

inline plan::Case coloured_head() {
  plan::Case head = plain_head();
  head.person.skin_test = process::SkinTest::clear;
  head.wished_level.reset();
  head.target = *plan::target_colour({30, 16, 13});
  head.shelf.push_back(colour_product("red", 6, "red"));
  head.shelf.push_back(colour_product("brown", 5, "neutral"));
  head.shelf.push_back(colour_product("clear", 5, "clear"));
  head.members = 64;
  return head;
}

struct PlannedColour {
  plan::Case head;
  plan::HeadPlan plan;
};

inline const PlannedColour& planned_colour() {
  static const PlannedColour result = [] {
    PlannedColour made{coloured_head(), {}};
    InlineExecutor executor;
    made.plan = *plan::plan_head(made.head, executor);
    return made;
  }();
  return result;
}

inline const plan::Course& lift_then_colour() {
  for (const plan::Course& course : planned_colour().plan.courses) {
    const bool lifts = !course.bowls.empty() && !course.bowls.front().deposit;
    if (lifts && course.bowls.back().deposit && course.visits == 1) return course;
  }
  ADD_FAILURE() << "no course lifts and colours";
  return planned_colour().plan.courses.front();
}

}  // namespace hw::test
