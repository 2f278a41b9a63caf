#include "huewright/process/dry.h"
#include "support/reference.h"

namespace hw::process {
namespace {

const test::Source kPractice{"common practice, no source", ""};

Band minutes(const HoodTask& task) {
  const auto band = hood_minutes(task);
  EXPECT_TRUE(band.has_value());
  return band.value_or(Band{});
}

/// A head that was twisted damp with leave-in and foam: where a hood starts.
HoodTask twisted_head(double hair_g) {
  HoodTask task;
  task.hair_g = hair_g;
  task.water = water_held(Wetness::damp);
  task.leave_in_g = 0.15 * hair_g;
  task.foam_g = 45;
  return task;
}

TEST(ProcessDry, water_at_saturation_and_between_the_fibres) {
  const test::Source syed{"syed_ayoub_2002", "abstract: water at saturation"};
  const double bound = 0.6 - free_water(0.6);
  EXPECT_PUBLISHED("bound water at saturation [g/g]", syed, 0.31, bound, 0.02);
  const Band wet = water_held(Wetness::dripping);
  const test::Source packing{"own derivation",
                             "bound 0.31 and free 0.34 to 0.83 at packing 0.75 to 0.55"};
  EXPECT_PUBLISHED("wet, drained hair, low [g/g]", packing, 0.31 + 0.34, wet.low, 0.01);
  EXPECT_PUBLISHED("wet, drained hair, high [g/g]", packing, 0.31 + 0.83, wet.high, 0.02);
}

TEST(ProcessDry, free_water_between_packed_fibres_follows_from_packing) {
  // Free water = (1 − p)/p of the wet fibre's volume; wet fibre 1.31 g/g over 1.32 g/cm³ and water.
  const auto free_at = [](double packing) { return (1 - packing) / packing * (1 / 1.32 + 0.31); };
  const test::Source packing{"own derivation", "(1 - p)/p of the wet fibre's volume"};
  EXPECT_PUBLISHED("free water at packing 0.75 [g/g]", packing, 0.34, free_at(0.75), 0.03);
  EXPECT_PUBLISHED("free water at packing 0.55 [g/g]", packing, 0.83, free_at(0.55), 0.06);
}

TEST(ProcessDry, drier_states_hold_less_and_lightened_hair_holds_more) {
  Band last{9, 9, 9};
  for (const Wetness wetness :
       {Wetness::dripping, Wetness::towel_dry, Wetness::damp, Wetness::room_dry}) {
    const Band now = water_held(wetness);
    EXPECT_LE(now.low, now.mid);
    EXPECT_LE(now.mid, now.high);
    EXPECT_LT(now.mid, last.mid) << name_of(wetness);
    EXPECT_GE(water_held(wetness, 1.9).mid, now.mid) << name_of(wetness);
    last = now;
  }
  const double more = free_water(water_held(Wetness::towel_dry, 1.9).mid) /
                      free_water(water_held(Wetness::towel_dry).mid);
  EXPECT_PUBLISHED_RANGE("free water of lightened over untouched hair [1]",
                         {"mea_2010", "receding angle 60 to 3 degrees; share is a guess"}, 1.1, 1.3,
                         more);
  EXPECT_EQ(water_held(Wetness::towel_dry, 12).mid, water_held(Wetness::towel_dry, 1.9).mid);
  EXPECT_EQ(water_held(Wetness::towel_dry, 0.5).mid, water_held(Wetness::towel_dry).mid);
}

TEST(ProcessDry, two_answers_on_towel_dry_hair_are_one_water_counted_twice) {
  const Band towel = water_held(Wetness::towel_dry);
  EXPECT_EQ(towel.low, 0.5);
  EXPECT_EQ(towel.high, 0.7);
  EXPECT_PUBLISHED("water of towel-dry hair that thins a mix [g/g]", {"from memory", ""}, 0.3,
                   free_water(towel.mid), 0.05);
}

TEST(ProcessDry, heat_balance_of_a_hundred_grams) {
  // From 0.6 to 0.15 g/g evaporates 45 g; at 2.42 kJ/g that is 109 kJ, 30 min at 60 W and 12 at
  // 150.
  const test::Source balance{"own derivation", "h A dT of 60 W and 150 W"};
  const double joules = 45 * 2420;
  EXPECT_PUBLISHED("30 minutes at 60 W [min]", balance, 30, joules / 60 / 60, 1);
  EXPECT_PUBLISHED("12 minutes at 150 W [min]", balance, 12, joules / 150 / 60, 1);
  HoodTask loose;
  loose.twisted = false;
  const Band band = minutes(loose);
  EXPECT_GT(band.high, 30);  // slower at the end than the balance alone
  EXPECT_LT(band.low, 30);
  EXPECT_NEAR(band.mid, 29, 0.5);
}

TEST(ProcessDry, small_twists_take_the_trade_s_hood_time) {
  const Band usual = minutes(twisted_head(100));
  EXPECT_PUBLISHED_RANGE("hood, 100 g in small twists, likely [min]", kPractice, 45, 90, usual.mid);
  EXPECT_PUBLISHED_RANGE("hood, dense or long hair of 200 g, likely [min]", kPractice, 80, 120,
                         minutes(twisted_head(200)).mid);
  EXPECT_LT(usual.low, 50);
  EXPECT_GT(usual.high, 85);
}

TEST(ProcessDry, more_hair_more_water_and_cooler_air_never_dry_sooner) {
  HoodTask task = twisted_head(100);
  const Band before = minutes(task);
  const auto longer_with = [&](auto change) {
    HoodTask other = task;
    change(other);
    const Band after = minutes(other);
    EXPECT_LT(before.mid, after.mid);
    EXPECT_LT(before.low, after.low);
    EXPECT_LT(before.high, after.high);
  };
  longer_with([](HoodTask& t) { t.hair_g = 130, t.leave_in_g = 0.15 * 130; });
  longer_with([](HoodTask& t) { t.water = water_held(Wetness::towel_dry); });
  longer_with([](HoodTask& t) { t.water = water_held(Wetness::damp, 1.9); });
  longer_with([](HoodTask& t) { t.foam_g = 60; });
  longer_with([](HoodTask& t) { t.air_c = 45; });
  longer_with([](HoodTask& t) { t.salon_factor = 1.3; });
  task.twisted = false;
  EXPECT_LT(minutes(task).mid, before.mid);
}

TEST(ProcessDry, dry_hair_needs_no_hood) {
  HoodTask task;
  task.water = {0.1, 0.11, 0.12};
  EXPECT_EQ(minutes(task).high, 0);
  task.water = {0.11, 0.13, 0.5};
  const Band barely = minutes(task);
  EXPECT_GT(barely.mid, 0);
  EXPECT_LE(barely.low, barely.mid);
  EXPECT_LE(barely.mid, barely.high);
}

TEST(ProcessDry, out_of_range_names_the_key) {
  const auto fault = [](auto change) {
    HoodTask task;
    change(task);
    const auto result = hood_minutes(task);
    return result ? std::string("none") : result.error().where;
  };
  EXPECT_EQ(fault([](HoodTask&) {}), "none");
  EXPECT_EQ(fault([](HoodTask& t) { t.hair_g = 0; }), "hood.hair_g");
  EXPECT_EQ(fault([](HoodTask& t) { t.hair_g = std::nan(""); }), "hood.hair_g");
  EXPECT_EQ(fault([](HoodTask& t) { t.air_c = 66; }), "hood.air_c");
  EXPECT_EQ(fault([](HoodTask& t) { t.air_c = 34; }), "hood.air_c");
  EXPECT_EQ(fault([](HoodTask& t) { t.foam_g = -1; }), "hood.foam_g");
  EXPECT_EQ(fault([](HoodTask& t) { t.leave_in_g = -1; }), "hood.leave_in_g");
  EXPECT_EQ(fault([](HoodTask& t) { t.salon_factor = 0; }), "hood.salon_factor");
  EXPECT_EQ(fault([](HoodTask& t) { t.water = {0.7, 0.6, 0.5}; }), "hood.water");
}

}  // namespace
}  // namespace hw::process
