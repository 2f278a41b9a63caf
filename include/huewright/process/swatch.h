#pragma once
// A shade from the dyes its label names and one swatch read on a base that is known. Several mixes
// of the label's dyes look alike on one base and differ on another; all that fit are kept, as
// spread: Shade::equal_fits.
#include <span>
#include <string>
#include <vector>

#include "huewright/base/random.h"
#include "huewright/base/result.h"
#include "huewright/process/absorption_fit.h"
#include "huewright/process/dye.h"
#include "huewright/process/lift.h"
#include "huewright/process/shade.h"

namespace hw::process {

/// The dyes that a label's list of ingredients can make: those it names, and for oxidative colour
/// each pair of precursors that it names both of. Salts count as their base ("…Diamine Sulfate");
/// what is no dye is passed over. ingredients: as printed, any case and order.
[[nodiscard]] std::vector<Dye> dyes_on_label(std::span<const std::string> ingredients);

/// What a shade made of a swatch.
struct SwatchReading {
  FitStrand base;                      ///< the strand before
  double taken = 1;                    ///< its uptake of a reference application [1], > 0; uptake()
  colour::HairLab lab;                 ///< after, dry, D65/10°
  LabWeights sd = {1.19, 0.33, 0.42};  ///< of the reading: an instrument on a moved tress
};
/// The reference base: white hair of 70 µm.
[[nodiscard]] FitStrand white_base();
/// A member's hair as a base, its dyes included.
[[nodiscard]] FitStrand base_of(const LiftMembers& hair, std::size_t m);

/// The shade. label: dyes with a published spectrum, of which the first 12 are looked at; none
/// stands for three broad colourants. The colourants are the three that fit best, or fewer where
/// they tell as much; equal_fits hold 64 draws over the mixes that fit within the reading, the
/// reading's own error included. Deterministic in `draws`.
/// Errors: out_of_range for taken ≤ 0; unreachable when no mix of the dyes comes within 4 sds of
/// the reading (a wrong base, a label that hides a dye, or a swatch that was lifted).
[[nodiscard]] Result<Shade> shade_from_swatch(const std::string& id, DyeClass dye_class,
                                              std::span<const Dye> label,
                                              const SwatchReading& swatch, const Draws& draws);

}  // namespace hw::process
