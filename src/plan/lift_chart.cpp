#include "huewright/plan/lift_chart.h"

#include <algorithm>

namespace hw::plan {
namespace {

constexpr double kCheckEveryMin = 5;  // job practice for lightener: development checks
constexpr double kRinseShownMin = 5;  // so that the finish can be seen

ChartZone chart_zone(const Case& head, const LiftPlan& plan, const LiftOption& option,
                     std::size_t i) {
  const ZoneOutcome& outcome = option.zones[i];
  ChartZone zone;
  zone.name = head.zones[i].name;
  zone.from_cm = head.zones[i].from_cm;
  zone.to_cm = head.zones[i].to_cm;
  zone.member = one_member(plan.zones[i].members, outcome.nearest_member);
  zone.member.warmth_c[0] = 0;  // the chart adds the scalp's warmth at each distance
  if (!outcome.already_there) {
    ChartEvent lift;
    lift.on_min = lift.from_min = outcome.start_min;
    lift.stop_min = option.minutes;
    const double hard_stop = outcome.start_min + option.recipe.longest_min;
    if (hard_stop < option.minutes + kRinseShownMin) lift.hard_stop_min = hard_stop;
    lift.what = ChartLift{applications_of(option, head, head.zones[i], outcome.stop_min.mid)};
    zone.events.push_back(std::move(lift));
  }
  zone.resting_factor = 1 - head.shrinkage;
  return zone;
}

}  // namespace

ChartCourse chart_course(const Case& head, const LiftPlan& plan, const LiftOption& option) {
  ChartCourse course;
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    if (head.zones[i].section != head.zones.front().section) continue;
    course.zones.push_back(chart_zone(head, plan, option, i));
  }
  std::sort(course.zones.begin(), course.zones.end(),
            [](const ChartZone& a, const ChartZone& b) { return a.from_cm < b.from_cm; });
  // A strand has no gaps: what no zone names belongs to the zone before it.
  for (std::size_t i = 0; i + 1 < course.zones.size(); ++i) {
    course.zones[i].to_cm = course.zones[i + 1].from_cm;
  }
  course.end_min = option.minutes + kRinseShownMin;
  for (int i = 1; i * kCheckEveryMin < option.minutes; ++i) {
    course.check_min.push_back(i * kCheckEveryMin);
  }
  course.steps = {"lift"};
  course.phases = {{0, "lift bowl"}, {option.minutes, "rinse"}};
  course.room_c = head.room_c;
  return course;
}

}  // namespace hw::plan
