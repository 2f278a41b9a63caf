#pragma once
// Hair that is known only as a colour: the plainest strand that looks so.
#include "huewright/base/result.h"
#include "huewright/base/units.h"
#include "huewright/colour/lab.h"
#include "huewright/process/lift.h"

namespace hw::process {

/// Pigments of a strand that reads a colour.
struct CanvasGuess {
  double eumelanin_percent = 0;  ///< of hair mass
  double warm_percent = 0;       ///< residue and pheomelanin, of hair mass
  double base_share = 0;         ///< of the lifted base; white hair has more than 1 of it
  colour::Spectrum dye{};        ///< old colour [1/cm]; zero where pigment tells the colour alone
  double miss_de76 = 0;          ///< what is still off
};

/// The plainest strand of a colour: eumelanin, warm residue and lifted base, and old dye of the
/// three effective colourants only for what those leave by more than 1 CIE76. Default surface term.
/// lab: D65/10°, dry; strand: 20–180 µm. Error: unreachable when even then more than 3 CIE76 are
/// missing (darker than the surface term allows, or a colour no hair has).
[[nodiscard]] Result<CanvasGuess> canvas_guess(const colour::HairLab& lab, Micrometres strand);

/// Puts a guess into every member, so that each reads that colour exactly at its own base scale.
void set_canvas(LiftMembers& members, const CanvasGuess& guess);

}  // namespace hw::process
