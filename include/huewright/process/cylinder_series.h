#pragma once
// Exact diffusion into a cylinder whose surface stands behind a resistance, as a series of Bessel
// functions. The lift kernel is checked against it, and rules of thumb are drawn from it.
//   β J1(β) = L J0(β),  L = a·h/D: the resistance of the cuticle turned round, or Biot number
//   uptake(τ) = 1 − Σ 4 L² e^(−β²τ) / (β² (β² + L²)),  τ = D·t/a²
//   c(ρ, τ)   = 1 − Σ 2 L J0(β ρ) e^(−β²τ) / ((β² + L²) J0(β))
// Without resistance (L infinite) the β are the zeros of J0. Source: bib: crank_1975 ch. 5.
#include <limits>

namespace hw::process {

/// No resistance at the surface.
inline constexpr double kNoResistance = std::numeric_limits<double>::infinity();
/// Least τ [1] at which the series are summed: below it their terms run into the thousands.
inline constexpr double kLeastTau = 1e-5;

/// The n-th positive root β of β J1(β) = L J0(β) [1], to the last bits.
/// n: from 1; biot: L > 0, or kNoResistance. Worked: cylinder_root(1, 5) is 1.98981.
/// Source: bib: crank_1975 ch. 5.
[[nodiscard]] double cylinder_root(int n, double biot);

/// Share of its final amount [0–1] that a cylinder has taken up from a film of constant strength.
/// tau: D·t/a², at least kLeastTau; biot: as in cylinder_root. Absolute error < 1e-12.
/// Worked: cylinder_uptake_series(0.1, 5) is 0.40260. Source: bib: crank_1975 ch. 5.
[[nodiscard]] double cylinder_uptake_series(double tau, double biot);

/// Strength at a depth of the same cylinder [0–1 of the film's]. rho: distance from the axis in
/// radii, 0–1; tau, biot: as above. Absolute error < 1e-12. Worked: on the axis at τ 0.1 without
/// resistance 0.15164. Source: bib: crank_1975 ch. 5.
[[nodiscard]] double cylinder_strength_series(double rho, double tau, double biot);

/// First root and first coefficient A1 of what is still missing on the axis, A1·e^(−β²τ), good to
/// 2 % above τ = 0.2 (bib: cengel_heat_transfer).
struct OneTerm {
  double beta = 0;
  double coefficient = 0;
};
/// biot: as above. Worked: L = 5 gives β 1.9898 and A1 1.5029.
[[nodiscard]] OneTerm cylinder_one_term(double biot);

// A film of mix is a sheet and a granule a sphere; the same quantities for those two shapes.

/// First root and coefficient at the middle of a sheet of half-thickness a, and of a sphere.
/// biot: > 0 and finite. Worked: L = 5 gives 1.3138, 1.2403 and 2.5704, 1.7870.
/// Source: bib: cengel_heat_transfer.
[[nodiscard]] OneTerm sheet_one_term(double biot);
[[nodiscard]] OneTerm sphere_one_term(double biot);

/// Share of the final amount [0–1] taken up without surface resistance. tau: D·t/a², at least
/// kLeastTau. Worked: at 0.25 a sheet holds 0.56223 and a sphere 0.94844. Source: bib: crank_1975
/// chs. 4 and 6.
[[nodiscard]] double sheet_uptake_series(double tau);
[[nodiscard]] double sphere_uptake_series(double tau);

}  // namespace hw::process
