// The fade chart's numbers, from courses built by hand and by the planner.
#include <gmock/gmock.h>

#include <algorithm>

#include "huewright/colour/difference.h"
#include "huewright/plan/fade_chart.h"
#include "support/coloured_head.h"
#include "support/fade_course.h"

namespace hw::plan {
namespace {

using test::finished_course;
using testing::HasSubstr;

FadeChart chart_of(const FadeCourse& course) {
  InlineExecutor executor;
  return fade_chart(course, 121, 60, hair::default_ladder(), executor);
}

TEST(FadeChart, starts_from_the_finish_of_the_day) {
  InlineExecutor executor;
  const StrandChart day =
      strand_chart(test::whole_day_course(), 121, 60, hair::default_ladder(), executor);
  const FadeChart chart = chart_of(finished_course());
  for (const double cm : {1.0, 9.0, 20.0}) {
    EXPECT_LT(colour::delta_e_2000(colour_at(day, 1e9, cm), faded_at(chart, 0, cm)), 1e-3) << cm;
  }
}

TEST(FadeChart, loses_dye_as_process_says_and_shows_the_canvas_in_the_end) {
  FadeCourse course = finished_course();
  const FadeChart chart = chart_of(course);
  // The same day with as many washes at its end.
  ChartCourse day = test::whole_day_course();
  for (ChartZone& zone : day.zones) {
    ChartEvent wash;
    wash.on_min = wash.from_min = wash.stop_min = 200;
    wash.what = ChartWashes{15, 0, {}};
    zone.events.push_back(wash);
  }
  InlineExecutor executor;
  const StrandChart washed = strand_chart(day, 121, 60, hair::default_ladder(), executor);
  const double week = 15 / course.washes_per_week;
  const double at_finish = 9;
  const double then = at_finish + week * course.growth_cm_per_week;
  EXPECT_LT(colour::delta_e_2000(colour_at(washed, 300, at_finish), faded_at(chart, week, then)),
            0.05);
  course.washes_per_week = 1000;
  const auto bare = faded_at(chart_of(course), 19, then);
  const StrandChart unwashed =
      strand_chart(test::whole_day_course(), 121, 60, hair::default_ladder(), executor);
  EXPECT_LT(colour::delta_e_2000(bare, colour_at(unwashed, 100, at_finish)), 1.5);
}

TEST(FadeChart, natural_hair_grows_in_and_pushes_the_borders_out) {
  const FadeChart chart = chart_of(finished_course());
  const double grown = 10 * chart.course.growth_cm_per_week;
  EXPECT_EQ(faded_at(chart, 10, grown - 0.01).l, chart.grown.l);
  EXPECT_NE(faded_at(chart, 10, grown + 0.01).l, chart.grown.l);
  // 2.5 cm from the scalp at the finish, the border of the roots has moved as far.
  const double border = 2.5 + grown;
  const auto inside = faded_at(chart, 10, border - 1e-6);
  const auto outside = faded_at(chart, 10, border + 1e-6);
  EXPECT_EQ(inside.l, colour_at(chart.body, 10 * 7 * 24 * 60, 2.5 - 1e-6).l);
  EXPECT_EQ(outside.l, colour_at(chart.body, 10 * 7 * 24 * 60, 2.5 + 1e-6).l);
}

TEST(FadeChart, marks_what_has_a_date) {
  FadeCourse course = finished_course();
  const FadeChart chart = chart_of(course);
  const auto named = [&](const std::string& words) {
    return std::find_if(chart.marks.begin(), chart.marks.end(), [&](const FadeMark& mark) {
      return mark.words.find(words) != std::string::npos;
    });
  };
  ASSERT_NE(named("next visit"), chart.marks.end());
  EXPECT_EQ(named("next visit")->week, 6);
  ASSERT_NE(named("regrowth"), chart.marks.end());
  EXPECT_NEAR(named("regrowth")->week, 1.27 / 0.18, 1e-9);
  const auto refresh = named("refresh");
  ASSERT_NE(refresh, chart.marks.end());
  EXPECT_EQ(week_text(chart, 6), "week 6");
  course.finished_on = std::chrono::year_month_day{std::chrono::year{2025}, std::chrono::month{1},
                                                   std::chrono::day{20}};
  EXPECT_EQ(week_text(chart_of(course), 6), "week 6, 3 March");
  // Regrowth like the hair below it asks for no roots.
  course.zones = {course.zones[1]};
  course.zones[0].from_cm = 0;
  course.zones[0].events.clear();
  for (const FadeMark& mark : chart_of(course).marks) EXPECT_EQ(mark.words, "next visit");
}

TEST(FadeChart, the_table_says_it_in_words) {
  const std::string table = text_table(chart_of(finished_course()), hair::default_ladder());
  EXPECT_THAT(table, HasSubstr("wash"));
  EXPECT_THAT(table, HasSubstr("roots"));
  EXPECT_THAT(table, HasSubstr("week 13"));  // wash 20
  EXPECT_THAT(table, HasSubstr(" off)"));
  EXPECT_THAT(table, HasSubstr("week 6: next visit\n"));
}

TEST(FadeChart, agrees_with_the_fade_of_the_planners_course) {
  const auto& [head, plan] = test::planned_colour();
  const Course& course = test::lift_then_colour();
  const FadeChart chart = chart_of(fade_course(head, plan.zones, course));
  EXPECT_EQ(chart.course.weeks, 30);
  std::size_t compared = 0;
  for (const FadedZone& faded : course.fade) {
    for (const FadeStand& stand : chart.stands) {
      if (stand.wash != static_cast<double>(faded.wash)) continue;
      if (chart.course.zones[stand.zone].name != faded.zone) continue;
      // The planner's is the mean of the members nearest the median, this is one of them.
      EXPECT_LT(colour::delta_e_2000(stand.lab, faded.lab), 4) << faded.zone << faded.wash;
      ++compared;
    }
  }
  EXPECT_EQ(compared, course.fade.size());
  EXPECT_GT(compared, 0U);
  // What grows in is the member's own natural hair: here the zone as it was found.
  const std::size_t m = course.zones[0].nearest_member;
  EXPECT_LT(colour::delta_e_2000(chart.grown, plan.zones[0].now[m]), 0.5);
}

}  // namespace
}  // namespace hw::plan
