// From a course of the planner to its fade.
#include <algorithm>
#include <cmath>

#include "huewright/plan/course_chart.h"
#include "huewright/plan/fade_chart.h"
#include "huewright/plan/lift_recipe.h"

namespace hw::plan {
namespace {

constexpr int kDaysPerWeek = 7;

/// The zone of a section that lies nearest the scalp.
std::size_t scalp_zone(const Case& head, const std::string& section) {
  std::size_t nearest = head.zones.size();
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    if (head.zones[i].section != section) continue;
    if (nearest == head.zones.size() || head.zones[i].from_cm < head.zones[nearest].from_cm) {
      nearest = i;
    }
  }
  return nearest;
}

/// A member of a zone as it would have grown: its natural pigment, nothing done to it.
process::LiftMembers grown_hair(const ZoneBelief& belief, std::size_t member) {
  const process::LiftMembers as_is = one_member(belief.members, member);
  process::LiftMembers grown = as_is;
  const double melanin = belief.origin.natural_percent[member];
  grown.pheomelanin_percent[0] = melanin * belief.origin.pheo_share[member];
  grown.eumelanin_percent[0] = melanin - grown.pheomelanin_percent[0];
  grown.warm_percent[0] = 0;
  grown.base_share[0] = 0;
  grown.opened[0] = 1;
  grown.wear[0] = 0;
  grown.dye_opened.clear();
  grown.dyes.clear();
  grown.warmth_c[0] = 0;
  return grown;
}

double shown_weeks(const Habits& habits) {
  constexpr double kWashes = 30;
  constexpr double kFewestWeeks = 4;
  constexpr double kMostWeeks = 52;
  return std::clamp(kWashes / habits.washes_per_week, kFewestWeeks, kMostWeeks);
}

}  // namespace

FadeCourse fade_course(const Case& head, std::span<const ZoneBelief> beliefs, const Course& course,
                       const std::string& section) {
  constexpr double kCmPerUm = 1e-4;
  ChartCourse day = chart_course(head, beliefs, course, course.visits, section);
  FadeCourse fade;
  fade.zones = std::move(day.zones);
  for (ChartZone& zone : fade.zones) {
    for (ChartEvent& event : zone.events) {
      event.on_min -= day.end_min;
      event.from_min -= day.end_min;
      event.stop_min -= day.end_min;
      event.hard_stop_min.reset();
    }
  }
  const std::size_t scalp = scalp_zone(head, section);
  fade.regrowth = grown_hair(beliefs[scalp], course.zones[scalp].nearest_member);
  fade.weeks = shown_weeks(head.habits);
  fade.washes_per_week = head.habits.washes_per_week;
  fade.light_h_per_week = head.habits.light_h_per_week;
  fade.wash = head.habits.wash;
  fade.growth_cm_per_week = head.habits.growth_um_per_day * kCmPerUm * kDaysPerWeek;
  fade.next_visit_week = head.habits.weeks_to_next;
  if (head.visit_at) {
    const double before = (course.visits - 1) * head.habits.weeks_to_next * kDaysPerWeek;
    fade.finished_on = process::days_later(process::local_date(*head.visit_at),
                                           static_cast<int>(std::lround(before)));
  }
  fade.room_c = head.room_c;
  return fade;
}

FadeCourse fade_course(const Case& head, std::span<const ZoneBelief> beliefs,
                       const Course& course) {
  return fade_course(head, beliefs, course, head.zones.front().section);
}

}  // namespace hw::plan
