#pragma once
// A plain head and shelf that the tests of plan and wire vary.
#include "huewright/plan/case.h"

namespace hw::test {

inline process::Product lightener(const char* id, bool for_scalp) {
  process::Product product;
  product.id = id;
  product.kind = process::PartKind::lightener;
  product.for_scalp = for_scalp;
  product.label_max = Minutes(45);
  return product;
}

inline process::Product developer(const char* id, double percent) {
  process::Product product;
  product.id = id;
  product.kind = process::PartKind::developer;
  product.peroxide = Percent(percent);
  return product;
}

inline process::Product shampoo() {
  process::Product product;
  product.id = "wash";
  product.kind = process::PartKind::shampoo;
  return product;
}

inline plan::ZoneCase zone(const char* name, double from_cm, double to_cm, double level) {
  plan::ZoneCase made;
  made.name = name;
  made.from_cm = from_cm;
  made.to_cm = to_cm;
  made.readings = {{plan::Reader::eye, hair::Moisture::dry, level, {}}};
  made.facts.stretch = {process::WetStretch::springs_back, 5, 3};
  return made;
}

/// Two zones of untouched level 2 hair, a shelf with every shape of bowl, a wish of level 5.
inline plan::Case plain_head() {
  plan::Case head;
  head.person.age_years = 30;
  head.person.consent = process::Consent::given;
  head.zones = {zone("roots", 0, 2.5, 2), zone("lengths", 2.5, 15, 2)};
  head.wished_level = 5;
  head.shelf = {lightener("cream", true), developer("d3", 3), developer("d6", 6),
                developer("d9", 9), shampoo()};
  head.members = 128;
  return head;
}

}  // namespace hw::test
