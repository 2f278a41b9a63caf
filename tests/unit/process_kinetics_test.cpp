// Limits and identities that the closed forms of process/kinetics.h and cylinder_series.h must
// keep.
#include <gtest/gtest.h>

#include <cmath>

#include "huewright/base/random.h"
#include "huewright/process/cylinder_series.h"
#include "huewright/process/kinetics.h"

namespace hw::process {
namespace {

TEST(TwoStep, keeps_all_matter_and_starts_whole) {
  const Draws random(3);
  for (std::uint64_t i = 0; i < 500; ++i) {
    const double k1 = std::exp(6 * random.uniform(1, i) - 5);
    const double k2 = std::exp(6 * random.uniform(2, i) - 5);
    const TwoStep at = two_step(k1, k2, 50 * random.uniform(3, i));
    EXPECT_NEAR(at.a + at.b + at.c, 1, 1e-14);
    EXPECT_GE(at.b, 0);
    EXPECT_GE(at.c, -1e-14);
  }
  const TwoStep start = two_step(0.4, 0.02, 0);
  EXPECT_EQ(start.a, 1);
  EXPECT_EQ(start.b, 0);
}

TEST(TwoStep, passes_smoothly_through_equal_rates) {
  const double equal = two_step(0.1, 0.1, 10).b;
  EXPECT_NEAR(equal, std::exp(-1.0), 1e-15);
  for (const double off : {1e-6, 1e-9, 1e-12, 1e-14}) {
    EXPECT_NEAR(two_step(0.1, 0.1 * (1 + off), 10).b, equal, off);
  }
}

TEST(SecondOrder, passes_smoothly_through_equal_amounts) {
  EXPECT_NEAR(second_order_left(1, 1, 0.01, 50), 2.0 / 3, 1e-15);
  EXPECT_NEAR(second_order_left(1, 1 + 1e-9, 0.01, 50), 2.0 / 3, 1e-9);
}

TEST(SecondOrder, leaves_the_surplus_in_the_end) {
  EXPECT_NEAR(second_order_left(3, 1, 1, 100), 2, 1e-12);
  EXPECT_NEAR(second_order_left(1, 3, 1, 100), 0, 1e-12);
}

TEST(Arrhenius, is_one_without_a_step_and_turns_round) {
  EXPECT_EQ(arrhenius_factor(57.6, 22, 22), 1);
  EXPECT_NEAR(arrhenius_factor(57.6, 22, 37) * arrhenius_factor(57.6, 37, 22), 1, 1e-14);
}

TEST(CylinderSeries, a_small_film_transfer_is_a_first_order_uptake) {
  // L → 0: the cylinder is well mixed inside, uptake 1 − e^(−2Lτ); bib: crank_1975 ch. 5.
  for (const double tau : {1.0, 10.0, 100.0}) {
    EXPECT_NEAR(cylinder_uptake_series(tau, 1e-3), 1 - std::exp(-2e-3 * tau), 3e-4);
  }
}

TEST(CylinderSeries, a_large_film_transfer_is_no_resistance) {
  for (const double tau : {0.01, 0.1, 1.0}) {
    EXPECT_NEAR(cylinder_uptake_series(tau, 1e8), cylinder_uptake_series(tau, kNoResistance), 1e-7);
  }
}

TEST(CylinderSeries, uptake_is_the_mean_of_the_strength_inside) {
  constexpr int kRings = 200;
  for (const double biot : {0.5, 5.0, 50.0}) {
    double mean = 0;
    for (int i = 0; i < kRings; ++i) {
      const double rho = (i + 0.5) / kRings;
      mean += 2 * rho * cylinder_strength_series(rho, 0.08, biot) / kRings;
    }
    EXPECT_NEAR(mean, cylinder_uptake_series(0.08, biot), 1e-5) << "L " << biot;
  }
}

TEST(CylinderSeries, a_short_time_sees_a_flat_surface) {
  // 4·√(τ/π) − τ − τ^(3/2)/(3√π): the first terms for small τ; bib: crank_1975 ch. 5.
  for (const double tau : {1e-5, 1e-4, 1e-3}) {
    const double flat =
        4 * std::sqrt(tau / M_PI) - tau - std::pow(tau, 1.5) / (3 * std::sqrt(M_PI));
    EXPECT_NEAR(cylinder_uptake_series(tau, kNoResistance), flat, 1e-6);
  }
}

TEST(CylinderUptake, comes_closer_with_more_steps) {
  for (const double biot : {1.0, 20.0}) {
    const double limit = cylinder_uptake(0.25, biot, 6400);
    double before = 1;
    for (const int steps : {50, 100, 200, 400}) {
      const double error = std::abs(cylinder_uptake(0.25, biot, steps) - limit);
      EXPECT_LT(error, 0.35 * before) << steps << " steps";  // a second-order scheme quarters it
      before = error;
    }
  }
}

}  // namespace
}  // namespace hw::process
