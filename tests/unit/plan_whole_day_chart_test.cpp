// The strand chart through lift, colour and earlier visits.
#include <gmock/gmock.h>

#include <algorithm>

#include "huewright/colour/difference.h"
#include "huewright/plan/strand_chart.h"
#include "support/strand_chart_course.h"

namespace hw::plan {
namespace {

using test::whole_day_course;
using testing::HasSubstr;

StrandChart chart_of(const ChartCourse& course, std::size_t columns = 161, std::size_t rows = 60) {
  InlineExecutor executor;
  return strand_chart(course, columns, rows, hair::default_ladder(), executor);
}

/// What process::deposit() leaves on a zone's member after its lift, at one distance.
colour::HairLab after_both(const ChartZone& zone, double room_c, double cm) {
  InlineExecutor executor;
  process::LiftMembers hair = zone.member;
  hair.warmth_c[0] += process::scalp_warmth_c(cm * zone.resting_factor, room_c);
  const ChartEvent& lift = zone.events[0];
  process::Application bowl = std::get<ChartLift>(lift.what).applications[0];
  bowl.minutes = std::min(bowl.minutes, lift.stop_min - lift.from_min);
  hair = process::canvas_after(hair, process::simulate_lift(hair, {&bowl, 1}, 60, executor).back());
  const auto& colour = std::get<ChartColour>(zone.events[1].what);
  process::DepositBowl deposit = colour.bowl;
  deposit.minutes = zone.events[1].stop_min - zone.events[1].from_min;
  hair = process::after_own_lift(hair, deposit, executor);
  const auto taken =
      process::uptake(process::canvas_after(hair, process::starting_moment(hair)), deposit);
  for (auto& layer : process::dye_layers(colour.pours, taken, Draws(0))) hair.dyes.push_back(layer);
  std::vector<colour::HairLab> lab(1);
  process::lift_colours(hair, process::starting_moment(hair), lab);
  return lab[0];
}

TEST(WholeDayChart, colour_goes_on_what_the_lift_left) {
  const ChartCourse course = whole_day_course();
  const StrandChart chart = chart_of(course);
  for (const auto& [z, cm] : {std::pair(0, 1.0), std::pair(1, 9.0), std::pair(2, 20.0)}) {
    const colour::HairLab lifted = colour_at(chart, 100, cm);
    EXPECT_LT(colour::delta_e_2000(lifted, colour_at(chart, 60, cm)), 1e-9);  // waits
    const colour::HairLab finished = colour_at(chart, 300, cm);
    EXPECT_GT(finished.a / finished.b, lifted.a / lifted.b + 0.2) << z;  // redder
    EXPECT_LT(finished.l, lifted.l - 3) << z;
    EXPECT_GT(colour::delta_e_2000(lifted, colour_at(chart, 137, cm)), 1) << z;  // on its way
    // The uptake of process::deposit() is that of the canvas before the colour's own lift, which
    // two per cent of peroxide hardly moves.
    const auto alone = after_both(course.zones[static_cast<std::size_t>(z)], course.room_c, cm);
    EXPECT_LT(colour::delta_e_2000(finished, alone), 0.3) << z;
  }
}

TEST(WholeDayChart, a_colour_left_on_beyond_its_minutes_rests) {
  ChartCourse course = whole_day_course();
  std::get<ChartColour>(course.zones[1].events[1].what).bowl.minutes = 20;
  const StrandChart chart = chart_of(course);
  EXPECT_LT(colour::delta_e_2000(colour_at(chart, 141, 9), colour_at(chart, 300, 9)), 1e-9);
  EXPECT_GT(colour::delta_e_2000(colour_at(chart, 135, 9), colour_at(chart, 300, 9)), 0.05);
}

TEST(WholeDayChart, a_remover_takes_the_dye_and_leaves_the_pigment) {
  ChartCourse course = whole_day_course();
  ChartEvent remover;
  remover.step = 2;
  remover.on_min = remover.from_min = 200;
  remover.stop_min = 220;
  ChartRemover takes;
  for (int minute = 1; minute <= 20; ++minute) takes.left.push_back(1 - minute / 20.0);
  takes.wear = 0.01;
  remover.what = takes;
  course.zones[1].events.push_back(remover);
  course.steps.emplace_back("remover");
  const StrandChart chart = chart_of(course);
  const colour::HairLab lifted = colour_at(chart, 100, 9);
  // All dye gone, what is left is the lift, lighter by the colour's own peroxide.
  EXPECT_LT(colour::delta_e_2000(lifted, colour_at(chart, 300, 9)), 1);
  EXPECT_GT(colour::delta_e_2000(lifted, colour_at(chart, 205, 9)), 5);
  EXPECT_THAT(text_table(chart, hair::default_ladder()), HasSubstr("(remover works)"));
}

TEST(WholeDayChart, time_is_full_length_for_both_bowls_and_folded_between_and_after) {
  const StrandChart chart = chart_of(whole_day_course());
  // 8 before, 47 of lift, 61 folded to 15.25, 39 of colour, 180 folded to 45.
  constexpr double kShown = 8 + 47 + 15.25 + 39 + 45;
  EXPECT_NEAR(across(chart, 55), 55 / kShown, 1e-12);
  EXPECT_NEAR(across(chart, 116), 70.25 / kShown, 1e-12);
  EXPECT_NEAR(across(chart, 155), 109.25 / kShown, 1e-12);
}

TEST(WholeDayChart, what_was_done_before_minute_0_is_there_and_not_shown) {
  ChartCourse course = whole_day_course();
  const StrandChart day = chart_of(course);
  ChartCourse next = course;
  for (ChartZone& zone : next.zones) {
    for (ChartEvent& event : zone.events) {
      event.on_min -= 1000;
      event.from_min -= 1000;
      event.stop_min -= 1000;
      event.hard_stop_min.reset();
    }
  }
  const StrandChart after = chart_of(next);
  for (const double cm : {1.0, 9.0, 20.0}) {
    EXPECT_LT(colour::delta_e_2000(colour_at(day, 330, cm), colour_at(after, 0, cm)), 1e-3);
    EXPECT_LT(colour::delta_e_2000(colour_at(after, 0, cm), colour_at(after, 300, cm)), 1e-9);
  }
  // Ten washes later the red has gone on its way back to the lifted canvas.
  for (ChartZone& zone : next.zones) {
    ChartEvent wash;
    wash.on_min = wash.from_min = wash.stop_min = -1;
    wash.what = ChartWashes{10, 0, {}};
    zone.events.push_back(wash);
  }
  const StrandChart faded = chart_of(next);
  const colour::HairLab lifted = colour_at(day, 100, 9);
  EXPECT_LT(colour::delta_e_2000(colour_at(faded, 0, 9), lifted),
            colour::delta_e_2000(colour_at(after, 0, 9), lifted) - 2);
  EXPECT_THAT(text_table(faded, hair::default_ladder()), HasSubstr("left alone"));
}

TEST(WholeDayChart, half_the_washes_twice_fade_as_all_of_them_at_once) {
  const auto finish = [](std::vector<double> washes) {
    ChartCourse course = whole_day_course();
    double at = 200;
    for (const double count : washes) {
      for (ChartZone& zone : course.zones) {
        ChartEvent wash;
        wash.on_min = wash.from_min = wash.stop_min = at;
        wash.what = ChartWashes{count, count, {}};
        zone.events.push_back(wash);
      }
      at += 10;
    }
    return colour_at(chart_of(course), 330, 9);
  };
  EXPECT_LT(colour::delta_e_2000(finish({20}), finish({10, 10})), 1e-6);
}

TEST(WholeDayChart, the_table_names_what_works) {
  const std::string table = text_table(chart_of(whole_day_course()), hair::default_ladder());
  EXPECT_THAT(table, HasSubstr("(lift works)"));
  EXPECT_THAT(table, HasSubstr("(rinsed)"));
  EXPECT_THAT(table, HasSubstr("1:56"));
  EXPECT_THAT(table, HasSubstr("(colour works)"));
  EXPECT_THAT(table, HasSubstr("2:35"));
  EXPECT_THAT(table, HasSubstr("5:35"));
}

}  // namespace
}  // namespace hw::plan
