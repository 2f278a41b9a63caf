#pragma once
// A colour over a canvas, both known only as Lab: the nearest plausible strand, and the nearest dye
// on it.
#include <array>

#include "huewright/colour/lab.h"
#include "huewright/hair/tress.h"

namespace hw::process {

/// Absorptions that stand for a canvas and for the dye on it; what they miss is kept.
struct ColourOver {
  colour::Spectrum canvas{};          ///< [1/cm]
  colour::Spectrum dye{};             ///< [1/cm] at full strength
  colour::HairLab canvas_residual{};  ///< canvas asked for minus canvas reached
  colour::HairLab residual{};         ///< start asked for minus start reached
  /// Colour with a share of the dye left [D65/10°]: 1 gives the start, 0 the canvas, exactly.
  [[nodiscard]] colour::HairLab at(double dye_left) const;
};

/// Canvas: nonnegative eumelanin, pheomelanin-like residue and lifted base; dye: the three
/// effective colourants. Both nearest in CIE76. Strand 70 µm, default surface term. Deterministic.
[[nodiscard]] ColourOver colour_over(const colour::HairLab& start, const colour::HairLab& canvas);

}  // namespace hw::process
