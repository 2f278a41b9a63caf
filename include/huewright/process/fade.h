#pragma once
// Fade, in dye amount and never in colour difference:
//   ln(c₀/c) = (n_eff/n₀)^β + (H/H₀)^0.58
// n_eff: washes weighted by temperature, pH and hardness; H: hours of light at 0.35 W/m²/nm at 340
// nm. n₀, β and H₀ by class, family and state of hair: data/process/fade.csv. The colour then
// follows from the tress law over the canvas that shows through. Published differences are CIE76.
// Sources: bib photofilters_2005 (permanent reds, washes and light), class_lives_2012 (life of
// classes), shampoo_retention_2008; docs/science/fade.md says what has no degrees of freedom left.
#include <vector>

#include "huewright/base/random.h"
#include "huewright/base/result.h"
#include "huewright/process/shade.h"

namespace hw::process {

enum class HairState { virgin, white, bleached };

/// Washing, the same every time.
struct WashHabit {
  double temperature_c = 38;  ///< of the water, 5–60
  double ph = 6;              ///< of the shampoo, 2–12
  bool hard = false;          ///< hard water
};

/// How many standard washes one wash is worth [1]: 38 °C, pH 7, soft water count 1. Signs are
/// published (alkaline and hard fade more), sizes are guesses; Ea 35 kJ/mol gives 0.55 at 25 °C.
[[nodiscard]] double wash_factor(const WashHabit& habit);

/// Constants of one class, family and state of hair.
struct FadeConstants {
  double washes = 0;     ///< n₀, to 1/e
  double power = 0.5;    ///< β
  double light_h = 160;  ///< H₀
  double washes_sd_ln = 0.4;
};
[[nodiscard]] FadeConstants fade_constants(DyeClass dye_class, DyeFamily family, HairState hair);
/// The constants as each member has them, no doubt left: n₀ lognormal, β within ±0.1 of its middle,
/// H₀ lognormal 0.3.
[[nodiscard]] std::vector<FadeConstants> draw_fade(const FadeConstants& constants,
                                                   const Draws& draws, std::size_t members);

/// Share of dye left [0–1] with given constants. washes: ≥ 0, light_h: ≥ 0.
[[nodiscard]] double dye_left(const FadeConstants& constants, double washes, const WashHabit& habit,
                              double light_h);

/// The same for each member, by the constants of draw_fade().
[[nodiscard]] std::vector<double> dye_left_members(const FadeConstants& constants, double washes,
                                                   const WashHabit& habit, double light_h,
                                                   const Draws& draws, std::size_t members);

}  // namespace hw::process
