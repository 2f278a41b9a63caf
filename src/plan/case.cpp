#include "huewright/plan/case.h"

#include <algorithm>

#include "huewright/plan/pours.h"

namespace hw::plan {

const process::Product* product_of(const Case& head, const std::string& id) {
  const auto at =
      std::find_if(head.shelf.begin(), head.shelf.end(), [&](const auto& p) { return p.id == id; });
  return at == head.shelf.end() ? nullptr : &*at;
}

double wished_level_of(const Case& head, const ZoneCase& zone) {
  constexpr double kAboveTarget = 0.5;  // level: room for what the colour darkens; guess
  constexpr double kUnsaid = 5;         // neither wish nor target
  if (zone.wished_level) return *zone.wished_level;
  if (head.wished_level) return *head.wished_level;
  const auto target = target_of(head, zone);
  if (!target) return kUnsaid;
  return std::clamp(head.ladder.level_of(target->centre.l) + kAboveTarget, 1.0, 10.0);
}

std::optional<Target> target_of(const Case& head, const ZoneCase& zone) {
  std::optional<Target> wish = zone.target ? zone.target : head.target;
  if (wish && zone.lighter_levels != 0) wish = lighter(*wish, zone.lighter_levels, head.ladder);
  return wish;
}

double pick_up_of(const Case& head, bool lightener) {
  return head.mix_per_hair.value_or(cover_facts(lightener).pick_up.mid);
}

}  // namespace hw::plan
