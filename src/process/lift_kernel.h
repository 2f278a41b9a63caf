#pragma once
// The inner loop of lift: one block of members side by side through a list of time steps.
#include <cstddef>

namespace hw::process {

struct Application;
struct LiftMembers;

inline constexpr std::size_t kLanes = 64;
inline constexpr std::size_t kCells = 24;

/// Finite volumes of a unit cylinder, graded towards the surface.
struct RadialGrid {
  double volume[kCells];           ///< ∫ρ dρ over the cell
  double pigment[kCells];          ///< share of the strand's pigment in the cell; they add to 1
  double conductance[kCells + 1];  ///< at the inner face of cell i; [0] is the axis, 0
  double last_gap;                 ///< from the outermost cell centre to the surface
};
[[nodiscard]] const RadialGrid& radial_grid();

/// Rows of an array by depth. The spare one keeps equal rows of two arrays from lying a multiple of
/// 4096 bytes apart, which would make loads wait for stores that they only seem to depend on.
inline constexpr std::size_t kRows = kCells + 1;

/// What changes during a run.
struct LiftBlock {
  alignas(64) double peroxide[kRows][kLanes];  ///< active peroxide at each depth [%]
  alignas(64) double older[kRows][kLanes];     ///< the same one step earlier
  alignas(64) double exposure[kRows][kLanes];  ///< [standard minutes]
  alignas(64) double mean_peroxide[kLanes];    ///< over the cross-section [%]
  alignas(64) double theta[kLanes];            ///< wear exposure, cross-section mean
  alignas(64) double omega[kLanes];            ///< the share of theta spent with powder
  alignas(64) double activity[kLanes];         ///< φ of the present film
  alignas(64) double wear[kLanes];
  double dt_before;  ///< length of the step before [min]; 0 when a bowl has just gone on
};

/// What stays the same through one application.
struct LiftLanes {
  alignas(64) double film_percent[kLanes];    ///< C in the diluted mix
  alignas(64) double loss_per_min[kLanes];    ///< 1/τ
  alignas(64) double access_per_min[kLanes];  ///< D/R² of unopened hair at this temperature
  alignas(64) double film_gap[kLanes];        ///< cuticle resistance in radii
  alignas(64) double lift_rate[kLanes];       ///< exposure per minute and per % of local peroxide
  alignas(64) double wear_rate[kLanes];       ///< theta per minute and per % of mean peroxide
  alignas(64) double powder_share[kLanes];    ///< 0–1
  alignas(64) double open_peroxide[kLanes];   ///< a
  alignas(64) double open_powder[kLanes];     ///< b
  alignas(64) double wear_start_sq[kLanes];   ///< x₀², whole life
  alignas(64) double kappa_sq[kLanes];
  alignas(64) double wear_at_mixing[kLanes];  ///< x when this bowl went on
  alignas(64) double used_per_wear[kLanes];   ///< share of the bowl's oxidant per unit of x
};

/// Sets everything of one lane but wear_at_mixing to member m under a bowl.
void set_lane(LiftLanes& lanes, std::size_t lane, const LiftMembers& members, std::size_t m,
              const Application& bowl);

/// Advances a block by `count` steps of dt_min[i] minutes: diffusion by backward differences of the
/// second order, exposure by the trapezium rule. A step should be at most 2.4 times the one before,
/// where such differences stay stable.
void lift_steps(LiftBlock& block, const LiftLanes& lanes, const RadialGrid& grid,
                const double* dt_min, std::size_t count);

/// Rates of one block, and its pigment averaged over the cross-section.
struct PigmentLanes {
  alignas(64) double dark_rate[kLanes];
  alignas(64) double warm_rate[kLanes];
  alignas(64) double dye_rate[kLanes];
  alignas(64) double dark[kLanes];  // results, shares of the start
  alignas(64) double warm_like[kLanes];
  alignas(64) double dye[kLanes];
  alignas(64) double exposure[kLanes];
  bool any_dye = true;  ///< else there is none to lose: dye is 1
};

/// Fills the result arrays from a block's exposures.
void pigment_means(PigmentLanes& lanes, const LiftBlock& block, const RadialGrid& grid);

/// Openings that a dye (uranin) feels after an hour of 6 % peroxide, and after half an hour of
/// bleach cream; bib tate_kamath_1993 Table III. A smaller molecule feels a power of them.
inline constexpr double kDyeOpeningPeroxide = 2.9;
inline constexpr double kDyeOpeningCream = 12.6;

/// Powder's part of an opening, b below, from what peroxide alone (a) and bleach cream open in all.
[[gnu::always_inline]] inline double powder_opening(double a, double cream) {
  constexpr double kPeroxideShareAtCream = 14.0 / (14.0 + 8.0);  // of a, after half an hour
  const double rest = cream - a * kPeroxideShareAtCream;
  return rest > 0 ? 2 * rest : 0;
}

/// Opening factor of peroxide diffusion at the present wear exposure.
[[gnu::always_inline]] inline double opening(double a, double b, double theta, double omega) {
  constexpr double kPeroxideHalf = 8;  // standard minutes to half the peroxide opening
  constexpr double kPowderHalf = 14;   // and to half the powder opening; both from uranin, see docs
  return 1 + a * theta / (theta + kPeroxideHalf) + b * omega / (omega + kPowderHalf);
}

}  // namespace hw::process
