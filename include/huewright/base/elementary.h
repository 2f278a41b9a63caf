#pragma once
// exp, log and friends from + - * / and bit moves alone, so that a stored simulation repeats bit
// for bit on any machine and the compiler can run them across members. Branch-free.
//
// exp: x = k·ln2 + r, |r| ≤ ln2/2; exp(r) by its Taylor polynomial of degree 13 (remainder <
// 2e-17). log: x = 2^k·m, m in [√½, √2); log(m) = 2·atanh(s), s = (m−1)/(m+1), odd series to s^21.
#include <bit>
#include <cmath>
#include <cstdint>

namespace hw {

/// e^x [1]. x: any real; held to [−708, 709] outside that. Relative error < 1e-15.
[[gnu::always_inline]] inline double exp_portable(double x) {
  constexpr double kLog2E = 1.4426950408889634074;
  constexpr double kLn2High = 6.93147180369123816490e-01;  // split of ln 2: fdlibm e_exp.c
  constexpr double kLn2Low = 1.90821492927058770002e-10;
  constexpr double kShift = 6755399441055744.0;  // 1.5·2^52: adding it rounds to an integer
  x = x < -708.0 ? -708.0 : x;
  x = x > 709.0 ? 709.0 : x;
  const double shifted = x * kLog2E + kShift;
  const double k = shifted - kShift;
  const double r = (x - k * kLn2High) - k * kLn2Low;
  double p = 1.0 / 6227020800.0;
  p = p * r + 1.0 / 479001600.0;
  p = p * r + 1.0 / 39916800.0;
  p = p * r + 1.0 / 3628800.0;
  p = p * r + 1.0 / 362880.0;
  p = p * r + 1.0 / 40320.0;
  p = p * r + 1.0 / 5040.0;
  p = p * r + 1.0 / 720.0;
  p = p * r + 1.0 / 120.0;
  p = p * r + 1.0 / 24.0;
  p = p * r + 1.0 / 6.0;
  p = p * r + 0.5;
  p = p * r + 1.0;
  p = p * r + 1.0;
  // The low bits of `shifted` are k; move them into the exponent field.
  const std::uint64_t scale = (std::bit_cast<std::uint64_t>(shifted) + 1023u) << 52;
  return p * std::bit_cast<double>(scale);
}

/// Natural logarithm [1]. x: > 0 and finite. Relative error < 1e-15 away from 1.
[[nodiscard]] inline double log_portable(double x) {
  constexpr double kLn2 = 0.693147180559945309417;
  constexpr double kSqrtHalf = 0.70710678118654752440;
  const auto bits = std::bit_cast<std::uint64_t>(x);
  auto exponent = static_cast<std::int64_t>(bits >> 52) - 1022;
  double m = std::bit_cast<double>((bits & 0x000fffffffffffffULL) | 0x3fe0000000000000ULL);
  if (m < kSqrtHalf) {
    m *= 2;
    exponent -= 1;
  }
  const double s = (m - 1) / (m + 1);
  const double q = s * s;
  double p = 0;
  for (int odd = 21; odd >= 1; odd -= 2) p = p * q + 1.0 / odd;
  return static_cast<double>(exponent) * kLn2 + 2 * s * p;
}

/// base^exponent [1]. base: > 0.
[[nodiscard]] inline double pow_portable(double base, double exponent) {
  return exp_portable(exponent * log_portable(base));
}

/// The x below which a standard normal variable falls with probability p [1]. p: in (0, 1), held to
/// [1e-12, 1 − 1e-12]. Absolute error < 1e-9. Source: Acklam's rational start, one Halley step is
/// not needed at the use here (random draws).
[[nodiscard]] double normal_quantile(double p);

}  // namespace hw
