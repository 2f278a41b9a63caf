#include "huewright/book/strip.h"

#include <algorithm>

#include "describe_parts.h"
#include "huewright/wire/case_file.h"

namespace hw::book {

Strip strip_of(const PlanFact& plan) {
  Strip strip;
  const auto file = wire::decode<wire::CaseFile>(plan.case_json);
  if (!file || file->head.zones.empty()) return strip;
  strip.ladder_lstar = file->ladder_lstar;
  double length = 0;
  for (const plan::ZoneCase& zone : file->head.zones) length = std::max(length, zone.to_cm);
  if (length <= 0) return strip;
  const std::string& section = file->head.zones.front().section;
  for (const plan::ZoneCase& zone : file->head.zones) {
    if (zone.section != section) continue;
    StripZone& part = strip.zones.emplace_back();
    part.zone = zone.name;
    part.from = zone.from_cm / length;
    part.to = zone.to_cm / length;
    const auto planned = std::ranges::find(plan.zones, zone.name, &PlannedZone::zone);
    if (planned != plan.zones.end()) part.lab = planned->lab;
  }
  return strip;
}

void describe(wire::Object& object, StripZone& zone) {
  must_text(object, "zone", "where", zone.zone);
  wire::number(object.required("from", "share of the strand"), zone.from, {.low = 0, .high = 1});
  wire::number(object.required("to", "share of the strand"), zone.to, {.low = 0, .high = 1});
  may_lab(object, zone.lab);
}

void describe(wire::Object& object, Strip& strip) {
  wire::numbers(object.optional("ladder_lstar", "the salon's own L* of levels 1 to 10"),
                strip.ladder_lstar, {0, hair::kRungs}, {.low = 0, .high = 100});
  constexpr std::size_t kMostZones = 1000;  // of a case; plan/case.h allows fewer
  wire::objects(object.required("zones", "scalp to ends"), strip.zones, {0, kMostZones});
}

}  // namespace hw::book
