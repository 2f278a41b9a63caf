#include "tress_kernel.h"

#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "huewright/hair/tress.h"

namespace hw::hair {

HW_KERNEL void tress_kernel(TressLanes& lanes, const TressTables& tables) {
  double x[kTressLanes] = {};
  double y[kTressLanes] = {};
  double z[kTressLanes] = {};
  const double white = tables.white_share;
  for (std::size_t band = 0; band < colour::kBands; ++band) {
    const double eu = tables.eumelanin[band];
    const double pheo = tables.pheomelanin[band];
    const double base = tables.lifted_base[band];
    const double dye = tables.dye[band];
    const double bare = tables.white_base[band];
    const double wx = tables.weight_x[band];
    const double wy = tables.weight_y[band];
    const double wz = tables.weight_z[band];
    if (white > 0) {
      for (std::size_t m = 0; m < kTressLanes; ++m) {
        const double mu = lanes.eumelanin[m] * eu + lanes.pheo_like[m] * pheo +
                          lanes.base_share[m] * base + lanes.dye[m] * dye;
        const double mu_white = bare + lanes.dye[m] * dye;
        const double rs = lanes.surface[m];
        const double body = exp_portable(-kTressD * std::sqrt(mu * lanes.radius_cm[m]));
        const double body_white = exp_portable(-kTressD * std::sqrt(mu_white * lanes.radius_cm[m]));
        const double r = rs + (1 - rs) * ((1 - white) * body + white * body_white);
        x[m] += wx * r;
        y[m] += wy * r;
        z[m] += wz * r;
      }
    } else {
      for (std::size_t m = 0; m < kTressLanes; ++m) {
        const double mu = lanes.eumelanin[m] * eu + lanes.pheo_like[m] * pheo +
                          lanes.base_share[m] * base + lanes.dye[m] * dye;
        const double rs = lanes.surface[m];
        const double r =
            rs + (1 - rs) * exp_portable(-kTressD * std::sqrt(mu * lanes.radius_cm[m]));
        x[m] += wx * r;
        y[m] += wy * r;
        z[m] += wz * r;
      }
    }
  }
  for (std::size_t m = 0; m < kTressLanes; ++m) {
    lanes.x[m] = x[m];
    lanes.y[m] = y[m];
    lanes.z[m] = z[m];
  }
}

}  // namespace hw::hair
