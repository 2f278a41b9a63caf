#pragma once
// Closed forms that the lift kernel is built on and checked against.
#include <span>
#include <vector>

namespace hw::process {

/// What is left and formed of A → B → C after time t, from A = 1, B = 0 [shares].
struct TwoStep {
  double a = 1;
  double b = 0;
  double c = 0;
};
/// k1, k2: rates [1/time], ≥ 0; t: ≥ 0, same time unit. Equal rates are handled exactly.
/// Source: textbook closed form of consecutive first-order reactions.
[[nodiscard]] TwoStep two_step(double k1, double k2, double t);

/// What is left of A in A + B → C after time t [unit of a0]: how an oxidant and what it attacks use
/// each other up. a0, b0: starting amounts, > 0, may be equal; k: rate [1/(amount·time)], ≥ 0; t: ≥
/// 0. Source: textbook closed form of a second-order reaction. Worked: a0 = b0 = 1, k = 0.01, t =
/// 50 leave 2/3.
[[nodiscard]] double second_order_left(double a0, double b0, double k, double t);

/// Factor on a rate from one temperature to another, exp(Ea/R·(1/T1 − 1/T2)) [1].
/// kj_per_mol: activation energy; temperatures in °C, above −200.
[[nodiscard]] double arrhenius_factor(double kj_per_mol, double from_c, double to_c);

/// Uptake of a cylinder from a film of constant strength, share of the final amount [0–1], by the
/// same finite volumes and implicit steps as the lift kernel.
/// tau: D·t/a², > 0; biot: a·h/D of the surface resistance, > 0 (1e9 for none); steps ≥ 1.
/// Source of the exact values: crank_1975 ch. 5.
[[nodiscard]] double cylinder_uptake(double tau, double biot, int steps = 400);

}  // namespace hw::process
