#include "lift_kernel.h"

#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"

// Tests compile this file again for single instruction sets under other names and compare bits.
#ifndef HW_LIFT_STEPS
#define HW_LIFT_STEPS lift_steps
#endif

namespace hw::process {

HW_KERNEL void HW_LIFT_STEPS(LiftBlock& block, const LiftLanes& lanes, const RadialGrid& grid,
                             const double* dt_min, std::size_t count) {
  constexpr double kWearMost = 0.45;  // kWearCap of lift.h
  alignas(64) double upper[kCells][kLanes];
  alignas(64) double right[kCells][kLanes];
  alignas(64) double lambda[kLanes];
  alignas(64) double film[kLanes];
  alignas(64) double mean[kLanes];

  for (std::size_t step = 0; step < count; ++step) {
    const double dt = dt_min[step];
    for (std::size_t m = 0; m < kLanes; ++m) {
      block.activity[m] *= exp_portable(-dt * lanes.loss_per_min[m]);
      double unused = 1 - lanes.used_per_wear[m] * (block.wear[m] - lanes.wear_at_mixing[m]);
      unused = unused < 0 ? 0 : unused;
      film[m] = lanes.film_percent[m] * block.activity[m] * unused;
      lambda[m] = dt * lanes.access_per_min[m] *
                  opening(lanes.open_peroxide[m], lanes.open_powder[m], block.theta[m],
                          block.omega[m]);
      mean[m] = 0;
    }
    // Thomas elimination from the axis outwards.
    for (std::size_t m = 0; m < kLanes; ++m) {
      const double out = lambda[m] * grid.conductance[1];
      const double pivot = 1 / (grid.volume[0] + out);
      upper[0][m] = out * pivot;
      right[0][m] = grid.volume[0] * block.peroxide[0][m] * pivot;
    }
    for (std::size_t i = 1; i + 1 < kCells; ++i) {
      const double volume = grid.volume[i];
      const double inner = grid.conductance[i];
      const double outer = grid.conductance[i + 1];
      for (std::size_t m = 0; m < kLanes; ++m) {
        const double in = lambda[m] * inner;
        const double out = lambda[m] * outer;
        const double pivot = 1 / (volume + out + in * (1 - upper[i - 1][m]));
        upper[i][m] = out * pivot;
        right[i][m] = (volume * block.peroxide[i][m] + in * right[i - 1][m]) * pivot;
      }
    }
    // Outermost cell: the film stands behind half a cell and the cuticle.
    constexpr std::size_t kLast = kCells - 1;
    for (std::size_t m = 0; m < kLanes; ++m) {
      const double in = lambda[m] * grid.conductance[kLast];
      const double out = lambda[m] / (grid.last_gap + lanes.film_gap[m]);
      const double pivot = 1 / (grid.volume[kLast] + out + in * (1 - upper[kLast - 1][m]));
      const double now = (grid.volume[kLast] * block.peroxide[kLast][m] + in * right[kLast - 1][m] +
                          out * film[m]) *
                         pivot;
      const double before = block.peroxide[kLast][m];
      block.peroxide[kLast][m] = now;
      right[kLast][m] = now;
      block.exposure[kLast][m] += 0.5 * dt * lanes.lift_rate[m] * (before + now);
      mean[m] += 2 * grid.volume[kLast] * (before + now);
    }
    for (std::size_t i = kLast; i-- > 0;) {
      const double volume = grid.volume[i];
      for (std::size_t m = 0; m < kLanes; ++m) {
        const double now = right[i][m] + upper[i][m] * right[i + 1][m];
        const double before = block.peroxide[i][m];
        block.peroxide[i][m] = now;
        right[i][m] = now;
        block.exposure[i][m] += 0.5 * dt * lanes.lift_rate[m] * (before + now);
        mean[m] += 2 * volume * (before + now);
      }
    }
    for (std::size_t m = 0; m < kLanes; ++m) {
      const double worn = 0.5 * dt * lanes.wear_rate[m] * mean[m];
      block.theta[m] += worn;
      block.omega[m] += worn * lanes.powder_share[m];
      const double x = std::sqrt(lanes.wear_start_sq[m] + lanes.kappa_sq[m] * block.theta[m]);
      block.wear[m] = x < kWearMost ? x : kWearMost;
    }
  }
}

}  // namespace hw::process
