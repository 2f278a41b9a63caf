#pragma once
// Deposit: what a colour bowl leaves in a canvas.
//   amount_k = share_k · strength · u,  u = U(τ, L)/U_ref · gain · cleanliness · dilution
// U: uptake of a cylinder behind a cuticle (process/cylinder_series.h), τ = D t/a², D by the size
// of what diffuses: D_hair = D_water · k · (7.9 Å − r)², opened hair faster. Cationic dyes bind at
// the surface: U = 1 − e^(−t/8 min), and find more places on worn hair. Oxidative bowls lift a
// little of their own. Amounts add to the canvas's absorption; warmth shows through because the
// canvas is still there. Sources: bib holmes_1964 (size law), tate_kamath_1993 (opening),
// crank_1975; grades in data/process/dye_classes.csv.
#include <span>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/base/random.h"
#include "huewright/process/lift.h"
#include "huewright/process/shade.h"

namespace hw::process {

/// One colour bowl on one zone.
struct DepositBowl {
  DyeClass dye_class = DyeClass::permanent;
  double developer_percent = 0;  ///< peroxide of the developer, 0–12
  double developer_parts = 1;    ///< to one part of colour, as really mixed; 0 for none
  double label_parts = 1;        ///< as the label wants
  double minutes = 35;           ///< on the hair, ≥ 0
  double temperature_c = 22;
  double mix_per_hair = 1.5;  ///< g/g
  double water_per_hair = 0;  ///< damp hair dilutes
  bool clean_canvas = true;
};

/// Diffusion coefficient in intact hair at 25 °C [m²/s] by the size law. radius_angstrom: 1.5–7.8;
/// 0 at and beyond the pore of 7.9 Å. Worked: 2.0 Å gives 9.0e-14.
[[nodiscard]] double dye_diffusion_m2_per_s(double radius_angstrom);

/// What each member takes up of a full reference application [1], > 0 for minutes > 0: the u that
/// multiplies every share. Linear use: mu = mu_canvas + u · Σ share_k · full_k.
[[nodiscard]] std::vector<double> uptake(const LiftMembers& canvas, const DepositBowl& bowl);

/// The bowl's own lift, from its peroxide without powder: the canvas as it is when the colour has
/// formed. No developer: the canvas unchanged.
[[nodiscard]] LiftMembers after_own_lift(const LiftMembers& canvas, const DepositBowl& bowl,
                                         Executor& executor);

/// A shade in a bowl, by its share of the colour in it.
struct Poured {
  Shade shade;
  double share = 1;  ///< 0–1; shares of a bowl add to 1 with clear
};

/// Strength of a shade in each member [1], lognormal with the shade's own doubt; one draw per
/// member and shade id, the same in every zone.
[[nodiscard]] std::vector<double> shade_strength(const Shade& shade, const Draws& draws,
                                                 std::size_t members);

/// The hair after the bowl: own lift, then one dye layer per shade that is not clear, appended to
/// those that are there. Deterministic.
[[nodiscard]] LiftMembers deposit(const LiftMembers& canvas, const DepositBowl& bowl,
                                  std::span<const Poured> pours, const Draws& draws,
                                  Executor& executor);

}  // namespace hw::process
