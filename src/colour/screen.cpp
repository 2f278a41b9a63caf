#include "huewright/colour/screen.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "huewright/base/check.h"

namespace hw::colour {
namespace {

constexpr double kDegrees = 180.0 / std::numbers::pi;
constexpr double kFullTurn = 360;            // degrees
constexpr double kJustNoticeable = 0.02;     // ΔE_OK, css_color_4 sec. 13.2.1
constexpr double kChromaStep = 0.0001;       // OKLCH chroma and ΔE_OK, css_color_4 sec. 13.2.1
constexpr double kHalfStep16 = 0.5 / 65535;  // half a step of 16 bits: below it is rounding

struct OkMatrices {
  Matrix3 to_lms;  // from XYZ with Y = 1
  Matrix3 from_lms;
  Matrix3 to_lab;  // from the cube roots
  Matrix3 from_lab;
};

const OkMatrices& ok_matrices() {
  static const OkMatrices matrices = [] {
    OkMatrices out;
    // M1 and M2 of ottosson2020, "Converting from XYZ to Oklab".
    out.to_lms = {{{0.8189330101, 0.3618667424, -0.1288597137},
                   {0.0329845436, 0.9293118715, 0.0361456387},
                   {0.0482003018, 0.2643662691, 0.6338517070}}};
    out.to_lab = {{{0.2104542553, 0.7936177850, -0.0040720468},
                   {1.9779984951, -2.4285922050, 0.4505937099},
                   {0.0259040371, 0.7827717662, -0.8086757660}}};
    const auto& white = ScreenD65::kWhite;
    const Vector3 cones = out.to_lms * Vector3{white.x / 100, white.y / 100, white.z / 100};
    out.to_lms = diagonal({1 / cones[0], 1 / cones[1], 1 / cones[2]}) * out.to_lms;
    const auto from_lms = inverse(out.to_lms);
    const auto from_lab = inverse(out.to_lab);
    HW_CHECK(from_lms.has_value() && from_lab.has_value());
    out.from_lms = *from_lms;
    out.from_lab = *from_lab;
    return out;
  }();
  return matrices;
}

const RgbSpace& record(ScreenSpace space) {
  return space == ScreenSpace::srgb ? Srgb::space() : DisplayP3::space();
}

Vector3 linear_of(const OkLab& lab, const RgbSpace& space) {
  const ScreenXyz xyz = oklab_to_xyz(lab);
  return space.from_xyz * Vector3{xyz.x / 100, xyz.y / 100, xyz.z / 100};
}

OkLab oklab_of(const Vector3& linear, const RgbSpace& space) {
  const auto xyz = space.to_xyz * linear;
  return xyz_to_oklab({100 * xyz[0], 100 * xyz[1], 100 * xyz[2]});
}

Vector3 encoded(const Vector3& linear, const RgbSpace& space) {
  return {encode(linear[0], space.transfer), encode(linear[1], space.transfer),
          encode(linear[2], space.transfer)};
}

bool inside(const Vector3& rgb) {
  return std::all_of(rgb.begin(), rgb.end(),
                     [](double v) { return v >= -kHalfStep16 && v <= 1 + kHalfStep16; });
}

Vector3 clipped(Vector3 rgb) {
  for (double& v : rgb) v = std::clamp(v, 0.0, 1.0);
  return rgb;
}

// Linear RGB inside the gamut for a colour outside it.
Vector3 reduce_chroma(const OkLab& wanted, const RgbSpace& space) {
  if (wanted.l >= 1) return {1, 1, 1};
  if (wanted.l <= 0) return {0, 0, 0};
  OkLch current = oklab_to_oklch(wanted);
  const auto cut_of = [&](const OkLch& lch) {
    return clipped(linear_of(oklch_to_oklab(lch), space));
  };
  const auto miss_of = [&](const OkLch& lch, const Vector3& cut) {
    return delta_e_ok(oklab_of(cut, space), oklch_to_oklab(lch));
  };
  Vector3 cut = cut_of(current);
  if (miss_of(current, cut) < kJustNoticeable) return cut;
  double low = 0;
  double high = current.c;
  bool low_is_inside = true;
  while (high - low > kChromaStep) {
    current.c = (low + high) / 2;
    const Vector3 linear = linear_of(oklch_to_oklab(current), space);
    if (low_is_inside && inside(encoded(linear, space))) {
      low = current.c;
      continue;
    }
    cut = clipped(linear);
    const double miss = miss_of(current, cut);
    if (miss >= kJustNoticeable) {
      high = current.c;
      continue;
    }
    if (kJustNoticeable - miss < kChromaStep) return cut;
    low_is_inside = false;
    low = current.c;
  }
  return cut_of(current);
}

}  // namespace

OkLab xyz_to_oklab(const ScreenXyz& xyz) {
  const auto& m = ok_matrices();
  Vector3 lms = m.to_lms * Vector3{xyz.x / 100, xyz.y / 100, xyz.z / 100};
  for (double& v : lms) v = std::cbrt(v);
  const Vector3 lab = m.to_lab * lms;
  return {lab[0], lab[1], lab[2]};
}

ScreenXyz oklab_to_xyz(const OkLab& lab) {
  const auto& m = ok_matrices();
  Vector3 lms = m.from_lab * Vector3{lab.l, lab.a, lab.b};
  for (double& v : lms) v = v * v * v;
  const Vector3 xyz = m.from_lms * lms;
  return {100 * xyz[0], 100 * xyz[1], 100 * xyz[2]};
}

OkLch oklab_to_oklch(const OkLab& lab) {
  const double chroma = std::hypot(lab.a, lab.b);
  if (chroma == 0) return {lab.l, 0, 0};
  const double hue = std::atan2(lab.b, lab.a) * kDegrees;
  return {lab.l, chroma, hue < 0 ? hue + kFullTurn : hue};
}

OkLab oklch_to_oklab(const OkLch& lch) {
  const double hue = lch.h / kDegrees;
  return {lch.l, lch.c * std::cos(hue), lch.c * std::sin(hue)};
}

double delta_e_ok(const OkLab& one, const OkLab& two) {
  const double dl = one.l - two.l;
  const double da = one.a - two.a;
  const double db = one.b - two.b;
  return std::sqrt(dl * dl + da * da + db * db);
}

Result<ScreenSpace> screen_space_named(std::string_view name) {
  for (const auto space : {ScreenSpace::srgb, ScreenSpace::display_p3}) {
    if (record(space).name == name) return space;
  }
  return fail(ErrorCode::unknown_name, fmt::format("no screen space is called \"{}\"", name),
              "space", "use srgb or display-p3");
}

ScreenColour map_to_gamut(const ScreenXyz& xyz, ScreenSpace space) {
  const RgbSpace& rgb_space = record(space);
  const Vector3 linear = rgb_space.from_xyz * Vector3{xyz.x / 100, xyz.y / 100, xyz.z / 100};
  Vector3 out = encoded(linear, rgb_space);
  const bool fits = inside(out);
  if (!fits) out = encoded(reduce_chroma(xyz_to_oklab(xyz), rgb_space), rgb_space);
  out = clipped(out);
  return {out[0], out[1], out[2], fits};
}

ScreenColour to_screen(const HairLab& lab, ScreenSpace space) {
  return map_to_gamut(lab_to_xyz(on_screen_white(lab)), space);
}

std::array<std::uint8_t, 3> eight_bit(const ScreenColour& colour) {
  constexpr double kTop = 255;  // largest 8-bit number
  const auto whole = [](double v) {
    return static_cast<std::uint8_t>(std::lround(kTop * std::clamp(v, 0.0, 1.0)));
  };
  return {whole(colour.r), whole(colour.g), whole(colour.b)};
}

}  // namespace hw::colour
