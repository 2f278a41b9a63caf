#pragma once
// Small courses by hand for the plain head: a soap cap, then a red and clear with developer.
#include "huewright/plan/course.h"
#include "support/demo_case.h"

namespace hw::test {

inline process::Product colour(const char* id, process::DyeClass dye_class, const char* tone) {
  process::Product product;
  product.id = id;
  product.kind = process::PartKind::colour;
  product.dye_class = dye_class;
  product.tone = tone;
  product.price_per_g = 0.12;
  return product;
}

/// The plain head with a demi red and clear on its shelf, prices and no stock limits.
inline plan::Case head_to_lay_out() {
  plan::Case head = plain_head();
  head.shelf.push_back(colour("red", process::DyeClass::demi, "red"));
  head.shelf.push_back(colour("clear", process::DyeClass::demi, "clear"));
  for (process::Product& product : head.shelf) {
    if (product.price_per_g == 0) product.price_per_g = 0.04;
  }
  head.salon.hands = 2;
  head.salon.prices.labour_per_hour = 40;
  head.salon.prices.overhead = 8;
  return head;
}

inline plan::CourseBowl lift_bowl(double roots_min, double lengths_min) {
  using process::PartKind;
  plan::CourseBowl bowl;
  bowl.purpose = plan::Purpose::lift;
  bowl.parts = {{"cream", PartKind::lightener, 1},
                {"d6", PartKind::developer, 2},
                {"wash", PartKind::shampoo, 1}};
  bowl.label_min = 45;
  bowl.on_scalp = true;
  bowl.zones.resize(2);
  bowl.zones[0].zone = 0;
  bowl.zones[0].stop_min = {roots_min - 4, roots_min, roots_min + 6};
  bowl.zones[1].zone = 1;
  bowl.zones[1].stop_min = {lengths_min - 7, lengths_min, lengths_min + 9};
  return bowl;
}

inline plan::CourseBowl colour_bowl(double minutes = 20) {
  using process::PartKind;
  plan::CourseBowl bowl;
  bowl.purpose = plan::Purpose::deposit;
  bowl.parts = {{"red", PartKind::colour, 2},
                {"clear", PartKind::colour, 1},
                {"d3", PartKind::developer, 4.5}};
  bowl.on_scalp = true;
  bowl.zones.resize(2);
  for (std::size_t z = 0; z < 2; ++z) {
    bowl.zones[z].zone = z;
    bowl.zones[z].stop_min = {minutes - 5, minutes, minutes + 10};
  }
  return bowl;
}

inline plan::Course lift_and_colour() {
  plan::Course course;
  course.bowls = {lift_bowl(14, 26), colour_bowl()};
  return course;
}

}  // namespace hw::test
