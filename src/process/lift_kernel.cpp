#include "lift_kernel.h"

#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"

// Tests compile this file again for single instruction sets under other names and compare bits.
#ifndef HW_LIFT_STEPS
#define HW_LIFT_STEPS lift_steps
#define HW_PIGMENT_MEANS pigment_means
#endif

namespace hw::process {
namespace {

constexpr std::size_t kLast = kCells - 1;
constexpr double kWearMost = 0.45;  // kWearCap of lift.h

/// What one step works on; spare rows as in LiftBlock.
struct Scratch {
  alignas(64) double upper[kRows][kLanes];
  alignas(64) double lambda[kLanes];  ///< D·dt/R²
  alignas(64) double film[kLanes];    ///< active peroxide outside [%]
  alignas(64) double mean[kLanes];
};

/// Second-order backward differences for steps of unequal length:
///   now·c − last·c₋₁ + older·c₋₂ = dt·dc/dt
/// The first step of a bowl has nothing behind it: ratio 0 makes it an implicit Euler step.
struct Weights {
  double now, last, older;
};
[[gnu::always_inline]] inline Weights weights_of(double dt, double dt_before) {
  const double ratio = dt_before > 0 ? dt / dt_before : 0;
  return {(1 + 2 * ratio) / (1 + ratio), 1 + ratio, ratio * ratio / (1 + ratio)};
}

/// Film and access at the end of the step; wear exposure is foreseen from the step before.
[[gnu::always_inline]] inline void foresee(LiftBlock& block, const LiftLanes& lanes, double dt,
                                           Scratch& s) {
  for (std::size_t m = 0; m < kLanes; ++m) {
    block.activity[m] *= exp_portable(-dt * lanes.loss_per_min[m]);
    const double ahead = dt * lanes.wear_rate[m] * block.mean_peroxide[m];
    const double theta = block.theta[m] + ahead;
    const double omega = block.omega[m] + ahead * lanes.powder_share[m];
    const double worn = std::sqrt(lanes.wear_start_sq[m] + lanes.kappa_sq[m] * theta);
    const double wear = worn < kWearMost ? worn : kWearMost;
    double unused = 1 - lanes.used_per_wear[m] * (wear - lanes.wear_at_mixing[m]);
    unused = unused < 0 ? 0 : unused;
    s.film[m] = lanes.film_percent[m] * block.activity[m] * unused;
    s.lambda[m] = dt * lanes.access_per_min[m] *
                  opening(lanes.open_peroxide[m], lanes.open_powder[m], theta, omega);
  }
}

/// Thomas elimination from the axis outwards, all cells but the outermost. The right-hand sides
/// stand where the peroxide was: one array less keeps a block in the first-level cache.
[[gnu::always_inline]] inline void eliminate(LiftBlock& block, const RadialGrid& grid,
                                             const Weights& w, Scratch& s) {
  for (std::size_t m = 0; m < kLanes; ++m) {
    const double out = s.lambda[m] * grid.conductance[1];
    const double pivot = 1 / (w.now * grid.volume[0] + out);
    const double before = block.peroxide[0][m];
    const double known = w.last * before - w.older * block.older[0][m];
    block.older[0][m] = before;
    s.upper[0][m] = out * pivot;
    block.peroxide[0][m] = grid.volume[0] * known * pivot;
  }
  for (std::size_t i = 1; i < kLast; ++i) {
    const double volume = grid.volume[i];
    const double inner = grid.conductance[i];
    const double outer = grid.conductance[i + 1];
    for (std::size_t m = 0; m < kLanes; ++m) {
      const double in = s.lambda[m] * inner;
      const double out = s.lambda[m] * outer;
      const double pivot = 1 / (w.now * volume + out + in * (1 - s.upper[i - 1][m]));
      const double before = block.peroxide[i][m];
      const double known = w.last * before - w.older * block.older[i][m];
      block.older[i][m] = before;
      s.upper[i][m] = out * pivot;
      block.peroxide[i][m] = (volume * known + in * block.peroxide[i - 1][m]) * pivot;
    }
  }
}

/// Outermost cell, then back to the axis. A film that turns weak at once can make the solution
/// undershoot; peroxide is never below 0.
[[gnu::always_inline]] inline void substitute(LiftBlock& block, const LiftLanes& lanes,
                                              const RadialGrid& grid, double dt, const Weights& w,
                                              Scratch& s) {
  const double last_volume = grid.volume[kLast];
  for (std::size_t m = 0; m < kLanes; ++m) {
    const double in = s.lambda[m] * grid.conductance[kLast];
    // The film stands behind half a cell and the cuticle.
    const double out = s.lambda[m] / (grid.last_gap + lanes.film_gap[m]);
    const double pivot = 1 / (w.now * last_volume + out + in * (1 - s.upper[kLast - 1][m]));
    const double before = block.peroxide[kLast][m];
    const double known = w.last * before - w.older * block.older[kLast][m];
    const double solved =
        (last_volume * known + in * block.peroxide[kLast - 1][m] + out * s.film[m]) * pivot;
    const double now = solved < 0 ? 0 : solved;
    block.older[kLast][m] = before;
    block.peroxide[kLast][m] = now;
    block.exposure[kLast][m] += 0.5 * dt * lanes.lift_rate[m] * (before + now);
    s.mean[m] = 2 * last_volume * now;
  }
  for (std::size_t i = kLast; i-- > 0;) {
    const double volume = grid.volume[i];
    for (std::size_t m = 0; m < kLanes; ++m) {
      const double solved = block.peroxide[i][m] + s.upper[i][m] * block.peroxide[i + 1][m];
      const double now = solved < 0 ? 0 : solved;
      block.peroxide[i][m] = now;
      block.exposure[i][m] += 0.5 * dt * lanes.lift_rate[m] * (block.older[i][m] + now);
      s.mean[m] += 2 * volume * now;
    }
  }
}

[[gnu::always_inline]] inline void wear_down(LiftBlock& block, const LiftLanes& lanes, double dt,
                                             const Scratch& s) {
  for (std::size_t m = 0; m < kLanes; ++m) {
    const double worn = 0.5 * dt * lanes.wear_rate[m] * (block.mean_peroxide[m] + s.mean[m]);
    block.mean_peroxide[m] = s.mean[m];
    block.theta[m] += worn;
    block.omega[m] += worn * lanes.powder_share[m];
    const double x = std::sqrt(lanes.wear_start_sq[m] + lanes.kappa_sq[m] * block.theta[m]);
    block.wear[m] = x < kWearMost ? x : kWearMost;
  }
}

}  // namespace

HW_KERNEL void HW_LIFT_STEPS(LiftBlock& block, const LiftLanes& lanes, const RadialGrid& grid,
                             const double* dt_min, std::size_t count) {
  Scratch scratch;
  for (std::size_t step = 0; step < count; ++step) {
    const double dt = dt_min[step];
    const Weights weights = weights_of(dt, block.dt_before);
    block.dt_before = dt;
    foresee(block, lanes, dt, scratch);
    eliminate(block, grid, weights, scratch);
    substitute(block, lanes, grid, dt, weights, scratch);
    wear_down(block, lanes, dt, scratch);
  }
}

HW_KERNEL void HW_PIGMENT_MEANS(PigmentLanes& lanes, const LiftBlock& block,
                                const RadialGrid& grid) {
  alignas(64) double dark[kLanes] = {};
  alignas(64) double warm_like[kLanes] = {};
  alignas(64) double dye[kLanes] = {};
  alignas(64) double exposure[kLanes] = {};
  for (std::size_t i = 0; i < kCells; ++i) {
    const double share = grid.pigment[i];
    for (std::size_t m = 0; m < kLanes; ++m) {
      const double minutes = block.exposure[i][m];
      exposure[m] += share * minutes;
      dark[m] += share * exp_portable(-lanes.dark_rate[m] * minutes);
      warm_like[m] += share * exp_portable(-lanes.warm_rate[m] * minutes);
    }
    if (!lanes.any_dye) continue;
    for (std::size_t m = 0; m < kLanes; ++m) {
      dye[m] += share * exp_portable(-lanes.dye_rate[m] * block.exposure[i][m]);
    }
  }
  for (std::size_t m = 0; m < kLanes; ++m) {
    lanes.exposure[m] = exposure[m];
    lanes.dark[m] = dark[m];
    lanes.warm_like[m] = warm_like[m];
    lanes.dye[m] = lanes.any_dye ? dye[m] : 1;
  }
}

}  // namespace hw::process
