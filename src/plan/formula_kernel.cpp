#include "formula_kernel.h"

#include <bit>
#include <cmath>
#include <cstdint>

#include "huewright/base/check.h"

// Tests compile this file again for single instruction sets under other names and compare bits.
#ifndef HW_FORMULA_COLOURS
#define HW_FORMULA_LAYER formula_layer
#define HW_FORMULA_COLOURS formula_colours
#define HW_FORMULA_SLOPES formula_slopes
#define HW_FORMULA_DIFFERENCES formula_differences
#define HW_FORMULA_METRIC formula_metric
#define HW_FORMULA_BOUND formula_bound
#endif

namespace hw::plan {
namespace {

constexpr double kTiny = 1e-12;            // keeps a division by the length of nothing finite
constexpr double kLeastAbsorption = 1e-6;  // [1/cm], below any hair's: its root is divided by

[[gnu::always_inline]] inline double larger(double a, double b) {
  return a > b ? a : b;
}

[[gnu::always_inline]] inline double smaller(double a, double b) {
  return a < b ? a : b;
}

/// e^x for −700 < x ≤ 0 to 1e-11: exp_portable's way with a polynomial of degree 9. What is below
/// −700 counts as −700, where nothing is left.
[[gnu::always_inline]] inline double decay(double x) {
  constexpr double kLeast = -700;
  constexpr double kLog2E = 1.4426950408889634074;
  constexpr double kLn2 = 6.93147180559945309417e-01;
  constexpr double kShift = 6755399441055744.0;  // 1.5·2^52: adding it rounds to an integer
  x = larger(x, kLeast);
  const double shifted = x * kLog2E + kShift;
  const double r = x - (shifted - kShift) * kLn2;
  double p = 1.0 / 362880.0;
  p = p * r + 1.0 / 40320.0;
  p = p * r + 1.0 / 5040.0;
  p = p * r + 1.0 / 720.0;
  p = p * r + 1.0 / 120.0;
  p = p * r + 1.0 / 24.0;
  p = p * r + 1.0 / 6.0;
  p = p * r + 0.5;
  p = p * r + 1.0;
  p = p * r + 1.0;
  const std::uint64_t scale = (std::bit_cast<std::uint64_t>(shifted) + 1023u) << 52;
  return p * std::bit_cast<double>(scale);
}

/// f(t) of CIELAB (colour/lab.h). Its cube root: a cubic in t^(1/4) (own fit, 3e-4), then one
/// step of Halley's rule; within 1e-10 for t ≤ 1.2.
[[gnu::always_inline]] inline double lab_f(double t) {
  constexpr double kKnee = 24.0 / 116.0;
  t = larger(t, 0);
  const double s = std::sqrt(std::sqrt(larger(t, kKnee * kKnee * kKnee)));
  const double y = -0.02775696390859104 +
                   s * (0.6129889856501166 + s * (0.5295263757575859 - s * 0.11473167068815696));
  const double cube = y * y * y;
  const double root = y * (cube + 2 * t) / (2 * cube + t);
  const double line = 841.0 / 108.0 * t + 16.0 / 116.0;
  return t > kKnee * kKnee * kKnee ? root : line;
}

/// The angle [1/4 rad] whose cosine and sine are given, from −π/4 to π/4: within 2e-7 as far as
/// 100 degrees, 3 % beyond, where nothing depends on it.
[[gnu::always_inline]] inline double quarter_angle(double cosine, double sine) {
  const double half = sine / larger(1 + cosine, 1e-9);
  const double t = half / (1 + std::sqrt(1 + half * half));
  const double q = t * t;
  double p = -1.0 / 15;
  p = p * q + 1.0 / 13;
  p = p * q - 1.0 / 11;
  p = p * q + 1.0 / 9;
  p = p * q - 1.0 / 7;
  p = p * q + 1.0 / 5;
  p = p * q - 1.0 / 3;
  p = p * q + 1.0;
  return t * p;
}

/// Lightness, chroma and hue terms of CIEDE2000 and what they were divided by.
struct Terms {
  double l, c, h;  ///< dL'/SL, dC'/SC, dH'/SH
  double rt;       ///< their cross term
  double sl, sc, sh;
  double stretch;       ///< 1 + G, on a*
  double cosine, sine;  ///< of the mean hue
  double difference;
};

struct Hue {
  double cosine, sine, t, rt_angle_sine;
};

/// Mean hue of two unit vectors, T of sharma2005 eq. 15 and sin(2·Δθ) of eq. 16 and 21.
[[gnu::always_inline]] inline Hue hue_between(double x1, double y1, double x2, double y2) {
  // cos and sin of the angles in eq. 15 and 16.
  constexpr double kCos30 = 0.86602540378443864676, kSin30 = 0.5;
  constexpr double kCos6 = 0.99452189536827333692, kSin6 = 0.10452846326765347140;
  constexpr double kCos63 = 0.45399049973954679156, kSin63 = 0.89100652418836786236;
  constexpr double kCos275 = 0.08715574274765817356, kSin275 = -0.99619469809174553230;
  constexpr double kDegrees = 57.295779513082320877;
  const double x = x1 + x2;
  const double y = y1 + y2;
  const double length = std::sqrt(x * x + y * y);
  const double c = x / larger(length, kTiny);
  const double s = y / larger(length, kTiny);
  const double c2 = c * c - s * s;
  const double s2 = 2 * c * s;
  const double c3 = c2 * c - s2 * s;
  const double s3 = s2 * c + c2 * s;
  const double c4 = c2 * c2 - s2 * s2;
  const double s4 = 2 * c2 * s2;
  const double t = 1 - 0.17 * (c * kCos30 + s * kSin30) + 0.24 * c2 +
                   0.32 * (c3 * kCos6 - s3 * kSin6) - 0.20 * (c4 * kCos63 + s4 * kSin63);
  const double from_275 =
      4 * kDegrees * quarter_angle(c * kCos275 + s * kSin275, s * kCos275 - c * kSin275);
  const double steps = from_275 / 25;
  const double angle = 2 * 30 * decay(-steps * steps) / kDegrees;
  // sin of at most 60 degrees by its series.
  const double q = angle * angle;
  double p = -1.0 / 39916800;
  p = p * q + 1.0 / 362880;
  p = p * q - 1.0 / 5040;
  p = p * q + 1.0 / 120;
  p = p * q - 1.0 / 6;
  p = p * q + 1.0;
  return {c, s, t, angle * p};
}

/// √(C⁷ / (C⁷ + 25⁷)).
[[gnu::always_inline]] inline double chroma_root(double chroma) {
  const double r = chroma / 25;
  const double r2 = r * r;
  const double r7 = r2 * r2 * r2 * r;
  return std::sqrt(r7 / (r7 + 1));
}

[[gnu::always_inline]] inline Terms terms_of(double l1, double a1, double b1, double l2, double a2,
                                             double b2) {
  Terms out;
  const double plain = (std::sqrt(a1 * a1 + b1 * b1) + std::sqrt(a2 * a2 + b2 * b2)) / 2;
  out.stretch = 1 + 0.5 * (1 - chroma_root(plain));
  const double x1 = out.stretch * a1;
  const double x2 = out.stretch * a2;
  const double chroma1 = std::sqrt(x1 * x1 + b1 * b1);
  const double chroma2 = std::sqrt(x2 * x2 + b2 * b2);
  const double ux1 = x1 / larger(chroma1, kTiny);
  const double uy1 = b1 / larger(chroma1, kTiny);
  const double ux2 = x2 / larger(chroma2, kTiny);
  const double uy2 = b2 / larger(chroma2, kTiny);
  const double gap = std::sqrt((ux2 - ux1) * (ux2 - ux1) + (uy2 - uy1) * (uy2 - uy1));
  const double both = std::sqrt(chroma1 * chroma2);
  const double turned = ux1 * uy2 - ux2 * uy1;
  const double dh = turned < 0 ? -both * gap : both * gap;  // eq. 11: 2·√(C1·C2)·sin(Δh/2)
  const Hue hue = hue_between(ux1, uy1, ux2, uy2);
  const double chroma = (chroma1 + chroma2) / 2;
  const double from_50 = (l1 + l2) / 2 - 50;
  out.sl = 1 + 0.015 * from_50 * from_50 / std::sqrt(20 + from_50 * from_50);
  out.sc = 1 + 0.045 * chroma;
  out.sh = 1 + 0.015 * chroma * hue.t;
  out.rt = -2 * chroma_root(chroma) * hue.rt_angle_sine;
  out.cosine = hue.cosine;
  out.sine = hue.sine;
  out.l = (l2 - l1) / out.sl;
  out.c = (chroma2 - chroma1) / out.sc;
  out.h = dh / out.sh;
  const double square = out.l * out.l + out.c * out.c + out.h * out.h + out.rt * out.c * out.h;
  out.difference = std::sqrt(larger(square, 0));
  return out;
}

struct Lab {
  double l, a, b;
};
[[gnu::always_inline]] inline Lab lab_at(double x, double y, double z, const double* white) {
  const double fx = lab_f(x / white[0]);
  const double fy = lab_f(y / white[1]);
  const double fz = lab_f(z / white[2]);
  return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

[[gnu::always_inline]] inline double difference_at(double l, double a, double b, double x, double y,
                                                   double z, const double* white) {
  const Lab lab = lab_at(x, y, z, white);
  return terms_of(l, a, b, lab.l, lab.a, lab.b).difference;
}

/// What leaves the fibre: the body by 1 − Rs, the surface in white.
[[gnu::always_inline]] inline void add_surface(const BlockHair& hair, const BlockBands& bands,
                                               std::size_t first, const double* x, const double* y,
                                               const double* z, BlockXyz& xyz) {
  for (std::size_t j = 0; j < kLaneStep; ++j) {
    const double surface = hair.surface[first + j];
    xyz.x[first + j] = surface * bands.white[0] + (1 - surface) * x[j];
    xyz.y[first + j] = surface * bands.white[1] + (1 - surface) * y[j];
    xyz.z[first + j] = surface * bands.white[2] + (1 - surface) * z[j];
  }
}

/// d f / d t of CIELAB from f itself, over the white's part.
[[gnu::always_inline]] inline double lab_f_slope(double f, double white) {
  constexpr double kKnee = 24.0 / 116.0;
  return (f > kKnee ? 1 / (3 * f * f) : 841.0 / 108.0) / white;
}

/// Rows of the metric. With y = (L, C + RT/2·H, √(1 − RT²/4)·H) the difference is |y|, and a
/// distance |y| bends by (I − ŷŷᵀ)/|y|. Of the bend along ŷ a little is kept, so that a step to a
/// far target has an end.
[[gnu::always_inline]] inline void bend_of(const Terms& t, const Lab& lab, const double* white,
                                           std::size_t m, BlockMetric& metric) {
  constexpr double kTakenAlong = 0.8;  // leaves (1 − 0.8)² of the bend along ŷ; own choice
  constexpr double kNear = 0.5;        // CIEDE2000 below which a distance counts as smooth
  const double fy = (lab.l + 16) / 116;
  const double x_turn = 500 * lab_f_slope(fy + lab.a / 500, white[0]);
  const double y_turn = lab_f_slope(fy, white[1]);
  const double z_turn = 200 * lab_f_slope(fy - lab.b / 200, white[2]);
  const double l_of[3] = {0, 116 * y_turn / t.sl, 0};
  const double a_of[3] = {t.stretch * x_turn, -500 * t.stretch * y_turn, 0};
  const double b_of[3] = {0, 200 * y_turn, -z_turn};
  const double cross = std::sqrt(larger(1 - t.rt * t.rt / 4, 0));
  const double scale = 1 / larger(t.difference, kTiny);
  const double along[3] = {scale * t.l, scale * (t.c + t.rt / 2 * t.h), scale * cross * t.h};
  const double size = 1 / std::sqrt(larger(t.difference, kNear));
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double c = (t.cosine * a_of[axis] + t.sine * b_of[axis]) / t.sc;
    const double h = (t.cosine * b_of[axis] - t.sine * a_of[axis]) / t.sh;
    const double row[3] = {l_of[axis], c + t.rt / 2 * h, cross * h};
    const double taken = kTakenAlong * (along[0] * row[0] + along[1] * row[1] + along[2] * row[2]);
    for (std::size_t r = 0; r < 3; ++r) {
      metric.bend[r][axis][m] = size * (row[r] - taken * along[r]);
    }
  }
}

}  // namespace

HW_KERNEL void HW_FORMULA_LAYER(std::size_t count, const double* amount, double per_unit,
                                double* canvas) {
  for (std::size_t m = 0; m < count; ++m) canvas[m] += amount[m] * per_unit;
}

HW_KERNEL void HW_FORMULA_COLOURS(const BlockHair& hair, const BlockBands& bands,
                                  const double* bowl, BlockXyz& xyz) {
  for (std::size_t first = 0; first < hair.count; first += kLaneStep) {
    alignas(64) double x[kLaneStep] = {};
    alignas(64) double y[kLaneStep] = {};
    alignas(64) double z[kLaneStep] = {};
    for (std::size_t band = 0; band < bands.count; ++band) {
      const double* canvas = hair.canvas + band * hair.count + first;
      const double dyes = bowl[band];
      const double wx = bands.x[band];
      const double wy = bands.y[band];
      const double wz = bands.z[band];
      for (std::size_t j = 0; j < kLaneStep; ++j) {
        const std::size_t m = first + j;
        const double mu = canvas[j] + hair.uptake[m] * dyes;
        const double r = (1 - hair.white_share[m]) * decay(-hair.depth[m] * std::sqrt(mu));
        x[j] += wx * r;
        y[j] += wy * r;
        z[j] += wz * r;
      }
      if (!hair.any_white) continue;
      const double bare = bands.bare[band];
      for (std::size_t j = 0; j < kLaneStep; ++j) {
        const std::size_t m = first + j;
        const double mu = bare + hair.uptake[m] * dyes;
        const double r = hair.white_share[m] * decay(-hair.depth[m] * std::sqrt(mu));
        x[j] += wx * r;
        y[j] += wy * r;
        z[j] += wz * r;
      }
    }
    add_surface(hair, bands, first, x, y, z, xyz);
  }
}

HW_KERNEL void HW_FORMULA_SLOPES(const BlockHair& hair, const BlockBands& bands, const double* bowl,
                                 BlockXyz& xyz, double* slope) {
  for (std::size_t first = 0; first < hair.count; first += kLaneStep) {
    alignas(64) double x[kLaneStep] = {};
    alignas(64) double y[kLaneStep] = {};
    alignas(64) double z[kLaneStep] = {};
    alignas(64) double turn[kLaneStep];
    for (std::size_t band = 0; band < bands.count; ++band) {
      const double* canvas = hair.canvas + band * hair.count + first;
      const double dyes = bowl[band];
      const double bare = bands.bare[band];
      const double wx = bands.x[band];
      const double wy = bands.y[band];
      const double wz = bands.z[band];
      for (std::size_t j = 0; j < kLaneStep; ++j) {
        const std::size_t m = first + j;
        const double root = std::sqrt(larger(canvas[j] + hair.uptake[m] * dyes, kLeastAbsorption));
        const double r = (1 - hair.white_share[m]) * decay(-hair.depth[m] * root);
        x[j] += wx * r;
        y[j] += wy * r;
        z[j] += wz * r;
        turn[j] = r / root;
      }
      if (hair.any_white) {
        for (std::size_t j = 0; j < kLaneStep; ++j) {
          const std::size_t m = first + j;
          const double root = std::sqrt(larger(bare + hair.uptake[m] * dyes, kLeastAbsorption));
          const double r = hair.white_share[m] * decay(-hair.depth[m] * root);
          x[j] += wx * r;
          y[j] += wy * r;
          z[j] += wz * r;
          turn[j] += r / root;
        }
      }
      for (std::size_t j = 0; j < kLaneStep; ++j) {
        const std::size_t m = first + j;
        turn[j] *= -0.5 * hair.depth[m] * hair.uptake[m] * (1 - hair.surface[m]);
      }
      double* out = slope + band * hair.count + first;
      for (std::size_t j = 0; j < kLaneStep; ++j) out[j] = turn[j];
    }
    add_surface(hair, bands, first, x, y, z, xyz);
  }
}

HW_KERNEL void HW_FORMULA_DIFFERENCES(std::size_t count, const BlockTarget& target,
                                      const double* white, const BlockXyz& xyz,
                                      double* difference) {
  alignas(64) double out[kLaneStep];
  for (std::size_t first = 0; first < count; first += kLaneStep) {
    for (std::size_t j = 0; j < kLaneStep; ++j) {
      const std::size_t m = first + j;
      out[j] =
          difference_at(target.l[m], target.a[m], target.b[m], xyz.x[m], xyz.y[m], xyz.z[m], white);
    }
    for (std::size_t j = 0; j < kLaneStep; ++j) difference[first + j] = out[j];
  }
}

HW_KERNEL void HW_FORMULA_METRIC(std::size_t count, const BlockTarget& target, const double* white,
                                 const BlockXyz& xyz, BlockMetric& metric) {
  constexpr double kStep = 1e-7;  // of white, for the derivatives
  for (std::size_t m = 0; m < count; ++m) {
    const double x = xyz.x[m];
    const double y = xyz.y[m];
    const double z = xyz.z[m];
    const Lab lab = lab_at(x, y, z, white);
    const double l = target.l[m];
    const double a = target.a[m];
    const double b = target.b[m];
    const Terms t = terms_of(l, a, b, lab.l, lab.a, lab.b);
    metric.difference[m] = t.difference;
    const double step_x = kStep * white[0];
    const double step_y = kStep * white[1];
    const double step_z = kStep * white[2];
    metric.turn[0][m] = (difference_at(l, a, b, x + step_x, y, z, white) - t.difference) / step_x;
    metric.turn[1][m] = (difference_at(l, a, b, x, y + step_y, z, white) - t.difference) / step_y;
    metric.turn[2][m] = (difference_at(l, a, b, x, y, z + step_z, white) - t.difference) / step_z;
    bend_of(t, lab, white, m, metric);
  }
}

HW_KERNEL void HW_FORMULA_BOUND(std::size_t count, const BlockTarget& target, const double* white,
                                const BlockXyz& light, const BlockXyz& dark, double* bound) {
  // Least of 1 − |RT|/2: nothing of RT is left where both b* are positive (the mean hue is then at
  // least 95 degrees from 275), else |RT| ≤ 2·sin 60°.
  constexpr double kAwayFromBlue = 1 - 1e-6;
  constexpr double kNearBlue = 1 - 0.86602540378443864676;
  constexpr double kStretchMost = 1.5;  // 1 + G
  for (std::size_t m = 0; m < count; ++m) {
    const double fx_high = lab_f(light.x[m] / white[0]);
    const double fy_high = lab_f(light.y[m] / white[1]);
    const double fz_high = lab_f(light.z[m] / white[2]);
    const double fx_low = lab_f(dark.x[m] / white[0]);
    const double fy_low = lab_f(dark.y[m] / white[1]);
    const double fz_low = lab_f(dark.z[m] / white[2]);
    const double l = target.l[m];
    const double a = target.a[m];
    const double b = target.b[m];
    const double l_near = smaller(larger(l, 116 * fy_low - 16), 116 * fy_high - 16);
    const double a_low = 500 * (fx_low - fy_high);
    const double a_high = 500 * (fx_high - fy_low);
    const double b_low = 200 * (fy_low - fz_high);
    const double b_high = 200 * (fy_high - fz_low);
    const double from_50 = (l + l_near) / 2 - 50;
    const double sl = 1 + 0.015 * from_50 * from_50 / std::sqrt(20 + from_50 * from_50);
    const double dl = (l - l_near) / sl;
    const double da = a - smaller(larger(a, a_low), a_high);
    const double db = b - smaller(larger(b, b_low), b_high);
    const double a_most = kStretchMost * larger(larger(-a_low, a_high), 0);
    const double b_most = larger(larger(-b_low, b_high), 0);
    const double chroma = (std::sqrt(kStretchMost * a * kStretchMost * a + b * b) +
                           std::sqrt(a_most * a_most + b_most * b_most)) /
                          2;
    const double sc = 1 + 0.045 * chroma;  // above SH, whose T is below 2
    const double share = b >= 0 && b_low >= 0 ? kAwayFromBlue : kNearBlue;
    bound[m] = std::sqrt(dl * dl + share * (da * da + db * db) / (sc * sc));
  }
}

}  // namespace hw::plan
