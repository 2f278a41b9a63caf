#include "huewright/colour/difference.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace hw::colour {
namespace {

constexpr double kRadians = std::numbers::pi / 180.0;  // per degree
constexpr double kHalfTurn = 180;                      // degrees
constexpr double kFullTurn = 360;                      // degrees

double square(double x) {
  return x * x;
}

// Hue angle [degrees, 0 to 360]; 0 where there is no hue.
double hue_degrees(double a, double b) {
  if (a == 0 && b == 0) return 0;
  const double hue = std::atan2(b, a) / kRadians;
  return hue < 0 ? hue + kFullTurn : hue;
}

// C^7 / (C^7 + 25^7): how far a chroma has left the greys (sharma2005 eq. 4 and 17).
double chroma_share(double chroma) {
  constexpr double kGreyChroma = 25;
  const auto seventh = [](double v) { return v * v * v * v * v * v * v; };
  const double c7 = seventh(chroma);
  return c7 / (c7 + seventh(kGreyChroma));
}

// Adapted chroma and hue of sharma2005 eq. 5 to 7.
struct Adapted {
  double chroma = 0;
  double hue = 0;
};
Adapted adapt(const detail::Triple& lab, double g) {
  const double a = (1 + g) * lab.second;
  return {std::hypot(a, lab.third), hue_degrees(a, lab.third)};
}

// Signed hue step from one to two [degrees, −180 to 180], sharma2005 eq. 10.
double hue_step(const Adapted& one, const Adapted& two) {
  if (one.chroma * two.chroma == 0) return 0;
  const double step = two.hue - one.hue;
  if (step > kHalfTurn) return step - kFullTurn;
  if (step < -kHalfTurn) return step + kFullTurn;
  return step;
}

// Mean hue [degrees], sharma2005 eq. 14.
double mean_hue(const Adapted& one, const Adapted& two) {
  const double sum = one.hue + two.hue;
  if (one.chroma * two.chroma == 0) return sum;
  if (std::abs(one.hue - two.hue) <= kHalfTurn) return sum / 2;
  return sum < kFullTurn ? (sum + kFullTurn) / 2 : (sum - kFullTurn) / 2;
}

double cosine(double degrees) {
  return std::cos(degrees * kRadians);
}

}  // namespace

namespace detail {

double delta_e_76(const Triple& one, const Triple& two) {
  return std::sqrt(square(one.first - two.first) + square(one.second - two.second) +
                   square(one.third - two.third));
}

double delta_e_94(const Triple& reference, const Triple& sample, Cie94Use use) {
  const bool arts = use == Cie94Use::graphic_arts;
  const double kl = arts ? 1 : 2;          // cie116_1995; textiles: AATCC practice
  const double k1 = arts ? 0.045 : 0.048;  // cie116_1995
  const double k2 = arts ? 0.015 : 0.014;  // cie116_1995
  const double c1 = std::hypot(reference.second, reference.third);
  const double c2 = std::hypot(sample.second, sample.third);
  const double dl = reference.first - sample.first;
  const double dc = c1 - c2;
  const double dh2 = std::max(0.0, square(reference.second - sample.second) +
                                       square(reference.third - sample.third) - square(dc));
  return std::sqrt(square(dl / kl) + square(dc / (1 + k1 * c1)) + dh2 / square(1 + k2 * c1));
}

double delta_e_cmc(const Triple& reference, const Triple& sample, double l, double c) {
  // All constants: clarke1984, also BS 6923:1988.
  const double l1 = reference.first;
  const double c1 = std::hypot(reference.second, reference.third);
  const double c2 = std::hypot(sample.second, sample.third);
  const double h1 = hue_degrees(reference.second, reference.third);
  const double t = (h1 >= 164 && h1 <= 345) ? 0.56 + std::abs(0.2 * cosine(h1 + 168))
                                            : 0.36 + std::abs(0.4 * cosine(h1 + 35));
  const double c1_4 = square(square(c1));
  const double f = std::sqrt(c1_4 / (c1_4 + 1900));
  const double sl = l1 < 16 ? 0.511 : 0.040975 * l1 / (1 + 0.01765 * l1);
  const double sc = 0.0638 * c1 / (1 + 0.0131 * c1) + 0.638;
  const double sh = sc * (f * t + 1 - f);
  const double dl = l1 - sample.first;
  const double dc = c1 - c2;
  const double dh2 = std::max(0.0, square(reference.second - sample.second) +
                                       square(reference.third - sample.third) - square(dc));
  return std::sqrt(square(dl / (l * sl)) + square(dc / (c * sc)) + dh2 / square(sh));
}

double delta_e_2000(const Triple& one, const Triple& two, const Parametric& k) {
  const double plain_chroma =
      (std::hypot(one.second, one.third) + std::hypot(two.second, two.third)) / 2;
  const double g = 0.5 * (1 - std::sqrt(chroma_share(plain_chroma)));  // sharma2005 eq. 4
  const Adapted first = adapt(one, g);
  const Adapted second = adapt(two, g);

  const double dl = two.first - one.first;
  const double dc = second.chroma - first.chroma;
  const double dh = 2 * std::sqrt(first.chroma * second.chroma) *
                    std::sin(hue_step(first, second) * kRadians / 2);  // eq. 11

  const double l = (one.first + two.first) / 2;
  const double c = (first.chroma + second.chroma) / 2;
  const double h = mean_hue(first, second);

  const double t = 1 - 0.17 * cosine(h - 30) + 0.24 * cosine(2 * h) + 0.32 * cosine(3 * h + 6) -
                   0.20 * cosine(4 * h - 63);                                     // eq. 15
  const double turn = 30 * std::exp(-square((h - 275) / 25));                     // eq. 16
  const double rc = 2 * std::sqrt(chroma_share(c));                               // eq. 17
  const double sl = 1 + 0.015 * square(l - 50) / std::sqrt(20 + square(l - 50));  // eq. 18
  const double sc = 1 + 0.045 * c;                                                // eq. 19
  const double sh = 1 + 0.015 * c * t;                                            // eq. 20
  const double rt = -std::sin(2 * turn * kRadians) * rc;                          // eq. 21

  const double tl = dl / (k.kl * sl);
  const double tc = dc / (k.kc * sc);
  const double th = dh / (k.kh * sh);
  return std::sqrt(std::max(0.0, tl * tl + tc * tc + th * th + rt * tc * th));  // eq. 22
}

Result<void> same_viewing(const ViewedLab& one, const ViewedLab& two) {
  if (one.white == two.white && one.observer == two.observer) return {};
  return fail(ErrorCode::conflict,
              "the two colours were seen under different lights or by different observers", "lab",
              "compute both under one light and observer before comparing them");
}

}  // namespace detail

Result<double> delta_e_2000(const ViewedLab& one, const ViewedLab& two, const Parametric& k) {
  return detail::same_viewing(one, two).map([&] {
    return detail::delta_e_2000({one.l, one.a, one.b}, {two.l, two.a, two.b}, k);
  });
}

Result<double> delta_e_76(const ViewedLab& one, const ViewedLab& two) {
  return detail::same_viewing(one, two).map([&] {
    return detail::delta_e_76({one.l, one.a, one.b}, {two.l, two.a, two.b});
  });
}

}  // namespace hw::colour
