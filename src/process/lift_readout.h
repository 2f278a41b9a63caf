#pragma once
// From the exposure at each depth to the pigment of the strand.
#include "huewright/process/lift.h"
#include "lift_kernel.h"

namespace hw::process {

/// Rates of one block, and its pigment averaged over the cross-section.
struct PigmentLanes {
  alignas(64) double dark_rate[kLanes];
  alignas(64) double warm_rate[kLanes];
  alignas(64) double dye_rate[kLanes];
  alignas(64) double dark[kLanes];  // results, shares of the start
  alignas(64) double warm_like[kLanes];
  alignas(64) double dye[kLanes];
  alignas(64) double exposure[kLanes];
};

/// Fills the result arrays from a block's exposures.
void pigment_means(PigmentLanes& lanes, const LiftBlock& block, const RadialGrid& grid);

/// Writes members first … first+count−1 of one moment.
void read_out(const LiftBlock& block, const LiftLanes& lanes, const LiftMembers& members,
              std::size_t first, std::size_t count, LiftMoment& moment);

}  // namespace hw::process
