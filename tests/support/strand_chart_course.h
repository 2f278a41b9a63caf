#pragma once
// An invented strand for the tests of the chart: dark roots and lengths, ends lightened before.
#include "huewright/plan/strand_chart.h"

namespace hw::test {

/// Melanins are those of a level 3 and of hair lifted to about level 7.
inline process::LiftMembers chart_member(bool lightened) {
  process::LiftMembers member;
  member.resize(1);
  member.eumelanin_percent[0] = lightened ? 0.12 : 1.09;
  member.pheomelanin_percent[0] = 0.055;
  if (lightened) {
    member.warm_percent[0] = 0.12;
    member.base_share[0] = 0.75;
    member.opened[0] = 2.5;
    member.wear[0] = 0.12;
  }
  return member;
}

/// Lengths first, then roots, then ends; 1 part lightener and 2 parts 6 % developer on each.
inline plan::ChartCourse three_zone_course() {
  process::Application bowl;
  bowl.peroxide_percent = process::kStandardPeroxidePercent;
  bowl.powder_percent = process::kStandardPowderPercent;
  bowl.minutes = 50;
  plan::ChartCourse course;
  course.zones = {{"roots", 0, 2.5, chart_member(false), {bowl}, 22, 55, 0.6},
                  {"lengths", 2.5, 15, chart_member(false), {bowl}, 8, 53, 0.6},
                  {"ends", 15, 22, chart_member(true), {bowl}, 38, 52, 0.6}};
  course.check_min = {13, 18, 23, 28, 33, 38, 43, 48, 53};
  course.hard_stop_min = 55;
  course.end_min = 70;
  course.now_min = 29;
  course.phases = {{0, "section and apply"}, {8, "lightener on"}, {55, "rinse"}};
  return course;
}

}  // namespace hw::test
