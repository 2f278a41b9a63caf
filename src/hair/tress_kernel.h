#pragma once
// The tress law across members: plain loops that the compiler turns into vector code.
#include <cstddef>

#include "huewright/hair/tress.h"

namespace hw::hair {

inline constexpr std::size_t kTressLanes = 64;

struct TressLanes {
  alignas(64) double eumelanin[kTressLanes];
  alignas(64) double pheo_like[kTressLanes];
  alignas(64) double base_share[kTressLanes];
  alignas(64) double dye[kMostDyes][kTressLanes];
  alignas(64) double radius_cm[kTressLanes];
  alignas(64) double surface[kTressLanes];
  alignas(64) double x[kTressLanes];  // result, Y = 100 for the perfect diffuser
  alignas(64) double y[kTressLanes];
  alignas(64) double z[kTressLanes];
};

/// Absorption tables and viewing weights, kBands entries each (for tress_y_kernel: count).
struct TressTables {
  const double* eumelanin;
  const double* pheomelanin;
  const double* lifted_base;
  const double* white_base;
  const double* dye[kMostDyes];
  const double* weight_x;
  const double* weight_y;
  const double* weight_z;
  std::size_t dye_count;
  double white_share;
};

/// Fills x, y, z of every lane.
void tress_kernel(TressLanes& lanes, const TressTables& tables);

/// Fills y alone, from `count` bands that the tables hold; weight_y is all that is looked at of the
/// weights.
void tress_y_kernel(TressLanes& lanes, const TressTables& tables, std::size_t count);

}  // namespace hw::hair
