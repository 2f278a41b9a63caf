#pragma once
// The constants of one hypothesis about how a bowl lifts hair. Values, ranges, sources and grades
// stand in data/process/lift_constants.csv; those that were fitted together to a published strip
// test come as whole rows of data/process/strip_test_draws.csv, so that a draw keeps their
// correlations. Guesses are carried by the members and so widen every band.
#include <cstddef>
#include <string>
#include <vector>

#include "huewright/base/random.h"

namespace hw::process {

struct LiftConstants {
  // Fitted together to the strip test (one row of strip_test_draws.csv).
  double dark_rate_per_min = 0;   ///< k_D: loss of eumelanin in a fresh standard bowl at 22 °C
  double warm_rate_per_min = 0;   ///< k_W: loss of warm residue and pheomelanin, same bowl
  double warm_yield = 0;          ///< y: warm residue left by one part of eumelanin [1]
  double activity_min = 0;        ///< τ_a: e-fold time of an uncovered 3 g/g film at 22 °C
  double diffusion_m2_per_s = 0;  ///< of peroxide in virgin hair at 25 °C
  double cuticle_um = 0;          ///< cuticle resistance as so many µm more of cortex
  double opening_power = 0;       ///< how far peroxide feels the opening that a dye feels [1]
  double order = 1;               ///< n: order of lift and wear in peroxide
  double wear_per_root_min = 0;   ///< κ: share of cystine per √(minute of standard exposure)
  // Drawn one by one from their stated spread.
  double q10 = 2;                    ///< rate factor per 10 °C
  double powderless_rate = 0.12;     ///< s(0): rate without persulfate, of that with it
  double unbuffered_rate = 0.57;     ///< further factor when nothing alkaline is in the bowl
  double cover_gain = 1.75;          ///< τ_a under a cover, of that without
  double diffusion_kj_per_mol = 25;  ///< activation energy of diffusion
  double heat_loss_min = 10;         ///< e-fold time of the film's own warmth
  double decay_per_min = 0.003;      ///< peroxide decomposition at 32 °C, for the exotherm
  double base_scale = 1;             ///< of the lifted base (hair/pigment.h)
  double dye_rate_ratio = 0.2;       ///< old artificial colour: its rate of k_D
};

/// The most likely constants: what `members: 1` uses.
[[nodiscard]] const LiftConstants& central_constants();

/// Rows of the strip-test fit (at least 64), central values elsewhere.
[[nodiscard]] const std::vector<LiftConstants>& strip_test_draws();

/// `members` draws: a row of the fit and the rest from their spread. Pure in (draws, index).
[[nodiscard]] std::vector<LiftConstants> draw_constants(const Draws& draws, std::size_t members);

/// One line of lift_constants.csv, for `why`.
struct ConstantNote {
  std::string name, words, unit, grade, source;
  double central = 0, low = 0, high = 0;
};
[[nodiscard]] const std::vector<ConstantNote>& constant_notes();

}  // namespace hw::process
