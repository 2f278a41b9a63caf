#include <algorithm>
#include <random>

#include "huewright/plan/clock.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

const test::Source kPractice{"common practice, no source", ""};
const test::Source kMaker{"lightener_maker_help", "15 to 45 min, a look every 5"};

ZoneTask task(const char* name, double grams, double minutes, double window = 6) {
  return {name, grams, minutes, minutes - window / 2, minutes + window / 2};
}

Timetable table(const std::vector<ZoneTask>& tasks, const ClockRules& rules = {}) {
  const auto made = timetable(tasks, rules);
  EXPECT_TRUE(made.has_value()) << (made ? "" : one_line(made.error()));
  return made.value_or(Timetable{});
}

double middle_minutes(const ZoneTimes& times) {
  return times.stop_at - (times.apply_at + times.applied_by) / 2;
}

TEST(PlanClock, slow_zones_start_first_and_all_are_rinsed_together) {
  const auto made = table({task("roots", 20, 15), task("lengths", 40, 35)});
  EXPECT_TRUE(made.together);
  EXPECT_TRUE(made.notes.empty() ||
              made.notes[0].find("longer than its window") != std::string::npos);
  EXPECT_EQ(made.order, (std::vector<std::size_t>{1, 0}));
  const ZoneTimes& roots = made.zones[0];
  const ZoneTimes& lengths = made.zones[1];
  EXPECT_EQ(lengths.apply_at, 0);
  EXPECT_NEAR(lengths.applied_by, 40 / 2.7, 1e-9);
  EXPECT_NEAR(roots.apply_at, 23.7, 0.05);
  EXPECT_NEAR(made.rinse_at, 42.4, 0.05);
  for (const ZoneTimes& one : made.zones) {
    EXPECT_EQ(one.ending, Ending::rinsed_together);
    EXPECT_EQ(one.stop_at, made.rinse_at);
  }
  EXPECT_NEAR(middle_minutes(roots), 15, 1e-9);
  EXPECT_NEAR(middle_minutes(lengths), 35, 1e-9);
}

TEST(PlanClock, a_root_stagger_of_twenty_minutes_is_a_wait_of_twenty_minutes) {
  const auto made = table({task("lengths", 27, 40), task("roots", 27, 20)});
  EXPECT_PUBLISHED("roots start after lengths [min]", kPractice, 20,
                   made.zones[1].apply_at - made.zones[0].apply_at, 5);
}

TEST(PlanClock, where_hands_are_slow_one_moment_inside_every_window_is_sought) {
  // Two zones of equal minutes: the second starts ten minutes later.
  const auto wide = table({task("left", 27, 30, 20), task("right", 27, 30, 20)});
  EXPECT_TRUE(wide.together);
  EXPECT_NEAR(middle_minutes(wide.zones[0]), 35, 1e-9);
  EXPECT_NEAR(middle_minutes(wide.zones[1]), 25, 1e-9);
  const auto narrow = table({task("left", 27, 30, 4), task("right", 27, 30, 4)});
  EXPECT_FALSE(narrow.together);
  EXPECT_EQ(narrow.zones[0].ending, Ending::wiped_in_turn);
  EXPECT_EQ(narrow.zones[1].ending, Ending::rinsed_together);
  EXPECT_NEAR(middle_minutes(narrow.zones[0]), 30, 1e-9);
  EXPECT_NEAR(middle_minutes(narrow.zones[1]), 30, 1e-9);
  ASSERT_FALSE(narrow.notes.empty());
  EXPECT_NE(narrow.notes[0].find("wipe the zones"), std::string::npos);
  EXPECT_EQ(name_of(Ending::wiped_in_turn), "wiped in turn");
  EXPECT_EQ(name_of(Ending::rinsed_together), "rinsed together");
}

TEST(PlanClock, two_pairs_of_hands_are_faster_than_one_and_slower_than_twice) {
  EXPECT_GT(grams_a_minute(2), 1.5 * grams_a_minute(1));
  EXPECT_LT(grams_a_minute(2), 2 * grams_a_minute(1));
  EXPECT_EQ(grams_a_minute(3.0, 1, 0.5), 3);
  EXPECT_EQ(grams_a_minute(3.0, 3, 0.5), 6);
  ClockRules quick;
  quick.grams_per_min = grams_a_minute(2);
  const std::vector<ZoneTask> tasks{task("left", 27, 30, 12), task("right", 27, 30, 12)};
  EXPECT_FALSE(table(tasks, ClockRules{.grams_per_min = 2.0}).together);
  EXPECT_TRUE(table(tasks, quick).together);
  // 74 g of colour on a head of 12 cm, with 5 min of mixing.
  EXPECT_PUBLISHED_RANGE("mixing and putting on colour, 12 cm head [min]", kPractice, 25, 45,
                         5 + 74 / grams_a_minute(1));
}

TEST(PlanClock, pulled_through_ends_come_last_with_half_the_mix) {
  ZoneTask ends = task("ends", 27, 10);
  ends.pull_through = true;
  const auto made = table({ends, task("lengths", 40, 35), task("roots", 20, 8)});
  EXPECT_EQ(made.order.back(), 0U);
  EXPECT_TRUE(made.zones[0].pulled_through);
  EXPECT_NEAR(made.zones[0].uneven, 27 * 0.5 / 2.7, 1e-9);
  EXPECT_FALSE(made.zones[1].pulled_through);
}

TEST(PlanClock, lightener_is_looked_at_every_five_minutes) {
  ZoneTask lengths = task("lengths", 27, 35);
  ZoneTask roots = task("roots", 13.5, 15);
  lengths.lightener = roots.lightener = true;
  const auto made = table({lengths, roots, task("colour", 10, 12)});
  for (const ZoneTimes& one : made.zones) {
    if (one.zone == "colour") {
      EXPECT_TRUE(one.checks_at.empty());
      continue;
    }
    ASSERT_FALSE(one.checks_at.empty());
    double last = one.apply_at;
    for (const double check : one.checks_at) {
      EXPECT_GT(check, last);
      EXPECT_LE(check - last, 5 + 1e-9);
      last = check;
    }
    EXPECT_LT(last, one.stop_at);
    EXPECT_LE(one.stop_at - last, 5 + 1e-9);
  }
  EXPECT_PUBLISHED("minutes between looks at lightener", kMaker, 5,
                   made.zones[0].checks_at[1] - made.zones[0].checks_at[0], 0.01);
}

TEST(PlanClock, no_strand_stays_on_beyond_the_limit) {
  ZoneTask slow = task("lengths", 54, 60);
  slow.limit = 45;
  const auto made = table({slow});
  EXPECT_TRUE(made.zones[0].cut_short);
  EXPECT_PUBLISHED("lightener on its first strand [min]", kMaker, 45,
                   made.zones[0].wipe_from - made.zones[0].apply_at, 0.01);
  EXPECT_PUBLISHED("lightener on its last strand [min]", kMaker, 45,
                   made.zones[0].stop_at - made.zones[0].applied_by, 0.01);
  const bool said = std::any_of(made.notes.begin(), made.notes.end(), [](const auto& note) {
    return note.find("limit of 45 min") != std::string::npos;
  });
  EXPECT_TRUE(said);
  EXPECT_FALSE(table({task("lengths", 5.4, 44)}).zones[0].cut_short);
}

TEST(PlanClock, a_zone_that_must_is_wiped_in_the_order_it_went_on) {
  // 20 min of putting on: the first strand would be on for 54 min when the middle has its 44.
  ZoneTask slow = task("lengths", 54, 44);
  slow.lightener = true;
  slow.limit = 45;
  const auto made = table({slow});
  const ZoneTimes& times = made.zones[0];
  EXPECT_TRUE(times.in_order);
  EXPECT_FALSE(times.cut_short);
  EXPECT_NEAR(times.wipe_from - times.apply_at, 44, 1e-9);
  EXPECT_NEAR(times.stop_at - times.applied_by, 44, 1e-9);
  EXPECT_NEAR(times.hard_stop_at - times.applied_by, 45, 1e-9);
  EXPECT_EQ(times.uneven, 0);
  EXPECT_EQ(times.checks_at.size(), 12U);  // on until 64
  EXPECT_NE(made.notes[0].find("section by section"), std::string::npos);
  // In 2 min it is on and can be rinsed at once.
  slow.mix_g = 5.4;
  EXPECT_FALSE(table({slow}).zones[0].in_order);
  slow.in_order = true;
  EXPECT_TRUE(table({slow}).zones[0].in_order);
}

TEST(PlanClock, hands_that_put_on_and_wipe_by_turns_are_slower) {
  ZoneTask slow = task("lengths", 108, 30);
  slow.lightener = true;
  const auto made = table({slow});
  EXPECT_NEAR(made.zones[0].applied_by, 30 + 10 * 1.2, 1e-9);
  EXPECT_NEAR(made.zones[0].wipe_from, 30, 1e-9);
  EXPECT_NEAR(made.zones[0].stop_at, 72, 1e-9);
  EXPECT_FALSE(made.together);
  EXPECT_NE(made.notes[0].find("by turns"), std::string::npos);
  EXPECT_NEAR(table({slow}, {.wipe = 0}).zones[0].applied_by, 40, 1e-9);
}

TEST(PlanClock, colour_is_rinsed_at_once_when_its_last_strand_had_its_least) {
  const auto made = table({task("lengths", 108, 30)});  // 40 min of putting on, 27 at least
  EXPECT_FALSE(made.zones[0].in_order);
  EXPECT_NEAR(made.zones[0].stop_at, 40 + 27, 1e-9);
}

TEST(PlanClock, slack_is_told_zone_by_zone_the_tightest_first) {
  auto tasks = std::vector{task("roots", 10, 20, 18), task("ends", 10, 12, 4)};
  const auto made = table(tasks);
  EXPECT_TRUE(made.together);
  EXPECT_EQ(slack_words(made), "ends 2 min, roots 9 min before they miss.");
  EXPECT_NEAR(made.zones[1].slack_late, 2, 1e-9);
  EXPECT_NEAR(made.zones[1].slack_early, 2, 1e-9);
  tasks[1].limit = 15;  // on for 3.7 min of putting on, the first strand has 13.9 at the stop
  EXPECT_NEAR(table(tasks).zones[1].slack_late, 15 - 12 - 10 / 2.7 / 2, 1e-9);
  EXPECT_EQ(slack_words(Timetable{}), "");
}

TEST(PlanClock, putting_on_longer_than_the_window_is_said) {
  const auto made = table({task("lengths", 54, 30, 6)});
  EXPECT_NEAR(made.zones[0].uneven, 20, 1e-9);
  ASSERT_EQ(made.notes.size(), 1U);
  EXPECT_NE(made.notes[0].find("20 min"), std::string::npos);
  EXPECT_TRUE(table({task("lengths", 16, 30, 6)}).notes.empty());
}

TEST(PlanClock, every_timetable_keeps_its_limits_and_its_hands) {
  std::mt19937 draw(7);
  std::uniform_real_distribution<double> of_one(0, 1);
  int together = 0, in_turn = 0, cut = 0, ordered = 0;
  for (int i = 0; i < 2000; ++i) {
    std::vector<ZoneTask> tasks;
    for (int z = 0; z < 1 + i % 5; ++z) {
      ZoneTask one = task("z", 60 * of_one(draw), 2 + 43 * of_one(draw), 3);
      one.least = one.minutes * of_one(draw);
      one.most = one.minutes + 15 * of_one(draw);
      one.lightener = true;
      one.limit = 15 + 30 * of_one(draw);
      one.pull_through = of_one(draw) < 0.2;
      tasks.push_back(one);
    }
    const auto made = table(tasks, {.grams_per_min = 1.5 + 4 * of_one(draw)});
    together += made.together;
    in_turn += !made.together;
    double free_from = 0;
    for (const std::size_t at : made.order) {
      const ZoneTimes& one = made.zones[at];
      EXPECT_GE(one.apply_at, free_from - 1e-9);
      EXPECT_GE(one.applied_by, one.apply_at);
      EXPECT_LE(one.stop_at, one.hard_stop_at + 1e-9);
      const double from = one.in_order ? one.applied_by : one.apply_at;
      EXPECT_NEAR(one.hard_stop_at - from, tasks[at].limit, 1e-9);
      EXPECT_LE(one.wipe_from - one.apply_at, tasks[at].limit + 1e-9);
      EXPECT_LE(one.wipe_from, one.stop_at);
      EXPECT_GE(one.stop_at, one.applied_by - 1e-9);
      EXPECT_TRUE(one.in_order || one.wipe_from == one.stop_at);
      ordered += one.in_order;
      EXPECT_LE(one.stop_at, made.rinse_at + 1e-9);
      cut += one.cut_short;
      if (made.together) {
        EXPECT_GE(one.slack_early, -1e-9);
        EXPECT_GE(one.slack_late, -1e-9);
        EXPECT_GE(one.stop_at, one.applied_by - 1e-9);
      }
      free_from = one.applied_by;
    }
  }
  EXPECT_GT(together, 100);
  EXPECT_GT(in_turn, 100);
  EXPECT_GT(cut, 100);
  EXPECT_GT(ordered, 100);
}

TEST(PlanClock, out_of_range_names_the_place) {
  const auto fault = [](auto change) {
    ZoneTask one = task("a", 10, 20);
    ClockRules rules;
    change(one, rules);
    const auto made = timetable(std::span(&one, 1), rules);
    return made ? std::string("none") : made.error().where;
  };
  EXPECT_EQ(fault([](auto&, auto&) {}), "none");
  EXPECT_EQ(fault([](auto& t, auto&) { t.mix_g = -1; }), "tasks[0].mix_g");
  EXPECT_EQ(fault([](auto& t, auto&) { t.minutes = std::nan(""); }), "tasks[0].minutes");
  EXPECT_EQ(fault([](auto& t, auto&) { t.least = 21; }), "tasks[0].least");
  EXPECT_EQ(fault([](auto& t, auto&) { t.most = 19; }), "tasks[0].most");
  EXPECT_EQ(fault([](auto& t, auto&) { t.limit = 0; }), "tasks[0].limit");
  EXPECT_EQ(fault([](auto&, auto& r) { r.grams_per_min = 0; }), "rules");
  EXPECT_EQ(fault([](auto&, auto& r) { r.check_every = 0; }), "rules");
  EXPECT_FALSE(timetable({}).has_value());
}

std::vector<std::string> every_block() {
  std::vector<std::string> ids;
  for (const DayBlock& block : usual_blocks()) ids.push_back(block.id);
  return ids;
}

TEST(PlanDay, a_whole_day_of_lift_colour_and_twists) {
  const auto day = day_of(every_block());
  ASSERT_TRUE(day.has_value());
  EXPECT_PUBLISHED("whole day, every block low [min]", kPractice, 295, day->sum_low, 0.5);
  EXPECT_PUBLISHED("whole day, every block high [min]", kPractice, 570, day->sum_high, 0.5);
  EXPECT_GT(day->minutes.low, day->sum_low);
  EXPECT_LT(day->minutes.high, day->sum_high);
  EXPECT_NEAR(day->minutes.mid, (295 + 570) / 2.0, 1e-9);
  ASSERT_EQ(day->parts.size(), 8U);
  EXPECT_EQ(day->parts[0].starts_at, 0);
  EXPECT_EQ(day->parts[1].starts_at, 30);
}

TEST(PlanDay, a_second_pair_of_hands_shortens_what_hands_do) {
  const auto one = day_of(every_block(), {}, 1);
  const auto two = day_of(every_block(), {}, 2);
  ASSERT_TRUE(one && two);
  EXPECT_LT(two->minutes.mid, one->minutes.mid);
  for (std::size_t i = 0; i < one->parts.size(); ++i) {
    const DayBlock& block = one->parts[i].block;
    const double ratio = two->parts[i].block.minutes.mid / block.minutes.mid;
    EXPECT_NEAR(ratio, 1 - block.hand_share + block.hand_share / 1.9, 1e-9) << block.id;
  }
}

TEST(PlanDay, known_minutes_take_the_place_of_the_trade_s) {
  const std::vector<std::string> wanted{"hood", "style"};
  const std::vector<KnownBlock> known{{"style", {48, 72, 96}}};
  const auto day = day_of(wanted, known, 2);
  ASSERT_TRUE(day.has_value());
  ASSERT_EQ(day->parts.size(), 2U);
  EXPECT_EQ(day->parts[0].block.id, "style");  // in the order of the day
  EXPECT_EQ(day->parts[0].block.minutes.mid, 72);
  EXPECT_EQ(day->parts[1].starts_at, 72);
  EXPECT_EQ(day->sum_low, 48 + 45);
}

TEST(PlanDay, faults_name_what_is_wrong) {
  const std::vector<std::string> unknown{"nap"};
  const std::vector<std::string> twice{"hood", "hood"};
  const std::vector<std::string> hood{"hood"};
  EXPECT_EQ(day_of(unknown).error().code, ErrorCode::unknown_name);
  EXPECT_EQ(day_of(twice).error().code, ErrorCode::conflict);
  EXPECT_EQ(day_of(hood, {}, 0).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(day_of(hood, {}, 7).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(day_of(hood, std::vector<KnownBlock>{{"nap", {}}}).error().code,
            ErrorCode::unknown_name);
  EXPECT_EQ(day_of(hood, std::vector<KnownBlock>{{"hood", {3, 2, 1}}}).error().code,
            ErrorCode::out_of_range);
}

}  // namespace
}  // namespace hw::plan
