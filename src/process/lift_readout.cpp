#include "lift_readout.h"

#include <algorithm>
#include <memory>

namespace hw::process {

void read_out(const LiftBlock& block, const LiftLanes& lanes, const LiftMembers& members,
              std::span<const double> dye_opened, std::size_t first, std::size_t count,
              LiftMoment& moment) {
  auto pigment = std::make_unique<PigmentLanes>();
  for (std::size_t lane = 0; lane < kLanes; ++lane) {
    const LiftConstants& k = members.constants[first + std::min(lane, count - 1)];
    pigment->dark_rate[lane] = k.dark_rate_per_min;
    pigment->warm_rate[lane] = k.warm_rate_per_min;
    pigment->dye_rate[lane] = k.dark_rate_per_min * k.dye_rate_ratio;
  }
  pigment->any_dye = !members.dyes.empty();
  pigment_means(*pigment, block, radial_grid());
  for (std::size_t lane = 0; lane < count; ++lane) {
    const std::size_t m = first + lane;
    const LiftConstants& k = members.constants[m];
    moment.eumelanin_left[m] = pigment->dark[lane];
    moment.pheomelanin_left[m] = pigment->warm_like[lane];
    // Two consecutive first-order steps, averaged over the cross-section (process/kinetics.h).
    moment.warm[m] = k.warm_yield * k.dark_rate_per_min /
                     (k.dark_rate_per_min - k.warm_rate_per_min) *
                     (pigment->warm_like[lane] - pigment->dark[lane]);
    moment.dye_left[m] = pigment->dye[lane];
    moment.wear[m] = block.wear[lane];
    moment.opened[m] =
        members.opened[m] * opening(lanes.open_peroxide[lane], lanes.open_powder[lane],
                                    block.theta[lane], block.omega[lane]);
    constexpr double kDyePeroxide = kDyeOpeningPeroxide - 1;
    moment.dye_opened[m] = std::min(
        kDyeOpeningCream,
        dye_opened[m] * opening(kDyePeroxide, powder_opening(kDyePeroxide, kDyeOpeningCream - 1),
                                block.theta[lane], block.omega[lane]));
    moment.exposure[m] = pigment->exposure[lane];
  }
}

}  // namespace hw::process
