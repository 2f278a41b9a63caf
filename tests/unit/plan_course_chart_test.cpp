// From courses of the planner to their charts.
#include <gmock/gmock.h>

#include "huewright/colour/difference.h"
#include "huewright/plan/course_chart.h"
#include "support/coloured_head.h"

namespace hw::plan {
namespace {

using testing::ElementsAre;

const test::PlannedColour& planned() {
  return test::planned_colour();
}

const Course& lift_then_colour() {
  return test::lift_then_colour();
}

StrandChart drawn(const ChartCourse& course) {
  InlineExecutor executor;
  return strand_chart(course, 121, 60, hair::default_ladder(), executor);
}

/// The member's colour after the course's bowls by the process floor alone, all members at once.
colour::HairLab by_process(const Case& head, const ZoneBelief& belief, const Course& course,
                           std::size_t z, std::size_t member) {
  InlineExecutor executor;
  process::LiftMembers hair = belief.members;
  const double middle = (head.zones[z].from_cm + head.zones[z].to_cm) / 2;
  for (double& c : hair.warmth_c) {
    c = process::scalp_warmth_c(middle * (1 - head.shrinkage), head.room_c);
  }
  for (const CourseBowl& bowl : course.bowls) {
    for (std::size_t k = 0; k < bowl.zones.size(); ++k) {
      if (bowl.zones[k].zone != z) continue;
      if (bowl.deposit) {
        hair = process::deposit(hair, *bowl.deposit, bowl.pours, Draws(head.seed), executor);
      } else {
        const auto moments = process::simulate_lift(hair, bowl.applications[k], 60, executor);
        hair = process::canvas_after(hair, moments.back());
      }
    }
  }
  std::vector<colour::HairLab> labs(hair.size());
  process::lift_colours(hair, process::starting_moment(hair), labs);
  return labs[member];
}

TEST(CourseChart, ends_in_the_colour_that_the_bowls_give_that_member) {
  const auto& [head, plan] = planned();
  const Course& course = lift_then_colour();
  const ChartCourse shown = chart_course(head, plan.zones, course, 1);
  const StrandChart chart = drawn(shown);
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    const double middle = (head.zones[z].from_cm + head.zones[z].to_cm) / 2;
    const auto finish = colour_at(chart, shown.end_min, middle);
    const auto expected =
        by_process(head, plan.zones[z], course, z, course.zones[z].nearest_member);
    EXPECT_LT(colour::delta_e_2000(finish, expected), 0.2) << head.zones[z].name;
    EXPECT_LT(colour::delta_e_2000(finish, course.zones[z].result.lab), 3) << head.zones[z].name;
  }
}

TEST(CourseChart, stands_on_the_clock_of_its_visit) {
  const auto& [head, plan] = planned();
  const Course& course = lift_then_colour();
  const ChartCourse shown = chart_course(head, plan.zones, course, 1);
  EXPECT_THAT(shown.steps, ElementsAre("lift", "colour"));
  ASSERT_EQ(shown.phases.size(), 4U);
  EXPECT_EQ(shown.phases[1].label, "wash and care");
  EXPECT_EQ(shown.phases[2].label, "colour bowl");
  EXPECT_FALSE(shown.check_min.empty());
  for (const CourseBowl& bowl : course.bowls) {
    for (const BowlZone& on : bowl.zones) {
      const auto& events = shown.zones[on.zone].events;
      const auto at = std::find_if(events.begin(), events.end(), [&](const ChartEvent& event) {
        return event.on_min == on.times.apply_at && event.stop_min == on.times.stop_at;
      });
      ASSERT_NE(at, events.end());
      EXPECT_EQ(at->colours(), bowl.deposit.has_value());
      EXPECT_GE(at->from_min, on.times.apply_at);
      EXPECT_GE(at->stop_min - at->from_min, on.stop_min.mid - 1e-6);  // its minutes fit in
      if (at->colours()) {
        EXPECT_EQ(std::get<ChartColour>(at->what).bowl.minutes, on.stop_min.mid);
      }
      EXPECT_EQ(at->hard_stop_min.has_value(), !bowl.deposit);
    }
  }
  EXPECT_GT(shown.end_min, shown.phases.back().from_min + 30);  // twists and a hood follow
}

TEST(CourseChart, a_second_visit_starts_from_what_the_first_and_its_washes_left) {
  const auto& [head, plan] = planned();
  Course course = lift_then_colour();
  course.visits = 2;
  const StrandChart first = drawn(chart_course(head, plan.zones, course, 1));
  const StrandChart second = drawn(chart_course(head, plan.zones, course, 2));
  const auto finished = colour_at(first, 1e9, 9);
  const auto next = colour_at(second, 0, 9);
  EXPECT_GT(colour::delta_e_2000(finished, next), 1);
  EXPECT_GT(next.l, finished.l);  // the red has gone, the lift is there
  EXPECT_LT(colour::delta_e_2000(next, colour_at(second, 1e9, 9)), 1e-9);
  EXPECT_EQ(second.course.phases.size(), 1U);
}

TEST(CourseChart, each_section_is_a_strand_of_its_own) {
  auto [head, plan] = planned();
  const Course& course = lift_then_colour();
  EXPECT_THAT(sections_of(head), ElementsAre("whole head"));
  head.zones[1].section = "crown";
  EXPECT_THAT(sections_of(head), ElementsAre("whole head", "crown"));
  EXPECT_EQ(chart_course(head, plan.zones, course, 1).zones.size(), 1U);
  EXPECT_EQ(chart_course(head, plan.zones, course, 1, "crown").zones[0].name, "lengths");
}

TEST(CourseChart, a_course_that_was_not_laid_out_is_a_programmers_mistake) {
  const auto& [head, plan] = planned();
  Course course = lift_then_colour();
  course.bowls[0].zones[0].times = {};
  EXPECT_DEATH((void)chart_course(head, plan.zones, course, 1), "check failed");
}

}  // namespace
}  // namespace hw::plan
