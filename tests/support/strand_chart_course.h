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

/// Lightener on a zone from one minute to another, 1 part and 2 parts 6 % developer.
inline plan::ChartEvent chart_lift(double on_min, double stop_min) {
  process::Application bowl;
  bowl.peroxide_percent = process::kStandardPeroxidePercent;
  bowl.powder_percent = process::kStandardPowderPercent;
  bowl.minutes = 50;
  plan::ChartEvent event;
  event.on_min = event.from_min = on_min;
  event.stop_min = stop_min;
  event.what = plan::ChartLift{{bowl}};
  return event;
}

/// Lengths first, then roots, then ends.
inline plan::ChartCourse three_zone_course() {
  plan::ChartCourse course;
  course.zones = {{"roots", 0, 2.5, chart_member(false), {chart_lift(22, 55)}, 0.6},
                  {"lengths", 2.5, 15, chart_member(false), {chart_lift(8, 53)}, 0.6},
                  {"ends", 15, 22, chart_member(true), {chart_lift(38, 52)}, 0.6}};
  for (plan::ChartZone& zone : course.zones) zone.events[0].hard_stop_min = 55;
  course.steps = {"lift"};
  course.check_min = {13, 18, 23, 28, 33, 38, 43, 48, 53};
  course.end_min = 70;
  course.now_min = 29;
  course.phases = {{0, "section and apply"}, {8, "lightener on"}, {55, "rinse"}};
  return course;
}

/// The same day gone on: washed, then a red demi on all of it, minutes 120 to 155.
inline plan::ChartCourse whole_day_course() {
  plan::ChartCourse course = three_zone_course();
  plan::ChartColour colour;
  colour.bowl.dye_class = process::DyeClass::demi;
  colour.bowl.developer_percent = 2;
  colour.bowl.minutes = 35;
  colour.bowl.developer_parts = colour.bowl.label_parts = 2;
  colour.pours = {
      {process::settled(*process::shade_from_words("red", process::DyeClass::demi, 5, "red"),
                        Draws(1), 0),
       0.25}};
  for (int state = 0; state < 3; ++state) {
    colour.fade[static_cast<std::size_t>(state)] = process::fade_constants(
        process::DyeClass::demi, process::DyeFamily::red, static_cast<process::HairState>(state));
  }
  for (plan::ChartZone& zone : course.zones) {
    plan::ChartEvent event;
    event.step = 1;
    event.on_min = 116;
    event.from_min = 120;
    event.stop_min = 155;
    event.what = colour;
    zone.events.push_back(event);
  }
  course.steps = {"lift", "colour"};
  course.phases = {{0, "lift bowl"},
                   {55, "rinse, wash and care"},
                   {116, "colour bowl"},
                   {155, "rinse, twist, finish"}};
  course.end_min = 335;
  return course;
}

}  // namespace hw::test
