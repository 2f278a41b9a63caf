#include "huewright/process/cylinder_series.h"

#include <cmath>
#include <numbers>

#include "huewright/base/check.h"

namespace hw::process {
namespace {

constexpr double kNegligible = 45;  // e^−45 is 3e-20: later terms change no digit

/// The root of a function that changes its sign between low and high.
template <typename Function>
double bisect(double low, double high, const Function& f) {
  const bool rising = f(low) < 0;
  constexpr int kHalvings = 60;  // from a bracket of π/2 to the last bit
  for (int i = 0; i < kHalvings; ++i) {
    const double mid = (low + high) / 2;
    ((f(mid) < 0) == rising ? low : high) = mid;
  }
  return (low + high) / 2;
}

double j0(double x) {
  return std::cyl_bessel_j(0.0, x);
}
double j1(double x) {
  return std::cyl_bessel_j(1.0, x);
}

/// Sums term(β) e^(−β²τ) over the roots.
template <typename Term>
double sum_of_terms(double tau, double biot, const Term& term) {
  HW_CHECK(tau >= kLeastTau && biot > 0);
  double sum = 0;
  for (int n = 1;; ++n) {
    const double beta = cylinder_root(n, biot);
    const double decay = beta * beta * tau;
    sum += term(beta) * std::exp(-decay);
    if (decay > kNegligible) return sum;
  }
}

}  // namespace

double cylinder_root(int n, double biot) {
  HW_CHECK(n >= 1 && biot > 0);
  constexpr double kPi = std::numbers::pi;
  // The n-th zero of J0 lies in the second half of the n-th stretch of π, the zero of J1 before it
  // in the first half; the wanted root lies between those two.
  const double j0_zero = bisect((n - 0.5) * kPi, n * kPi, j0);
  if (std::isinf(biot)) return j0_zero;
  const double j1_zero = n == 1 ? 0.0 : bisect((n - 1) * kPi, (n - 0.5) * kPi, j1);
  return bisect(j1_zero, j0_zero, [&](double b) { return b * j1(b) - biot * j0(b); });
}

double cylinder_uptake_series(double tau, double biot) {
  return 1 - sum_of_terms(tau, biot, [&](double beta) {
           const double ratio = beta / biot;  // 0 without resistance
           return 4 / (beta * beta * (ratio * ratio + 1));
         });
}

double cylinder_strength_series(double rho, double tau, double biot) {
  HW_CHECK(rho >= 0 && rho <= 1);
  return 1 - sum_of_terms(tau, biot, [&](double beta) {
           // 2 L / ((β² + L²) J0(β)) with L J0 = β J1: bounded for every L.
           const double ratio = beta / biot;
           return 2 * j0(beta * rho) / (beta * j1(beta) * (ratio * ratio + 1));
         });
}

OneTerm cylinder_one_term(double biot) {
  const double beta = cylinder_root(1, biot);
  const double at0 = j0(beta);
  const double at1 = j1(beta);
  return {beta, 2 / beta * at1 / (at0 * at0 + at1 * at1)};
}

OneTerm sheet_one_term(double biot) {
  HW_CHECK(biot > 0 && !std::isinf(biot));
  const double root = bisect(0, std::numbers::pi / 2,
                             [&](double l) { return l * std::sin(l) - biot * std::cos(l); });
  return {root, 4 * std::sin(root) / (2 * root + std::sin(2 * root))};
}

OneTerm sphere_one_term(double biot) {
  HW_CHECK(biot > 0 && !std::isinf(biot));
  // λ from just above 0, where sin λ − λ cos λ − L sin λ is 0 for every L.
  constexpr double kAboveZero = 1e-6;
  const double root = bisect(kAboveZero, std::numbers::pi,
                             [&](double l) { return (1 - biot) * std::sin(l) - l * std::cos(l); });
  return {root, 4 * (std::sin(root) - root * std::cos(root)) / (2 * root - std::sin(2 * root))};
}

double sheet_uptake_series(double tau) {
  HW_CHECK(tau >= kLeastTau);
  double sum = 0;
  for (int odd = 1;; odd += 2) {
    const double beta = odd * std::numbers::pi / 2;
    sum += 2 / (beta * beta) * std::exp(-beta * beta * tau);
    if (beta * beta * tau > kNegligible) return 1 - sum;
  }
}

double sphere_uptake_series(double tau) {
  HW_CHECK(tau >= kLeastTau);
  double sum = 0;
  for (int n = 1;; ++n) {
    const double beta = n * std::numbers::pi;
    sum += 6 / (beta * beta) * std::exp(-beta * beta * tau);
    if (beta * beta * tau > kNegligible) return 1 - sum;
  }
}

}  // namespace hw::process
