// Uptake against published runs, the exact series and the measured opening of bleached hair.
#include <cmath>

#include "huewright/base/statistics.h"
#include "huewright/process/cylinder_series.h"
#include "huewright/process/uptake.h"
#include "support/reference.h"

namespace hw::process {
namespace {

using test::test_table;

LiftMembers intact(std::size_t members = 1) {
  LiftMembers hair;
  hair.resize(members);
  for (double& um : hair.strand_um) um = 70;
  return hair;
}

TEST(UptakePublished, thirty_two_runs_give_the_paper_s_own_equations) {
  const UptakeEffects effects = uptake_effects();
  const test::Source source{"uptake_runs_1967", "pp. 26-27"};
  EXPECT_PUBLISHED("uptake runs: pH with salt", source, 0.62, effects.ph_salt, 0.02);
  EXPECT_PUBLISHED("uptake runs: dye with warmth", source, 0.35, effects.dye_warm, 0.02);
  EXPECT_PUBLISHED("uptake runs: salt", source, 1.02, effects.salt, 0.02);
  EXPECT_PUBLISHED("uptake runs: normal hair", source, 4.80, effects.mean - effects.permed, 0.03);
  EXPECT_PUBLISHED("uptake runs: permed hair", source, 3.90, effects.mean + effects.permed, 0.03);
  EXPECT_PUBLISHED("uptake runs: warmth, normal hair", source, 0.84,
                   effects.warm - effects.warm_permed, 0.02);
  EXPECT_PUBLISHED("uptake runs: warmth, permed hair", source, -0.06,
                   effects.warm + effects.warm_permed, 0.02);
  EXPECT_PUBLISHED_RANGE("rate with 6 % salt over that without", source, 1.2, 1.9,
                         effects.salt_ratio());
  EXPECT_PUBLISHED_RANGE("rate at 40 over 20 degC, permed hair", source, 0.73, 1.29,
                         effects.warm_ratio(true));
  EXPECT_LT(effects.diethanolamide, 0);
  EXPECT_LT(effects.morpholine, 0);
}

TEST(UptakePublished, warmth_speeds_uptake_as_the_runs_did) {
  // 95 % range of the published runs, 1.13 to 1.81; the law is drawn through their middle.
  const test::Source source{"uptake_runs_1967", "pp. 26-27"};
  const double published = uptake_effects().warm_ratio(false);
  EXPECT_PUBLISHED("rate at 40 over 20 degC, normal hair", source, 1.42, published, 0.01);
  for (const double minutes : {5.0, 15.0, 30.0}) {
    DepositBowl bowl;
    bowl.dye_class = DyeClass::direct;
    bowl.minutes = minutes;
    bowl.temperature_c = 20;
    const double cool = uptake(intact(), bowl)[0];
    bowl.temperature_c = 40;
    EXPECT_PUBLISHED_RANGE("direct dye, intact hair, 40 over 20 degC, by the law", source, 1.13,
                           1.81, uptake(intact(), bowl)[0] / cool);
    LiftMembers open = intact();
    open.dye_opened = {8};
    const double warm = uptake(open, bowl)[0];
    bowl.temperature_c = 20;
    EXPECT_PUBLISHED_RANGE("direct dye, open hair, 40 over 20 degC, by the law", source, 0.73, 1.29,
                           warm / uptake(open, bowl)[0]);
  }
}

TEST(UptakePublished, an_hour_of_peroxide_and_half_an_hour_of_cream_open_hair_for_a_dye) {
  InlineExecutor executor;
  const auto opened_by = [&](double peroxide, double powder, double minutes) {
    LiftMembers hair = intact(64);
    hair.constants.assign(strip_test_draws().begin(), strip_test_draws().begin() + 64);
    Application bath;
    bath.peroxide_percent = peroxide;
    bath.powder_percent = powder;
    bath.mix_per_hair = 20;  // the hair lay in a bath
    bath.minutes = minutes;
    const auto end = simulate_lift(hair, {&bath, 1}, minutes, executor).back();
    for (const double opened : end.dye_opened) EXPECT_GE(opened, 1);
    return quantile(end.dye_opened, 0.5);
  };
  const test::Source source{"tate_kamath_1993", "p. 357, Table III"};
  EXPECT_PUBLISHED_RANGE("diffusion of uranin after an hour of 6 % peroxide, over intact hair",
                         source, 1.7, 2.9, opened_by(6, 0, 60));
  // Bleach cream: a 1:1 bowl with 6 %; full penetration bounds it from below, Table III names 12.6.
  EXPECT_PUBLISHED_RANGE("diffusion of uranin after half an hour of bleach cream", source, 4, 12.6,
                         opened_by(4, 100.0 / 3, 30));
}

TEST(UptakeTable, holds_the_exact_series_and_stays_near_it_between) {
  for (int i = 0; i < 24; ++i) {
    for (int j = 0; j < 7; ++j) {
      const double tau = 3.1e-4 * std::pow(10, 4.1 * i / 24.0);
      const double biot = 0.55 * std::pow(2, j * 1.24);
      const double exact = cylinder_uptake_series(tau, biot);
      EXPECT_NEAR(tabled_uptake(tau, biot) / exact, 1, 0.01) << tau << " " << biot;
    }
  }
  for (const double tau : {1e-4, 0.01, 0.1, 1.0}) {  // points of the grid
    EXPECT_NEAR(tabled_uptake(tau, 8), cylinder_uptake_series(tau, 8), 1e-8);
  }
  EXPECT_EQ(tabled_uptake(0, 8), 0);
  EXPECT_GT(tabled_uptake(1e-6, 8), 0);
  EXPECT_EQ(tabled_uptake(100, 8), tabled_uptake(6, 8));
}

TEST(UptakeLaw, reference_application_takes_exactly_one) {
  for (const DyeClass dye_class :
       {DyeClass::direct, DyeClass::cationic, DyeClass::demi, DyeClass::permanent}) {
    const ClassFacts& facts = class_facts(dye_class);
    LiftMembers hair = intact(64);
    hair.dye_opened.assign(64, facts.swatch_opened);
    for (double& wear : hair.wear) wear = facts.swatch_wear;
    DepositBowl bowl;
    bowl.dye_class = dye_class;
    bowl.minutes = facts.label_min;
    bowl.developer_parts = bowl.label_parts = facts.developer_parts;
    for (const double taken : uptake(hair, bowl, Draws(3))) EXPECT_NEAR(taken, 1, 1e-12);
  }
}

TEST(UptakeLaw, oxidative_mixes_hardly_go_on_after_half_an_hour) {
  // A tint stops working at about 30 min: a question-and-answer page, common practice.
  DepositBowl bowl;
  bowl.dye_class = DyeClass::permanent;
  const auto at = [&](double minutes) {
    bowl.minutes = minutes;
    return uptake(intact(), bowl)[0];
  };
  EXPECT_LT(at(90) / at(45), 1.25);
  EXPECT_GT(at(45) / at(20), 1.15);
}

TEST(UptakeLaw, draws_lie_round_the_middle_and_repeat) {
  const auto draws = draw_uptake(Draws(5), 4096);
  EXPECT_EQ(draws[7].biot_factor, draw_uptake(Draws(5), 8)[7].biot_factor);
  std::vector<double> energies;
  for (const UptakeConstants& k : draws) energies.push_back(k.kj_per_mol);
  EXPECT_NEAR(quantile(energies, 0.5), central_uptake().kj_per_mol, 1);
  EXPECT_NEAR(quantile(energies, 0.9), 40, 2);
  EXPECT_NEAR(quantile(energies, 0.1), 16, 1);
}

}  // namespace
}  // namespace hw::process
