#pragma once
// The finished day of the chart tests, its clock moved before the finish, and how it is lived with.
#include "huewright/plan/fade_chart.h"
#include "strand_chart_course.h"

namespace hw::test {

inline plan::FadeCourse finished_course() {
  const plan::ChartCourse day = whole_day_course();
  plan::FadeCourse fade;
  fade.zones = day.zones;
  for (plan::ChartZone& zone : fade.zones) {
    for (plan::ChartEvent& event : zone.events) {
      event.on_min -= day.end_min;
      event.from_min -= day.end_min;
      event.stop_min -= day.end_min;
      event.hard_stop_min.reset();
    }
  }
  fade.regrowth = chart_member(false);
  fade.weeks = 20;
  fade.washes_per_week = 1.5;
  fade.growth_cm_per_week = 0.18;
  fade.next_visit_week = 6;
  return fade;
}

}  // namespace hw::test
