// Checks and strand tests: what a reading does to the belief of a head.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "huewright/plan/checks.h"
#include "support/demo_case.h"

namespace hw::plan {
namespace {

using test::plain_head;

struct Head {
  Case known = plain_head();
  std::vector<ZoneBelief> zones;
  explicit Head(std::uint64_t seed = 1, double level = 2, Reader by = Reader::eye) {
    known.seed = seed;
    for (ZoneCase& zone : known.zones) {
      zone.readings[0].by = by;
      zone.readings[0].level = level;
    }
    known.members = 256;
    InlineExecutor executor;
    auto believed = believe(known, executor);
    EXPECT_TRUE(believed.has_value());
    zones = *std::move(believed);
  }
};

process::Application lightener(double minutes) {
  process::Application bowl;
  bowl.peroxide_percent = 4;
  bowl.powder_percent = 100.0 / 3;
  bowl.mix_per_hair = 1.4;
  bowl.minutes = minutes;
  return bowl;
}

CheckReading looked(double minute, const std::string& zone, double level) {
  CheckReading reading;
  reading.minute = minute;
  reading.zone = zone;
  reading.level = level;
  reading.seen = hair::Moisture::dry;
  return reading;
}

/// Level after 35 minutes of lightener, over the members.
Band finish(const ZoneBelief& zone, const hair::Ladder& ladder) {
  InlineExecutor executor;
  const process::Application bowl = lightener(35);
  const auto moments = process::simulate_lift(zone.members, {&bowl, 1}, bowl.minutes, executor);
  std::vector<colour::HairLab> labs(zone.members.size());
  process::lift_colours(zone.members, moments.back(), labs, process::Whites::left_out);
  std::vector<double> levels;
  for (const auto& lab : labs) levels.push_back(ladder.level_of(lab.l));
  return band_of(levels);
}
double width(const Band& band) {
  return band.high - band.low;
}

Checked checked(const Head& head, const std::vector<ZoneRun>& runs,
                const std::vector<CheckReading>& readings) {
  InlineExecutor executor;
  auto made = check(head.known, head.zones, runs, readings, executor);
  EXPECT_TRUE(made.has_value()) << one_line(made.error());
  return *std::move(made);
}

/// A strand of the lengths under lightener for 40 minutes, read dry at 20 and 40.
struct StrandTest {
  ZoneRun run{"lengths", true, {{lightener(40), 0}}};
  std::vector<CheckReading> readings;
  StrandTest(double at_20, double at_40) {
    readings = {looked(20, "lengths", at_20), looked(40, "lengths", at_40)};
    for (CheckReading& reading : readings) reading.strand_test = true;
  }
};

/// Mean width of the finish of each zone before and after a strand test of the lengths that reads
/// as expected, so that what is left is as wide as the doubt and not moved along the curve.
struct Widths {
  std::array<double, 2> before{}, after{};
};
Widths around_a_strand_test(double level, Reader zones_read_by) {
  constexpr std::uint64_t kSeeds = 8;
  Widths widths;
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const Head head(seed, level, zones_read_by);
    const StrandTest any(4, 6);
    const auto forecasts = checked(head, {any.run}, any.readings).forecasts;
    const StrandTest strand(forecasts[0].expected_level, forecasts[1].expected_level);
    const Checked made = checked(head, {strand.run}, strand.readings);
    EXPECT_TRUE(made.believable);
    for (std::size_t z = 0; z < 2; ++z) {
      widths.before[z] += width(finish(head.zones[z], head.known.ladder)) / kSeeds;
      widths.after[z] += width(finish(made.zones[z], head.known.ladder)) / kSeeds;
    }
  }
  fmt::print(
      "a strand test of the lengths: lengths {:.2f} to {:.2f} levels wide, roots {:.2f} to "
      "{:.2f}\n",
      widths.before[1], widths.after[1], widths.before[0], widths.after[0]);
  return widths;
}

TEST(PlanChecks, a_strand_test_narrows_the_whole_head) {
  // Where an instrument told the pigment, rate and constants are what is left to doubt, and zones
  // share them.
  const Widths known = around_a_strand_test(4, Reader::instrument);
  EXPECT_LT(known.after[1], 0.8 * known.before[1]);
  EXPECT_LT(known.after[0], 0.96 * known.before[0]);
  // By eye pigment is most of the doubt, and untouched zones hold much the same.
  const Widths by_eye = around_a_strand_test(2, Reader::eye);
  EXPECT_LT(by_eye.after[1], 0.7 * by_eye.before[1]);
  EXPECT_LT(by_eye.after[0], 0.9 * by_eye.before[0]);
}

TEST(PlanChecks, a_strand_that_lifted_further_or_less_moves_the_other_zone_with_it) {
  const Head head;
  const StrandTest quick(6, 8), slow(2, 3);
  const auto& ladder = head.known.ladder;
  const double before = finish(head.zones[0], ladder).mid;
  EXPECT_GT(finish(checked(head, {quick.run}, quick.readings).zones[0], ladder).mid, before + 0.2);
  EXPECT_LT(finish(checked(head, {slow.run}, slow.readings).zones[0], ladder).mid, before - 0.2);
}

TEST(PlanChecks, a_strand_lies_away_from_the_scalp_and_its_zone_does_not) {
  // On a warm scalp the zone itself would have gone further: the same level read on a strand means
  // quicker hair than read on the zone.
  Head head;
  for (double& warmth : head.zones[0].members.warmth_c) warmth = 8;
  const auto& ladder = head.known.ladder;
  const ZoneRun on_strand{"roots", true, {{lightener(40), 0}}};
  const ZoneRun on_zone{"roots", false, {{lightener(40), 0}}};
  CheckReading strand = looked(30, "roots", 5);
  strand.strand_test = true;
  const CheckReading zone = looked(30, "roots", 5);
  EXPECT_GT(finish(checked(head, {on_strand}, {strand}).zones[0], ladder).mid,
            finish(checked(head, {on_zone}, {zone}).zones[0], ladder).mid + 0.1);
}

TEST(PlanChecks, a_strand_that_stays_stretched_wears_the_belief_but_rinses_no_zone) {
  const Head head;
  StrandTest strand(4, 6);
  strand.readings[1].stretch = Stretch::stays;
  const Checked after = checked(head, {strand.run}, strand.readings);
  EXPECT_FALSE(after.checks[1].rinse_now);
  const StrandTest fine(4, 6);
  auto springs = fine.readings;
  springs[1].stretch = Stretch::springs;
  const auto wear = [](const Checked& made) {
    InlineExecutor executor;
    const process::Application bowl = lightener(35);
    const auto moments =
        process::simulate_lift(made.zones[1].members, {&bowl, 1}, bowl.minutes, executor);
    return quantile(moments.back().wear, 0.5);
  };
  EXPECT_GT(wear(after), wear(checked(head, {fine.run}, springs)));
  // On the zone itself it stops everything.
  CheckReading on_zone = looked(20, "lengths", 5);
  on_zone.stretch = Stretch::stays;
  const ZoneRun run{"lengths", false, {{lightener(35), 0}}};
  EXPECT_TRUE(checked(head, {run}, {on_zone}).checks[1].rinse_now);
}

TEST(PlanChecks, a_check_narrows_what_is_left_of_the_run_and_the_same_seed_gives_the_same) {
  const Head head;
  const std::vector<ZoneRun> runs = {{"roots", false, {{lightener(35), 0}}},
                                     {"lengths", false, {{lightener(35), 0}}}};
  const std::vector<CheckReading> readings = {looked(10, "roots", 3.5), looked(15, "roots", 4),
                                              looked(20, "roots", 5)};
  const Checked one = checked(head, runs, readings);
  const auto& ladder = head.known.ladder;
  EXPECT_LT(width(finish(one.zones[0], ladder)), 0.75 * width(finish(head.zones[0], ladder)));
  const auto pool = make_thread_pool(2);
  const auto two = check(head.known, head.zones, runs, readings, *pool);
  ASSERT_TRUE(two.has_value());
  EXPECT_EQ(one.zones[0].members.rate, two->zones[0].members.rate);
  EXPECT_EQ(one.zones[1].members.eumelanin_percent, two->zones[1].members.eumelanin_percent);
}

TEST(PlanChecks, a_wet_look_alone_never_moves_a_stop_later) {
  const Head head;
  const std::vector<ZoneRun> runs = {{"roots", false, {{lightener(35), 0}}}};
  CheckReading wet = looked(20, "roots", 2);
  wet.seen = hair::Moisture::wet;
  const Checked after = checked(head, runs, {wet});
  EXPECT_TRUE(after.checks[0].only_wet);
  ASSERT_EQ(after.without_wet.size(), 2U);
  EXPECT_EQ(never_later(30, 25), 25);
  EXPECT_EQ(never_later(20, 25), 20);
  EXPECT_EQ(never_later(30, std::nullopt), 30);
  const std::vector<CheckReading> dry = {looked(20, "roots", 4)};
  EXPECT_TRUE(checked(head, runs, dry).without_wet.empty());
}

TEST(PlanChecks, readings_that_make_no_sense_are_named) {
  const Head head;
  InlineExecutor executor;
  const auto where = [&](CheckReading reading) {
    const std::vector<CheckReading> readings = {looked(0, "roots", 2), std::move(reading)};
    const std::vector<ZoneRun> runs = {{"roots", false, {{lightener(35), 0}}}};
    const auto made = check(head.known, head.zones, runs, readings, executor);
    EXPECT_FALSE(made.has_value());
    return made.has_value() ? std::string() : made.error().where;
  };
  EXPECT_EQ(where(looked(5, "fringe", 2)), "readings[1].zone");
  EXPECT_EQ(where(looked(5, "roots", 11)), "readings[1].level");
  EXPECT_EQ(where(looked(-1, "roots", 2)), "readings[1].minute");
  CheckReading nothing = looked(5, "roots", 2);
  nothing.level.reset();
  EXPECT_EQ(where(nothing), "readings[1]");
  nothing.tone = "puce";
  EXPECT_EQ(where(nothing), "readings[1].tone");
  CheckReading strand = looked(5, "roots", 2);
  strand.strand_test = true;  // nothing was put on a strand
  EXPECT_EQ(where(strand), "readings[1]");
}

TEST(PlanChecks, a_reading_far_from_all_members_is_not_believed) {
  const Head head;
  const std::vector<ZoneRun> runs = {{"roots", false, {{lightener(35), 0}}}};
  const Checked after = checked(head, runs, {looked(2, "roots", 10)});
  EXPECT_FALSE(after.believable);
  EXPECT_GT(after.forecasts[0].sds_off, 4);
  EXPECT_TRUE(checked(head, runs, {looked(2, "roots", 2)}).believable);
  EXPECT_TRUE(checked(head, runs, {}).believable);
}

TEST(PlanChecks, stretch_is_told_by_its_word) {
  EXPECT_EQ(*stretch_named("springs"), Stretch::springs);
  EXPECT_EQ(*stretch_named("snaps"), Stretch::snaps);
  EXPECT_FALSE(stretch_named("fine").has_value());
  EXPECT_FALSE(tone_words().empty());
}

}  // namespace
}  // namespace hw::plan
