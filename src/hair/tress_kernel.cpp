#include "tress_kernel.h"

#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "huewright/hair/tress.h"

// Tests compile this file again for single instruction sets under other names and compare bits.
#ifndef HW_TRESS_KERNEL
#define HW_TRESS_KERNEL tress_kernel
#define HW_TRESS_Y_KERNEL tress_y_kernel
#endif

namespace hw::hair {

HW_KERNEL void HW_TRESS_KERNEL(TressLanes& lanes, const TressTables& tables) {
  alignas(64) double x[kTressLanes] = {};
  alignas(64) double y[kTressLanes] = {};
  alignas(64) double z[kTressLanes] = {};
  alignas(64) double dyes[kTressLanes];
  const double white = tables.white_share;
  for (std::size_t band = 0; band < colour::kBands; ++band) {
    const double eu = tables.eumelanin[band];
    const double pheo = tables.pheomelanin[band];
    const double base = tables.lifted_base[band];
    const double bare = tables.white_base[band];
    const double wx = tables.weight_x[band];
    const double wy = tables.weight_y[band];
    const double wz = tables.weight_z[band];
    for (std::size_t m = 0; m < kTressLanes; ++m) dyes[m] = 0;
    for (std::size_t d = 0; d < tables.dye_count; ++d) {
      const double dye = tables.dye[d][band];
      for (std::size_t m = 0; m < kTressLanes; ++m) dyes[m] += lanes.dye[d][m] * dye;
    }
    for (std::size_t m = 0; m < kTressLanes; ++m) {
      const double mu = lanes.eumelanin[m] * eu + lanes.pheo_like[m] * pheo +
                        lanes.base_share[m] * base + dyes[m];
      const double rs = lanes.surface[m];
      const double r = rs + (1 - rs) * exp_portable(-kTressD * std::sqrt(mu * lanes.radius_cm[m]));
      x[m] += (1 - white) * wx * r;
      y[m] += (1 - white) * wy * r;
      z[m] += (1 - white) * wz * r;
    }
    if (white <= 0) continue;
    for (std::size_t m = 0; m < kTressLanes; ++m) {
      const double rs = lanes.surface[m];
      const double r =
          rs + (1 - rs) * exp_portable(-kTressD * std::sqrt((bare + dyes[m]) * lanes.radius_cm[m]));
      x[m] += white * wx * r;
      y[m] += white * wy * r;
      z[m] += white * wz * r;
    }
  }
  for (std::size_t m = 0; m < kTressLanes; ++m) {
    lanes.x[m] = x[m];
    lanes.y[m] = y[m];
    lanes.z[m] = z[m];
  }
}

HW_KERNEL void HW_TRESS_Y_KERNEL(TressLanes& lanes, const TressTables& tables, std::size_t count) {
  alignas(64) double y[kTressLanes] = {};
  alignas(64) double dyes[kTressLanes] = {};
  const double white = tables.white_share;
  for (std::size_t band = 0; band < count; ++band) {
    const double eu = tables.eumelanin[band];
    const double pheo = tables.pheomelanin[band];
    const double base = tables.lifted_base[band];
    const double bare = tables.white_base[band];
    const double wy = tables.weight_y[band];
    if (tables.dye_count > 0) {
      for (std::size_t m = 0; m < kTressLanes; ++m) dyes[m] = 0;
    }
    for (std::size_t d = 0; d < tables.dye_count; ++d) {
      const double dye = tables.dye[d][band];
      for (std::size_t m = 0; m < kTressLanes; ++m) dyes[m] += lanes.dye[d][m] * dye;
    }
    for (std::size_t m = 0; m < kTressLanes; ++m) {
      const double mu = lanes.eumelanin[m] * eu + lanes.pheo_like[m] * pheo +
                        lanes.base_share[m] * base + dyes[m];
      const double rs = lanes.surface[m];
      const double r = rs + (1 - rs) * exp_portable(-kTressD * std::sqrt(mu * lanes.radius_cm[m]));
      y[m] += (1 - white) * wy * r;
    }
    if (white <= 0) continue;
    for (std::size_t m = 0; m < kTressLanes; ++m) {
      const double rs = lanes.surface[m];
      const double r =
          rs + (1 - rs) * exp_portable(-kTressD * std::sqrt((bare + dyes[m]) * lanes.radius_cm[m]));
      y[m] += white * wy * r;
    }
  }
  for (std::size_t m = 0; m < kTressLanes; ++m) lanes.y[m] = y[m];
}

}  // namespace hw::hair
