#include "huewright/process/kinetics.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "huewright/base/elementary.h"
#include "lift_kernel.h"

namespace hw::process {

TwoStep two_step(double k1, double k2, double t) {
  const double a = std::exp(-k1 * t);
  const double gap = (k1 - k2) * t;
  // (1 − e^(−gap))/gap, continued through 0 where the rates are equal.
  const double mean_factor = std::abs(gap) < 1e-12 ? 1.0 : -std::expm1(-gap) / gap;
  const double b = k1 * t * std::exp(-k2 * t) * mean_factor;
  return {a, b, 1 - a - b};
}

double second_order_left(double a0, double b0, double k, double t) {
  // a = a0 (a0 − b0)/(a0 − b0 e^(−(a0−b0)kt)); divided through by (a0 − b0), which may be 0.
  const double gap = (a0 - b0) * k * t;
  const double mean_factor = std::abs(gap) < 1e-12 ? 1.0 : -std::expm1(-gap) / gap;
  return a0 / (1 + b0 * k * t * mean_factor);
}

double arrhenius_factor(double kj_per_mol, double from_c, double to_c) {
  constexpr double kGasConstant = 8.314462618;  // J/mol/K, CODATA 2018 (exact)
  constexpr double kZeroCelsius = 273.15;       // K, exact
  return exp_portable(kj_per_mol * 1000 / kGasConstant *
                      (1 / (from_c + kZeroCelsius) - 1 / (to_c + kZeroCelsius)));
}

double cylinder_uptake(double tau, double biot, int steps) {
  auto block = std::make_unique<LiftBlock>();
  auto lanes = std::make_unique<LiftLanes>();
  for (std::size_t m = 0; m < kLanes; ++m) {
    lanes->film_percent[m] = 1;
    lanes->access_per_min[m] = 1;  // time is already in units of a²/D
    lanes->film_gap[m] = 1 / biot;
    block->activity[m] = 1;
  }
  // Steps grow as the profile flattens, so the steep start is resolved. However many there are, the
  // last is about e^8 times the first: more steps are then shorter everywhere, and the error falls.
  constexpr double kLogLastOverFirst = 8;
  const double growth = std::exp(kLogLastOverFirst / steps);
  std::vector<double> dt;
  double total = 0;
  double next = 1;
  for (int i = 0; i < steps; ++i, next *= growth) {
    dt.push_back(next);
    total += next;
  }
  for (double& step : dt) step *= tau / total;
  lift_steps(*block, *lanes, radial_grid(), dt.data(), dt.size());
  double uptake = 0;
  for (std::size_t i = 0; i < kCells; ++i) {
    uptake += 2 * radial_grid().volume[i] * block->peroxide[i][0];
  }
  return uptake;
}

}  // namespace hw::process
