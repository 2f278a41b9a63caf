#pragma once
// Amounts of a few absorbers that bring a strand nearest to a colour, none of them negative.
#include <span>
#include <vector>

#include "huewright/base/units.h"
#include "huewright/colour/lab.h"
#include "huewright/hair/tress.h"

namespace hw::process {

/// The strand that absorbers are added to.
struct FitStrand {
  colour::Spectrum absorption{};  ///< [1/cm] before anything is added
  Micrometres strand{70};
  double surface_term = hair::kSurfaceTerm;
};

struct AbsorptionFit {
  std::vector<double> amounts;  ///< one per absorber, ≥ 0
  colour::HairLab reached;
  double miss = 0;  ///< length of (reached − wanted) by the weights; CIE76 when they are 1
};

/// Sd of a reading in L*, a*, b*: 1, 1, 1 makes the miss a CIE76.
struct LabWeights {
  double sd_l = 1, sd_a = 1, sd_b = 1;
};

/// Nearest amounts: Gauss–Newton steps of non-negative least squares, damped until they help, from
/// an even start; the best of three starts. absorbers: each [1/cm] at an amount of 1, some > 0.
/// Deterministic. A colour that no amounts give ends at the nearest, and `miss` says how far off.
[[nodiscard]] AbsorptionFit fit_absorptions(const colour::HairLab& wanted, const FitStrand& strand,
                                            std::span<const colour::Spectrum> absorbers,
                                            const LabWeights& weights = {});

}  // namespace hw::process
