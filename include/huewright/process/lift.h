#pragma once
// Lift: what bowls do to the pigment of a strand, minute by minute.
//
// Film (per member): peroxide stays at C % while its activity φ falls,
//   dφ/dt = −φ/τ,  1/τ = q·chemical loss + drying,  and the oxidant that wear consumed is gone.
// Access: peroxide diffuses into a cylinder through a cuticle,
//   ∂c/∂t = D ∇²c,  −D ∂c/∂r = (D/δ)(c − C φ) at the surface,  D = D25 · opened · opening ·
//   Arrhenius.
// Exposure at each depth [minutes of a fresh standard bowl: 4 % peroxide, full powder, 22 °C]:
//   dI/dt = (C/4)^(n−1) · (c/4) · s(powder) · Q10^((T−22)/10) · rate of this head
// Pigment at each depth, exact in I:
//   eumelanin e^(−k_D I); pheomelanin e^(−k_W I); warm residue y·k_D/(k_D−k_W)·(e^(−k_W I)−e^(−k_D
//   I)); old dye e^(−d k_D I).  The strand's pigment is their mean over its cross-section, in which
//   granules lie denser towards the cuticle (as the square of the radius).
// Wear: θ as I, without s(powder), averaged over the cross-section; x = √(x₀² + κ²θ), at most 0.45.
// Opening: 1 + a·θ/(θ+8) + b·ω/(ω+14), ω the share of θ spent with powder.
// Access, opening, exposure and wear persist from bowl to bowl; a new bowl brings fresh activity.
// Sources: lightening notes of docs/science/lift.md; bib edman_marti_1961, holmes_1964,
// tate_kamath_1993, gillece_2021. Grades of every constant: data/process/lift_constants.csv.
#include <cstddef>
#include <span>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/base/units.h"
#include "huewright/colour/lab.h"
#include "huewright/hair/tress.h"
#include "huewright/process/lift_constants.h"

namespace hw::process {

/// Peroxide [% of mix], powder [% of mix] and temperature at which rates are stated: a bowl of 1
/// part lightener and 2 parts 6 % developer.
inline constexpr double kStandardPeroxidePercent = 4;
inline constexpr double kStandardPowderPercent = 100.0 / 3;
inline constexpr double kStandardCelsius = 22;
/// Mix per gram of hair at which τ_a is stated [g/g].
inline constexpr double kStandardMixPerHair = 3;
/// Most of the cystine that oxidation can use up [1]: 'severe' bleaching, bib tate_kamath_1993.
inline constexpr double kWearCap = 0.45;

/// One bowl on one zone.
struct Application {
  double peroxide_percent = 0;                ///< of the ready mix, by mass, 0–100
  double powder_percent = 0;                  ///< lightener powder, of the ready mix, 0–100
  bool alkaline = true;                       ///< lightener or alkaline colour is in the bowl
  double mix_per_hair = kStandardMixPerHair;  ///< g of mix per g of hair, > 0
  double temperature_c = kStandardCelsius;    ///< of the film, before its own warmth
  double minutes = 0;                         ///< on the hair, ≥ 0
  bool covered = false;
  double water_per_hair = 0;  ///< g of water held per g of hair, dilutes the mix
};

/// The hypotheses about one zone, one entry per member in every array.
struct LiftMembers {
  std::vector<LiftConstants> constants;
  std::vector<double> eumelanin_percent;    ///< of hair mass
  std::vector<double> pheomelanin_percent;  ///< of hair mass
  std::vector<double> warm_percent;         ///< residue of earlier lightening
  std::vector<double> base_share;           ///< 0–1 of lifted base already there
  std::vector<double> strand_um;            ///< equal-area diameter, 20–180
  std::vector<double> opened;    ///< factor on the diffusion coefficient, ≥ 1 when opened
  std::vector<double> wear;      ///< x₀, share of cystine already used, 0–0.45
  std::vector<double> rate;      ///< factor on every rate of this head
  std::vector<double> warmth_c;  ///< added to the application's temperature
  std::vector<double> surface_term;
  /// Factor on the diffusion of a dye, which feels an opening more than peroxide does. Empty: not
  /// followed, dye_opening() reckons it from `opened`.
  std::vector<double> dye_opened = {};
  std::vector<hair::DyeLayer> dyes;  ///< old colours still in the hair
  double white_share = 0;
  void resize(std::size_t members);  ///< fills new entries with plain virgin hair
  [[nodiscard]] std::size_t size() const { return constants.size(); }
};

/// Every member at one moment. Shares are of the starting amounts.
struct LiftMoment {
  std::size_t application = 1;  ///< 1-based
  double minute = 0;            ///< since the start of that application
  double minute_total = 0;      ///< since the start of the first
  std::vector<double> eumelanin_left;
  std::vector<double> pheomelanin_left;
  std::vector<double> warm;  ///< residue formed, in parts of the starting eumelanin
  std::vector<double> dye_left;    ///< 1 where there is none to lose
  std::vector<double> wear;        ///< x
  std::vector<double> opened;      ///< factor on diffusion, with what was there before
  std::vector<double> dye_opened;  ///< the same as a dye feels it, 1–12.6
  std::vector<double> exposure;    ///< mean over the pigment [standard minutes]
};

/// How much faster a dye goes into a member's hair than into intact hair [1, up to 12.6]. Of an
/// opening that only peroxide diffusion tells of, the 1/0.55 power: what the pore line gives
/// (docs/science/lift.md). Source: bib: tate_kamath_1993 Table III (uranin: 2.7 after an hour of 6
/// % peroxide, 12.6 after bleach cream).
[[nodiscard]] double dye_opening(const LiftMembers& members, std::size_t m);

/// The moment before anything was done: all pigment there, no exposure.
[[nodiscard]] LiftMoment starting_moment(const LiftMembers& members);

/// How time is cut. The default keeps every colour within 0.05 L* of the limit of fine steps.
struct LiftSteps {
  double first_min = 0.02;
  double growth = 1.1;
  double longest_min = 1.25;
};

/// Runs the bowls one after another on every member and reports the minute-0 state, each multiple
/// of `every_min` within each application, and each application's end. every_min: > 0.
/// Deterministic: the same bits whatever the executor and the instruction set.
[[nodiscard]] std::vector<LiftMoment> simulate_lift(const LiftMembers& members,
                                                    std::span<const Application> applications,
                                                    double every_min, Executor& executor,
                                                    const LiftSteps& steps = {});

/// Whether white strands are seen among the others.
enum class Whites { mixed_in, left_out };

/// What the tress law sees of all members at one moment.
[[nodiscard]] hair::TressMembers tress_members(const LiftMembers& members, const LiftMoment& moment,
                                               Whites whites = Whites::mixed_in);

/// Colours of all members at one moment [D65/10°]; out has members.size() entries.
void lift_colours(const LiftMembers& members, const LiftMoment& moment,
                  std::span<colour::HairLab> out, Whites whites = Whites::mixed_in);
/// Lightness of each member alone [L*], from fewer bands: hair::tress_lightness.
void lift_lightness(const LiftMembers& members, const LiftMoment& moment, std::span<double> out,
                    Whites whites = Whites::mixed_in);

/// The hair as a lift leaves it, ready for what comes next: its pigment, base, old dyes, opening
/// and wear at that moment become the starting ones. Colours of the result at its start are those
/// of the moment.
[[nodiscard]] LiftMembers canvas_after(const LiftMembers& members, const LiftMoment& moment);

/// What a strand of an exactly known starting colour is taken to be.
struct ExactHair {
  double melanin_percent = 0;  ///< total
  double surface_term = hair::kSurfaceTerm;
};
/// Melanin and surface term for an exactly known L*. Down to the colour of kMelaninMax at the
/// default surface term the melanin is solved; below it the surface term is. pheomelanin_share:
/// 0–1. Error: L* below what hair can show (about 14.2), or above 100.
[[nodiscard]] Result<ExactHair> exact_hair(double lstar, double pheomelanin_share,
                                           Micrometres strand_um);

}  // namespace hw::process
