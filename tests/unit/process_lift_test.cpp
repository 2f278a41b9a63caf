// Each law of lift by itself: everything else is switched off, so that the rest has a closed form.
#include <gtest/gtest.h>

#include <functional>

#include "huewright/process/cylinder_series.h"
#include "huewright/process/kinetics.h"
#include "huewright/process/lift.h"
#include "property/process_lift_cases.h"

namespace hw::process {
namespace {

using namespace hw::process::test;

constexpr double kFullPowder = 100.0 / 3;

/// One strand that peroxide fills at once, under a film that neither fades, warms nor wears.
LiftMembers ideal_hair() {
  LiftMembers hair;
  hair.resize(1);
  hair.eumelanin_percent[0] = 1;
  hair.pheomelanin_percent[0] = 0.1;
  LiftConstants& k = hair.constants[0];
  k.activity_min = 1e12;
  k.diffusion_m2_per_s = 1e-8;
  k.opening_power = 0;
  k.wear_per_root_min = 0;
  k.decay_per_min = 0;
  return hair;
}

/// Peroxide enters within the first step of 0.02 min, of which the trapezium rule counts half.
constexpr double kOfFirstStep = 5e-4;  // of an exposure of half an hour

double exposure_of(const LiftMembers& hair, const Application& bowl) {
  return run(hair, {bowl}).back().exposure[0];
}

TEST(Exposure, counts_minutes_of_the_standard_bowl) {
  EXPECT_NEAR(exposure_of(ideal_hair(), bowl_of(4, kFullPowder, 30)) / 30, 1, kOfFirstStep);
  EXPECT_NEAR(exposure_of(ideal_hair(), bowl_of(4, kFullPowder, 45)) / 45, 1, kOfFirstStep);
}

TEST(Exposure, goes_with_the_members_order_in_peroxide) {
  for (const double order : {0.75, 1.0, 1.4}) {
    LiftMembers hair = ideal_hair();
    hair.constants[0].order = order;
    EXPECT_NEAR(exposure_of(hair, bowl_of(6, kFullPowder, 30)) / 30, std::pow(1.5, order),
                2 * kOfFirstStep);
    EXPECT_NEAR(exposure_of(hair, bowl_of(2, kFullPowder, 30)) / 30, std::pow(0.5, order),
                kOfFirstStep);
  }
}

TEST(Exposure, falls_to_the_powderless_rate_in_a_straight_line) {
  LiftMembers hair = ideal_hair();
  hair.constants[0].powderless_rate = 0.2;
  const auto rate = [&](double powder) {
    Application bowl = bowl_of(4, powder, 30);
    bowl.alkaline = true;
    return exposure_of(hair, bowl) / 30;
  };
  EXPECT_NEAR(rate(0), 0.2, 2 * kOfFirstStep);
  EXPECT_NEAR(rate(kFullPowder / 2), 0.6, 2 * kOfFirstStep);
  EXPECT_NEAR(rate(kFullPowder), 1, kOfFirstStep);
  EXPECT_NEAR(rate(50), 0.2 + 0.8 * 1.5, 2 * kOfFirstStep);
  EXPECT_EQ(rate(60), rate(50)) << "thicker than 1:1 was never tried";
}

TEST(Exposure, without_alkali_takes_a_further_factor) {
  LiftMembers hair = ideal_hair();
  hair.constants[0].unbuffered_rate = 0.5;
  Application bowl = bowl_of(3, 0, 30);
  const double without = exposure_of(hair, bowl);
  bowl.alkaline = true;
  EXPECT_NEAR(without / exposure_of(hair, bowl), 0.5, 1e-9);
}

TEST(Exposure, takes_the_q10_of_the_member) {
  for (const double q10 : {1.8, 2.2}) {
    LiftMembers hair = ideal_hair();
    hair.constants[0].q10 = q10;
    Application bowl = bowl_of(4, kFullPowder, 30);
    bowl.temperature_c = 32;
    EXPECT_NEAR(exposure_of(hair, bowl) / 30, q10, 2 * kOfFirstStep);
    bowl.temperature_c = 22;
    hair.warmth_c[0] = 5;  // warmth of the scalp counts as the room's does
    EXPECT_NEAR(exposure_of(hair, bowl) / 30, std::sqrt(q10), 2 * kOfFirstStep);
  }
}

TEST(Exposure, the_mix_warms_itself) {
  LiftMembers hair = ideal_hair();
  hair.constants[0].decay_per_min = 0.01;
  hair.constants[0].heat_loss_min = 10;
  hair.constants[0].q10 = 2;
  // 6.9 K per per cent if all decomposed at once, of which 10 min at 0.01 per min stay.
  const double kelvin = 6.9 * 4 * 0.1;
  EXPECT_NEAR(exposure_of(hair, bowl_of(4, kFullPowder, 30)) / 30, std::pow(2, kelvin / 10),
              2 * kOfFirstStep);
  hair.constants[0].decay_per_min = 0.3;  // more than all cannot decompose
  EXPECT_NEAR(exposure_of(hair, bowl_of(4, kFullPowder, 30)) / 30, std::pow(2, 6.9 * 4 / 10),
              7 * kOfFirstStep);
}

TEST(Exposure, a_head_has_its_own_pace) {
  LiftMembers hair = ideal_hair();
  hair.rate[0] = 1.3;
  EXPECT_NEAR(exposure_of(hair, bowl_of(4, kFullPowder, 30)) / 30, 1.3, 2 * kOfFirstStep);
}

TEST(Exposure, water_in_the_hair_dilutes_peroxide_and_powder) {
  LiftMembers hair = ideal_hair();
  hair.constants[0].order = 1.2;
  hair.constants[0].powderless_rate = 0.1;
  Application damp = bowl_of(4, kFullPowder, 30);
  damp.water_per_hair = 1;  // to 3 g of mix: three quarters are left of everything
  EXPECT_NEAR(exposure_of(hair, damp) / 30, std::pow(0.75, 1.2) * (0.1 + 0.9 * 0.75), kOfFirstStep);
}

/// ∫ of a film that fades with this e-fold time, over 60 min.
double faded(double efold_min) {
  return efold_min * (1 - std::exp(-60 / efold_min));
}

TEST(Activity, fades_by_drying_and_by_itself) {
  LiftMembers hair = ideal_hair();
  hair.constants[0].activity_min = 40;
  hair.constants[0].cover_gain = 2;
  Application bowl = bowl_of(4, kFullPowder, 60);
  EXPECT_NEAR(exposure_of(hair, bowl), faded(40), 0.02);
  bowl.covered = true;  // drying stops, which was half of the loss
  EXPECT_NEAR(exposure_of(hair, bowl), faded(80), 0.02);
  bowl.covered = false;
  bowl.mix_per_hair = 6;  // twice the film dries half as fast
  EXPECT_NEAR(exposure_of(hair, bowl), faded(1 / (1 / 80.0 + 0.5 / 80)), 0.02);
}

TEST(Activity, is_lost_faster_in_the_warm) {
  LiftMembers hair = ideal_hair();
  hair.constants[0].activity_min = 40;
  hair.constants[0].cover_gain = 2;
  hair.constants[0].q10 = 1;
  Application bowl = bowl_of(4, kFullPowder, 60);
  bowl.covered = true;
  bowl.temperature_c = 32;
  EXPECT_NEAR(exposure_of(hair, bowl), faded(80 / arrhenius_factor(57.6, 22, 32)), 0.02);
}

TEST(Activity, is_whole_again_in_a_fresh_bowl) {
  LiftMembers hair = ideal_hair();
  hair.constants[0].activity_min = 40;
  const auto half = bowl_of(4, kFullPowder, 60);
  EXPECT_NEAR(run(hair, {half, half}).back().exposure[0], 2 * faded(40), 0.04);
}

constexpr double kPlenty = 1e6;  // g of mix per g of hair: wear takes nothing noticeable from it

TEST(Access, fills_the_strand_as_the_exact_series_says) {
  // Wear exposure is the cross-section mean of peroxide over time: x² = κ²·∫ uptake dt.
  for (const double um : {50.0, 90.0}) {
    for (const double cuticle_um : {0.5, 5.0}) {
      LiftMembers hair = ideal_hair();
      LiftConstants& k = hair.constants[0];
      k.diffusion_m2_per_s = 1.2e-13;
      k.cuticle_um = cuticle_um;
      k.wear_per_root_min = 1e-4;  // far from the cap
      hair.strand_um[0] = um;
      hair.opened[0] = 2;
      Application bowl = bowl_of(4, kFullPowder, 30);
      bowl.temperature_c = 30;
      bowl.mix_per_hair = kPlenty;
      k.q10 = 1;
      const double radius_um = um / 2;
      const double tau_per_min = 1.2e-13 * 2 * 60 / (radius_um * radius_um * 1e-12) *
                                 arrhenius_factor(k.diffusion_kj_per_mol, 25, 30);
      double exact = 0;
      constexpr int kSlices = 60;
      for (int i = 0; i < kSlices; ++i) {
        const double minute = 30 * (i + 0.5) / kSlices;
        exact +=
            30.0 / kSlices * cylinder_uptake_series(tau_per_min * minute, radius_um / cuticle_um);
      }
      const double x = run(hair, {bowl}).back().wear[0];
      EXPECT_NEAR(x * x / 1e-8, exact, 0.02) << um << " um, cuticle " << cuticle_um;
    }
  }
}

TEST(Access, weighs_the_outer_pigment_as_stated) {
  // Granules per cross-section go as the square of the radius: weight 4ρ³ dρ.
  LiftMembers hair = ideal_hair();
  LiftConstants& k = hair.constants[0];
  k.diffusion_m2_per_s = 1.2e-13;
  k.diffusion_kj_per_mol = 0;
  k.cuticle_um = 1;
  hair.strand_um[0] = 80;
  const double tau_per_min = 1.2e-13 * 60 / (40 * 40 * 1e-12);
  double exact = 0;
  constexpr int kSlices = 40;
  constexpr int kRings = 20;
  for (int i = 0; i < kSlices; ++i) {
    for (int j = 0; j < kRings; ++j) {
      const double rho = (j + 0.5) / kRings;
      exact += 20.0 / kSlices * 4 * rho * rho * rho / kRings *
               cylinder_strength_series(rho, tau_per_min * 20 * (i + 0.5) / kSlices, 40);
    }
  }
  EXPECT_NEAR(exposure_of(hair, bowl_of(4, kFullPowder, 20)), exact, 0.03);
}

TEST(Pigment, follows_the_closed_forms_in_exposure) {
  LiftMembers hair = ideal_hair();
  EXPECT_EQ(run(hair, {bowl_of(4, kFullPowder, 60)}, 5).back().dye_left[0], 1) << "none to lose";
  hair.dyes = {{hair::old_colour_absorption("red"), {1}}};
  const LiftConstants& k = hair.constants[0];
  for (const LiftMoment& moment : run(hair, {bowl_of(4, kFullPowder, 60)}, 5)) {
    const double minutes = moment.exposure[0];
    const TwoStep exact = two_step(k.dark_rate_per_min, k.warm_rate_per_min, minutes);
    EXPECT_NEAR(moment.eumelanin_left[0], exact.a, 1e-5);
    EXPECT_NEAR(moment.warm[0], k.warm_yield * exact.b, 1e-5);
    EXPECT_NEAR(moment.pheomelanin_left[0], std::exp(-k.warm_rate_per_min * minutes), 1e-5);
    EXPECT_NEAR(moment.dye_left[0], std::exp(-k.dye_rate_ratio * k.dark_rate_per_min * minutes),
                1e-5);
  }
}

TEST(Wear, ignores_powder_and_the_pace_of_lift) {
  LiftMembers hair = ideal_hair();
  hair.constants[0].wear_per_root_min = 0.01;
  Application bowl = bowl_of(4, kFullPowder, 30);
  bowl.mix_per_hair = kPlenty;
  const double with = run(hair, {bowl}).back().wear[0];
  EXPECT_NEAR(with, 0.01 * std::sqrt(30), 3e-5);
  bowl.powder_percent = 0;
  EXPECT_EQ(run(hair, {bowl}).back().wear[0], with);
  hair.rate[0] = 2;
  EXPECT_EQ(run(hair, {bowl}).back().wear[0], with);
}

TEST(Wear, adds_in_exposure_over_the_life_of_the_fibre) {
  LiftMembers hair = ideal_hair();
  hair.constants[0].wear_per_root_min = 0.01;
  hair.wear[0] = 0.1;
  Application bowl = bowl_of(4, kFullPowder, 30);
  bowl.mix_per_hair = kPlenty;
  EXPECT_NEAR(run(hair, {bowl, bowl}).back().wear[0], std::sqrt(0.01 + 1e-4 * 60), 1e-4);
  hair.wear[0] = 0.449;
  EXPECT_EQ(run(hair, {bowl, bowl}).back().wear[0], kWearCap);
}

TEST(Wear, takes_five_peroxide_for_each_cystine_from_the_bowl) {
  // The film weakens by u·x, and x² = κ²·θ with dθ/dt = 1 − u·x:  t = −2/(uκ)²·(s + ln(1 − s)),
  // s = uκ√θ. 1 g of 4 % holds 40/34.015 mmol, and a gram of hair 0.73 mmol of cystine.
  LiftMembers hair = ideal_hair();
  const double kappa = 0.02;
  hair.constants[0].wear_per_root_min = kappa;
  Application bowl = bowl_of(4, kFullPowder, 45);
  bowl.mix_per_hair = 1;
  const double u = 5 * 0.73 / (40 / 34.015);
  const double s = u * run(hair, {bowl}).back().wear[0];
  EXPECT_NEAR(-2 / (u * kappa * u * kappa) * (s + std::log(1 - s)), 45, 0.1);
}

TEST(Moments, are_the_start_each_multiple_and_each_end) {
  const LiftMembers hair = ideal_hair();
  const auto moments = run(hair, {bowl_of(4, kFullPowder, 25), bowl_of(4, kFullPowder, 10)}, 10);
  const struct {
    std::size_t application;
    double minute, total;
  } rows[] = {{1, 0, 0}, {1, 10, 10}, {1, 20, 20}, {1, 25, 25}, {2, 10, 35}};
  ASSERT_EQ(moments.size(), std::size(rows));
  for (std::size_t i = 0; i < moments.size(); ++i) {
    EXPECT_EQ(moments[i].application, rows[i].application);
    EXPECT_EQ(moments[i].minute, rows[i].minute);
    EXPECT_EQ(moments[i].minute_total, rows[i].total);
  }
}

TEST(Moments, begin_with_hair_as_it_is) {
  const Case c = random_case(4, 70);
  const LiftMoment first = run(c.hair, {c.bowl})[0];
  const LiftMoment start = starting_moment(c.hair);
  EXPECT_EQ(first.wear, start.wear);
  EXPECT_EQ(first.opened, start.opened);
  for (std::size_t m = 0; m < 70; ++m) {
    EXPECT_NEAR(first.eumelanin_left[m], 1, 1e-14);
    EXPECT_NEAR(first.warm[m], 0, 1e-14);
    EXPECT_EQ(first.exposure[m], 0);
  }
}

TEST(Moments, a_bowl_of_no_minutes_changes_nothing) {
  const Case c = random_case(8, 3);
  Application none = c.bowl;
  none.minutes = 0;
  const auto moments = run(c.hair, {none});
  ASSERT_EQ(moments.size(), 2U);
  EXPECT_EQ(moments[1].eumelanin_left, moments[0].eumelanin_left);
  EXPECT_EQ(moments[1].wear, moments[0].wear);
}

TEST(OldColour, goes_with_its_own_pool) {
  LiftMembers hair = hair_of_level(64, 5);
  hair.dyes = {{hair::old_colour_absorption("neutral"), std::vector<double>(64, 60.0)}};
  const auto moments = run(hair, {bowl_of(4, kFullPowder, 30)}, 10);
  const auto dyed = lstars_of(hair, moments[0]);
  const LiftMembers plain = hair_of_level(64, 5);
  const auto undyed = lstars_of(plain, moments[0]);
  const auto after = lstars_of(hair, moments.back());
  for (std::size_t m = 0; m < 64; ++m) {
    EXPECT_LT(dyed[m], undyed[m]);
    EXPECT_GT(after[m], dyed[m]);
    EXPECT_GE(moments.back().dye_left[m], moments.back().eumelanin_left[m] - 1e-12);
  }
}

TEST(CanvasAfter, starts_with_the_colours_the_lift_left) {
  const Case c = random_case(3, 20);
  const auto end = run(c.hair, {c.bowl}).back();
  const LiftMembers canvas = canvas_after(c.hair, end);
  const auto left = labs_of(c.hair, end);
  const auto found = labs_of(canvas, starting_moment(canvas));
  for (std::size_t m = 0; m < 20; ++m) {
    EXPECT_NEAR(found[m].l, left[m].l, 1e-9);
    EXPECT_NEAR(found[m].a, left[m].a, 1e-9);
    EXPECT_NEAR(found[m].b, left[m].b, 1e-9);
  }
  EXPECT_EQ(canvas.wear, end.wear);
  EXPECT_EQ(canvas.opened, end.opened);
}

TEST(ExactHair, returns_the_colour_it_was_asked_for) {
  for (const double lstar : {15.0, 18.0, 18.6, 22.0, 43.0, 70.0}) {
    const auto exact = exact_hair(lstar, kPheomelaninShare, Micrometres{73});
    ASSERT_TRUE(exact.has_value()) << lstar;
    const LiftMembers hair = hair_of(1, lstar, 73);
    EXPECT_NEAR(mean_lstar(hair, starting_moment(hair)), lstar, 1e-6);
    EXPECT_LE(exact->melanin_percent, hair::kMelaninMax + 1e-9);
    EXPECT_LE(exact->surface_term, hair::kSurfaceTerm);
  }
}

TEST(ExactHair, refuses_what_hair_cannot_show) {
  EXPECT_FALSE(exact_hair(13, kPheomelaninShare, Micrometres{73}).has_value());
  EXPECT_FALSE(exact_hair(101, kPheomelaninShare, Micrometres{73}).has_value());
  EXPECT_FALSE(exact_hair(std::nan(""), kPheomelaninShare, Micrometres{73}).has_value());
}

}  // namespace
}  // namespace hw::process
