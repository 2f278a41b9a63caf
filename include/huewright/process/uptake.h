#pragma once
// Uptake: how much of a full reference application a member's hair takes.
//   u = U/U_ref · gain/gain_ref · cleanliness · dilution
// Size: U is the uptake of a cylinder behind a cuticle (process/cylinder_series.h), τ = D t/a²,
//   D = size law · opening as a dye feels it · Arrhenius, cuticle: class, giving way as it opens.
// Charge: U = (1 − e^(−t/8 min)) · surface per mass; worn hair has more places.
// Oxidative: what still couples falls with e-fold 30 min, so t counts as 30·(1 − e^(−t/30)).
// Film: it loses what the hair takes, U → U/(1 + K·U·hair volume/mix).
// U_ref: the same hypothesis on the hair of the makers' swatches, 70 µm, 22 °C, label minutes, so
// that only what differs from the swatch matters. Sources: bib holmes_1964, uptake_runs_1967,
// tate_kamath_1993, crank_1975; grades in data/process/uptake_constants.csv, dye_classes.csv.
#include <span>
#include <vector>

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
  double label_min = 0;  ///< of the shades' label; 0: as the class usually has
};

/// One hypothesis about uptake, shared by all zones of a head.
struct UptakeConstants {
  double kj_per_mol = 0;       ///< of uptake by intact hair
  double open_kj_per_mol = 0;  ///< and by wide open hair
  double biot_factor = 1;      ///< on the cuticle of the class
  double open_biot = 0;        ///< cuticle of wide open hair
  double size_factor = 1;      ///< on the size law
  double gain_factor = 1;      ///< on what lightened hair holds more
  double unclean_factor = 1;   ///< on what an unclean canvas takes less
  double partition = 0;        ///< concentration in hair over that in the mix, in balance
  double binding_min = 0;
  double oxidative_min = 0;
};
/// The most likely ones.
[[nodiscard]] const UptakeConstants& central_uptake();
/// One draw per member; the same in every zone and bowl of a head. Pure in (draws, index).
[[nodiscard]] std::vector<UptakeConstants> draw_uptake(const Draws& draws, std::size_t members);

/// Share of the final amount that a cylinder behind a cuticle holds [0–1], from a table of the
/// exact series: within 1 % of it and the same bits on every machine. tau: ≥ 0; biot: held to
/// 0.5–256.
[[nodiscard]] double tabled_uptake(double tau, double biot);

/// What each member takes of a full reference application [1], > 0 for minutes > 0: the u that
/// multiplies every share. Linear use: mu = mu_canvas + u · Σ share_k · full_k.
/// constants: one per member, or one for all.
[[nodiscard]] std::vector<double> uptake(const LiftMembers& canvas, const DepositBowl& bowl,
                                         std::span<const UptakeConstants> constants);
/// The same with the most likely constants, and with those of a head's draws.
[[nodiscard]] std::vector<double> uptake(const LiftMembers& canvas, const DepositBowl& bowl);
[[nodiscard]] std::vector<double> uptake(const LiftMembers& canvas, const DepositBowl& bowl,
                                         const Draws& draws);

/// What thirty-two published runs say of uptake, by least squares on data/process/
/// dye_uptake_runs.csv: rate = Σ effect · level, levels −1 and +1. Residual sd 1.2, so effects are
/// known to 0.2. Source: bib: uptake_runs_1967 pp. 26–27.
struct UptakeEffects {
  double mean = 0;  ///< without additives
  double dye = 0, ph = 0, warm = 0, permed = 0, salt = 0;
  double warm_permed = 0, ph_salt = 0, dye_warm = 0;
  double diethanolamide = 0, morpholine = 0;  ///< added when there
  /// Rate of normal or permed hair at 40 °C over that at 20 °C [1].
  [[nodiscard]] double warm_ratio(bool on_permed) const;
  /// Rate with 6 % salt over that without, normal hair [1].
  [[nodiscard]] double salt_ratio() const;
};
[[nodiscard]] UptakeEffects uptake_effects();

}  // namespace hw::process
