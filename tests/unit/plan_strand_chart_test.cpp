#include <gmock/gmock.h>

#include <algorithm>

#include "huewright/plan/strand_chart.h"
#include "support/strand_chart_course.h"

namespace hw::plan {
namespace {

using test::three_zone_course;
using testing::HasSubstr;

StrandChart chart_of(const ChartCourse& course, std::size_t columns = 121, std::size_t rows = 90) {
  InlineExecutor executor;
  return strand_chart(course, columns, rows, hair::default_ladder(), executor);
}

TEST(ScalpWarmth, falls_from_the_skin_and_never_cools) {
  double before = process::scalp_warmth_c(0, 22);
  EXPECT_DOUBLE_EQ(before, 11);
  for (double cm = 0.1; cm < 10; cm += 0.1) {
    const double here = process::scalp_warmth_c(cm, 22);
    EXPECT_LT(here, before) << cm;
    before = here;
  }
  EXPECT_NEAR(before, 0, 1e-5);
  EXPECT_EQ(process::scalp_warmth_c(0.5, 35), 0);
  EXPECT_EQ(process::scalp_warmth_c(-1, 22), 11);
  // Half an inch is where hot roots end: common practice, no source.
  EXPECT_NEAR(process::scalp_warmth_c(1.27, 22), 1.3, 0.05);
}

TEST(StrandChart, time_runs_across_and_distance_down) {
  const StrandChart chart = chart_of(three_zone_course());
  ASSERT_EQ(chart.lab.size(), chart.rows * chart.columns);
  ASSERT_EQ(chart.level.size(), chart.lab.size());
  EXPECT_EQ(chart.minute.front(), 0);
  EXPECT_EQ(chart.minute.back(), 70);
  EXPECT_TRUE(std::is_sorted(chart.minute.begin(), chart.minute.end()));
  ASSERT_EQ(chart.distance_cm.size(), 90U);
  EXPECT_EQ(chart.distance_cm.front(), 0);
  EXPECT_EQ(chart.distance_cm.back(), 22);
  EXPECT_TRUE(std::is_sorted(chart.distance_cm.begin(), chart.distance_cm.end()));
  // The ends come last and are the light ones; at() takes the row first.
  EXPECT_GT(chart.lab[chart.at(89, 0)].l, chart.lab[chart.at(0, 0)].l + 10);
  EXPECT_EQ(chart.lab[chart.at(0, 0)].l, chart.lab[chart.at(0, 5)].l);
}

TEST(StrandChart, a_border_has_a_row_on_either_side) {
  const StrandChart chart = chart_of(three_zone_course());
  ASSERT_EQ(chart.bands.size(), 3U);
  std::size_t row = 0;
  for (std::size_t z = 0; z < 3; ++z) {
    EXPECT_EQ(chart.bands[z].first_row, row);
    EXPECT_EQ(chart.distance_cm[row], chart.course.zones[z].from_cm);
    row += chart.bands[z].rows;
    EXPECT_EQ(chart.distance_cm[row - 1], chart.course.zones[z].to_cm);
  }
  EXPECT_EQ(row, chart.rows);
  // Colour jumps at the border as the plan makes it jump.
  const double inside = colour_at(chart, 0, 15 - 1e-6).l;
  EXPECT_GT(colour_at(chart, 0, 15).l, inside + 10);
}

TEST(StrandChart, every_zone_gets_two_rows_however_short) {
  ChartCourse course = three_zone_course();
  course.zones[0].to_cm = course.zones[1].from_cm = 0.01;
  course.zones[1].to_cm = course.zones[2].from_cm = 0.02;
  const StrandChart chart = chart_of(course, 5, 6);
  for (const ChartBand& band : chart.bands) EXPECT_EQ(band.rows, 2U);
}

TEST(StrandChart, a_zone_keeps_its_colour_before_its_start_and_after_its_rinse) {
  const StrandChart chart = chart_of(three_zone_course());
  for (std::size_t z = 0; z < 3; ++z) {
    const ChartEvent& event = chart.course.zones[z].events[0];
    const std::size_t row = chart.bands[z].first_row + chart.bands[z].rows / 2;
    const double start = chart.lab[chart.at(row, 0)].l;
    const double finish = chart.lab[chart.at(row, chart.columns - 1)].l;
    EXPECT_GT(finish, start + 3);
    for (std::size_t c = 0; c < chart.columns; ++c) {
      const double lstar = chart.lab[chart.at(row, c)].l;
      if (chart.minute[c] <= event.on_min) {
        EXPECT_EQ(lstar, start);
      }
      if (chart.minute[c] > event.on_min + 2 && chart.minute[c] < event.stop_min) {
        EXPECT_GT(lstar, start);
        EXPECT_LT(lstar, finish);
      }
      if (chart.minute[c] >= event.stop_min) {
        EXPECT_EQ(lstar, finish);
      }
    }
  }
}

TEST(StrandChart, a_zone_left_alone_stays_as_it_is) {
  ChartCourse course = three_zone_course();
  course.zones[1].events.clear();
  const StrandChart chart = chart_of(course);
  const std::size_t row = chart.bands[1].first_row + 3;
  for (std::size_t c = 0; c < chart.columns; ++c) {
    EXPECT_EQ(chart.lab[chart.at(row, c)].l, chart.lab[chart.at(row, 0)].l);
  }
}

TEST(StrandChart, says_what_the_lift_says_at_that_distance) {
  const ChartCourse course = three_zone_course();
  const StrandChart chart = chart_of(course);
  InlineExecutor executor;
  for (const auto& [z, cm] : {std::pair(0, 0.0), std::pair(0, 1.0), std::pair(1, 9.0)}) {
    const ChartZone& zone = course.zones[static_cast<std::size_t>(z)];
    process::LiftMembers member = zone.member;
    member.warmth_c[0] += process::scalp_warmth_c(cm * zone.resting_factor, course.room_c);
    const ChartEvent& lift = zone.events[0];
    const auto moments =
        process::simulate_lift(member, std::get<ChartLift>(lift.what).applications, 5, executor);
    for (const auto& moment : moments) {
      if (lift.from_min + moment.minute_total > lift.stop_min) break;
      std::vector<colour::HairLab> lab(1);
      process::lift_colours(member, moment, lab);
      EXPECT_NEAR(colour_at(chart, lift.from_min + moment.minute_total, cm).l, lab[0].l, 0.1)
          << zone.name << " minute " << moment.minute_total;
    }
  }
}

TEST(StrandChart, a_second_bowl_follows_the_first) {
  ChartCourse course = three_zone_course();
  auto& bowls = std::get<ChartLift>(course.zones[1].events[0].what).applications;
  bowls[0].minutes = 20;
  const double one_bowl = chart_of(course).lab[chart_of(course).at(50, 120)].l;
  bowls.push_back(bowls[0]);
  const StrandChart two = chart_of(course);
  EXPECT_GT(two.lab[two.at(50, 120)].l, one_bowl + 1);
  // It is rinsed at minute 53, so a bowl meant for longer makes no difference.
  bowls[1].minutes = 200;
  const StrandChart cut = chart_of(course);
  bowls[1].minutes = 25;
  const StrandChart exact = chart_of(course);
  EXPECT_EQ(cut.lab[cut.at(50, 120)].l, exact.lab[exact.at(50, 120)].l);
}

TEST(StrandChart, nearer_the_scalp_is_never_darker_in_one_zone) {
  const StrandChart chart = chart_of(three_zone_course());
  for (std::size_t z = 0; z < 2; ++z) {
    const ChartBand& band = chart.bands[z];
    for (std::size_t r = band.first_row + 1; r < band.first_row + band.rows; ++r) {
      for (std::size_t c = 0; c < chart.columns; ++c) {
        EXPECT_GE(chart.lab[chart.at(r - 1, c)].l, chart.lab[chart.at(r, c)].l - 1e-9);
      }
    }
  }
  // Where hair rests decides: the same stretched distance, hanging straight, is less warm.
  ChartCourse straight = three_zone_course();
  straight.zones[0].resting_factor = 1;
  EXPECT_LT(colour_at(chart_of(straight), 35, 1.5).l, colour_at(chart, 35, 1.5).l);
}

TEST(StrandChart, same_numbers_on_any_number_of_threads) {
  const StrandChart inline_chart = chart_of(three_zone_course());
  const auto pool = make_thread_pool(3);
  const StrandChart pooled =
      strand_chart(three_zone_course(), 121, 90, hair::default_ladder(), *pool);
  EXPECT_EQ(inline_chart.level, pooled.level);
  EXPECT_EQ(inline_chart.lines.size(), pooled.lines.size());
}

TEST(StrandChart, time_is_full_length_where_lightener_works_and_folded_in_long_pauses) {
  const StrandChart whole = chart_of(three_zone_course());
  EXPECT_NEAR(across(whole, 35), 0.5, 1e-12);
  ChartCourse course = three_zone_course();
  course.end_min = 255;  // 8 + 47 at full length, a pause of 200 at a quarter
  const StrandChart chart = chart_of(course);
  constexpr double kShown = 55 + 50;
  EXPECT_NEAR(across(chart, 8), 8 / kShown, 1e-12);
  EXPECT_NEAR(across(chart, 55), 55 / kShown, 1e-12);
  EXPECT_NEAR(across(chart, 155), 80 / kShown, 1e-12);
  EXPECT_EQ(across(chart, 255), 1);
  for (double minute = 0; minute <= 255; minute += 7.5) {
    EXPECT_NEAR(minute_at(chart, across(chart, minute)), minute, 1e-9);
  }
  EXPECT_EQ(across(chart, -5), 0);
  EXPECT_EQ(across(chart, 999), 1);
}

TEST(StrandChart, lines_stand_where_the_colour_has_their_level) {
  const StrandChart chart = chart_of(three_zone_course(), 241, 120);
  ASSERT_GT(chart.lines.size(), 10U);
  for (const LevelLine& line : chart.lines) {
    EXPECT_EQ(line.level * 2, std::round(line.level * 2));
    ASSERT_GE(line.points.size(), 2U);
    for (const ChartPoint& point : line.points) {
      const double inside = std::min(point.cm, 22 - 1e-9);
      const double level =
          hair::default_ladder().level_of(colour_at(chart, point.minute, inside).l);
      const bool on_border = std::abs(inside - 2.5) < 1e-9 || std::abs(inside - 15) < 1e-9;
      if (!on_border) {
        EXPECT_NEAR(level, line.level, 0.05);
      }
    }
  }
}

TEST(StrandChart, the_table_says_it_in_words) {
  const StrandChart chart = chart_of(three_zone_course());
  const std::string table = text_table(chart, hair::default_ladder());
  EXPECT_THAT(table, HasSubstr("lengths (2.5 to 15 cm)"));
  EXPECT_THAT(table, HasSubstr("3.0 dark brown (waits)"));
  EXPECT_THAT(table, HasSubstr("(lift works)"));
  EXPECT_THAT(table, HasSubstr("(rinsed)"));
  EXPECT_THAT(table, HasSubstr("0:55 hard stop roots, lengths, ends"));
  EXPECT_THAT(table, HasSubstr("1:10"));
  EXPECT_THAT(table, HasSubstr(" to "));
  // Heading; 0, 70, nine checks; starts 8, 22, 38 (38 is a check); rinses 52, 53, 55 (53 is one).
  EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 1 + 2 + 9 + 2 + 2);
  EXPECT_EQ(clock_text(65.4), "1:05");
  EXPECT_EQ(clock_text(59.6), "1:00");
}

TEST(StrandChart, gaps_between_zones_are_a_programmers_mistake) {
  ChartCourse course = three_zone_course();
  course.zones[1].from_cm = 3;
  EXPECT_DEATH((void)chart_of(course), "check failed");
}

}  // namespace
}  // namespace hw::plan
