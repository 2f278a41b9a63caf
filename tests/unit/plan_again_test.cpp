// The rest of a visit after readings.
#include <gmock/gmock.h>

#include <algorithm>

#include "huewright/plan/plan.h"
#include "support/demo_case.h"

namespace hw::plan {
namespace {

Case lifting_head() {
  Case head = test::plain_head();
  head.members = 256;
  head.person.skin_test = process::SkinTest::clear;
  head.wished_level = 4.5;
  process::Product mask;
  mask.id = "mask";
  mask.kind = process::PartKind::colour;
  mask.dye_class = process::DyeClass::direct;
  mask.level = 6;
  mask.tone = "red";
  head.shelf.push_back(mask);
  head.target = *target_colour({28, 17, 13});
  return head;
}

const BowlZone* lift_of(const Course& course, std::size_t zone) {
  for (const CourseBowl& bowl : course.bowls) {
    if (bowl.purpose != Purpose::lift) continue;
    for (const BowlZone& on : bowl.zones) {
      if (on.zone == zone) return &on;
    }
  }
  return nullptr;
}

struct VisitRun {
  Case head = lifting_head();
  HeadPlan plan;
  explicit VisitRun(bool lift_alone = false) {
    if (lift_alone) head.target.reset();
    InlineExecutor here;
    plan = *plan_head(head, here);
  }
  Replanned after(const std::vector<CheckReading>& readings) const {
    InlineExecutor here;
    auto again = plan_again(head, plan, 0, readings, here);
    EXPECT_TRUE(again.has_value()) << one_line(again.error());
    return *std::move(again);
  }
  /// A look at the lengths half way through their lift, so far off what was expected there.
  [[nodiscard]] CheckReading look(double levels_off) const {
    CheckReading reading = look_at(4);
    const double expected = after({reading}).checked.forecasts[0].expected_level;
    reading.level = std::clamp(expected + levels_off, 1.0, 10.0);
    return reading;
  }
  [[nodiscard]] CheckReading look_at(double level) const {
    const BowlZone* on = lift_of(plan.courses[0], 1);
    CheckReading reading;
    reading.minute = (on->times.apply_at + on->times.applied_by) / 2 + on->stop_min.mid / 2;
    reading.zone = "lengths";
    reading.level = level;
    reading.seen = hair::Moisture::wiped;
    return reading;
  }
};

TEST(PlanAgain, hair_ahead_of_the_plan_is_stopped_sooner_and_behind_it_later) {
  const VisitRun run(true);
  ASSERT_NE(lift_of(run.plan.courses[0], 1), nullptr);
  const Replanned ahead = run.after({run.look(1.5)});
  const Replanned behind = run.after({run.look(-1.2)});
  const double soon = lift_of(ahead.plan.courses[0], 1)->stop_min.mid;
  const double late = lift_of(behind.plan.courses[0], 1)->stop_min.mid;
  EXPECT_LT(soon, late - 3);
}

TEST(PlanAgain, a_check_narrows_the_finish) {
  const VisitRun run;
  const Band before = run.plan.courses[0].zones[1].result.level;
  std::vector<CheckReading> readings(3, run.look(0));
  readings[1].minute += 3;
  readings[2].zone = "roots";
  const Band after = run.after(readings).plan.courses[0].zones[1].result.level;
  EXPECT_LT(after.high - after.low, before.high - before.low);
}

TEST(PlanAgain, the_lift_stays_as_it_was_mixed_and_the_colour_is_solved_anew) {
  const VisitRun run;
  const Replanned again = run.after({run.look(1)});
  const CourseBowl& was = run.plan.courses[0].bowls[0];
  const CourseBowl& is = again.plan.courses[0].bowls[0];
  ASSERT_EQ(was.parts.size(), is.parts.size());
  for (std::size_t i = 0; i < was.parts.size(); ++i) EXPECT_EQ(was.parts[i].id, is.parts[i].id);
  EXPECT_EQ(was.peroxide_percent, is.peroxide_percent);
}

TEST(PlanAgain, no_stop_lies_before_the_minute_that_was_read) {
  const VisitRun run;
  const CheckReading late = run.look(4);
  const BowlZone* on = lift_of(run.plan.courses[0], 1);
  const double had = late.minute - (on->times.apply_at + on->times.applied_by) / 2;
  EXPECT_GE(lift_of(run.after({late}).plan.courses[0], 1)->stop_min.mid, had - 1e-6);
}

TEST(PlanAgain, a_zone_that_is_on_keeps_its_start_and_its_hard_stop) {
  const VisitRun run(true);
  const ZoneTimes& was = lift_of(run.plan.courses[0], 1)->times;
  for (const double off : {-1.0, 0.0, 1.0}) {
    const Replanned again = run.after({run.look(off)});
    const ZoneTimes& is = lift_of(again.plan.courses[0], 1)->times;
    EXPECT_EQ(is.apply_at, was.apply_at);
    EXPECT_EQ(is.hard_stop_at, was.hard_stop_at);
    EXPECT_LE(is.stop_at, is.hard_stop_at);
  }
}

TEST(PlanAgain, a_wet_reading_alone_moves_no_stop_later) {
  const VisitRun run(true);
  CheckReading wet = run.look(-2);
  wet.seen = hair::Moisture::wet;
  const double before = lift_of(run.plan.courses[0], 1)->stop_min.mid;
  const double after = lift_of(run.after({wet}).plan.courses[0], 1)->stop_min.mid;
  EXPECT_LE(after, before + 0.5);
  CheckReading wiped = wet;  // what a wiped look of the same depth would do
  wiped.seen = hair::Moisture::wiped;
  EXPECT_GT(lift_of(run.after({wiped}).plan.courses[0], 1)->stop_min.mid, before + 1);
}

TEST(PlanAgain, a_strand_that_snaps_is_rinsed_now) {
  const VisitRun run;
  CheckReading snap = run.look(0);
  snap.stretch = Stretch::snaps;
  const Replanned again = run.after({snap});
  EXPECT_TRUE(std::any_of(again.checked.checks.begin(), again.checked.checks.end(),
                          [](const ZoneCheck& check) { return check.rinse_now; }));
}

TEST(PlanAgain, hair_read_dry_is_off_and_its_minutes_stand) {
  const VisitRun run;
  CheckReading dry = run.look(0);
  dry.seen = hair::Moisture::dry;
  const BowlZone* on = lift_of(run.plan.courses[0], 1);
  const double had = dry.minute - (on->times.apply_at + on->times.applied_by) / 2;
  EXPECT_NEAR(lift_of(run.after({dry}).plan.courses[0], 1)->stop_min.mid, had, 1e-6);
}

TEST(PlanAgain, a_course_that_is_not_there_is_named) {
  const VisitRun run;
  InlineExecutor here;
  const auto again = plan_again(run.head, run.plan, 9, {}, here);
  ASSERT_FALSE(again);
  EXPECT_EQ(again.error().where, "course");
}

TEST(PlanAgain, a_minute_long_after_the_last_stop_is_a_slip_of_the_pen) {
  const VisitRun run;
  CheckReading late = run.look_at(4);
  late.minute = 900;
  InlineExecutor here;
  const auto again = plan_again(run.head, run.plan, 0, {&late, 1}, here);
  ASSERT_FALSE(again.has_value());
  EXPECT_EQ(again.error().where, "readings[0].minute");
  EXPECT_EQ(again.error().code, ErrorCode::out_of_range);
}

}  // namespace
}  // namespace hw::plan
