#pragma once
// From the exposure at each depth to the pigment of the strand.
#include <span>

#include "huewright/process/lift.h"
#include "lift_kernel.h"

namespace hw::process {

/// Writes members first … first+count−1 of one moment. dye_opened: of each, when the first bowl
/// went on.
void read_out(const LiftBlock& block, const LiftLanes& lanes, const LiftMembers& members,
              std::span<const double> dye_opened, std::size_t first, std::size_t count,
              LiftMoment& moment);

}  // namespace hw::process
