#include "support/photo_scene.h"

#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <numbers>
#include <random>

#include "huewright/base/csv.h"
#include "huewright/colour/light.h"
#include "support/photo_file.h"

namespace hw::test {
namespace {

using Rgb = std::array<double, 3>;
using Matrix = std::array<Rgb, 3>;

constexpr double kTagMm = 20;
constexpr double kTagGap = 8;

Spectrum flat(double value) {
  Spectrum spectrum;
  spectrum.fill(value);
  return spectrum;
}

Rgb times(const Matrix& m, const Rgb& v) {
  Rgb out{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) out[i] += m[i][j] * v[j];
  }
  return out;
}

Matrix inverse(const Matrix& m) {
  const auto minor = [&](std::size_t i, std::size_t j) {
    const auto at = [&](std::size_t a, std::size_t b) { return m[(i + a) % 3][(j + b) % 3]; };
    return at(1, 1) * at(2, 2) - at(1, 2) * at(2, 1);
  };
  const double whole = m[0][0] * minor(0, 0) + m[0][1] * minor(0, 1) + m[0][2] * minor(0, 2);
  Matrix out;
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) out[j][i] = minor(i, j) / whole;
  }
  return out;
}

Rgb raw_of(const Spectrum& reflectance, const PhotoScene& scene) {
  Rgb plain{};
  for (std::size_t band = 0; band < reflectance.size(); ++band) {
    for (std::size_t c = 0; c < 3; ++c) {
      const double z =
          (colour::wavelength_nm(band) - scene.camera.centre_nm[c]) / scene.camera.sd_nm[c];
      plain[c] += reflectance[band] * scene.light[band] * std::exp(-z * z / 2);
    }
  }
  const double cross = scene.camera.cross;
  return {plain[0] + cross * plain[1], plain[1] + cross * (plain[0] + plain[2]) / 2,
          plain[2] + cross * plain[1]};
}

/// Columns of a matrix profile at D50, Bradford: theory for the primaries (iec61966_2_1; Display
/// P3).
Matrix primaries(bool p3) {
  if (p3) {
    return {{{0.515119, 0.291978, 0.157103},
             {0.241189, 0.692244, 0.066567},
             {-0.001050, 0.041879, 0.784071}}};
  }
  return {{{0.436041, 0.385113, 0.143046},
           {0.222485, 0.716905, 0.060608},
           {0.013920, 0.097067, 0.713913}}};
}

/// What the phone's maker did once: a matrix from white-balanced numbers to XYZ in D50, fitted on
/// many smooth spectra under this light.
Matrix maker_matrix(const PhotoScene& scene, const Rgb& white) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> uniform(0, 1);
  const auto& d50 = colour::viewing(colour::Illuminant::d50, colour::Observer::deg2);
  Matrix square{};
  Matrix cross{};
  for (int n = 0; n < 400; ++n) {
    Spectrum spectrum = flat(0.05 + 0.3 * uniform(random));
    for (int k = 0; k < 3; ++k) {
      const double middle = 380 + 400 * uniform(random);
      const double width = 30 + 80 * uniform(random);
      const double high = 0.6 * uniform(random) * (n % 3 == 0 ? 0.3 : 1);
      for (std::size_t band = 0; band < spectrum.size(); ++band) {
        const double z = (colour::wavelength_nm(band) - middle) / width;
        spectrum[band] += high * std::exp(-z * z / 2);
      }
    }
    Rgb raw = raw_of(spectrum, scene);
    for (std::size_t c = 0; c < 3; ++c) raw[c] /= white[c];
    Rgb xyz{};
    for (std::size_t band = 0; band < spectrum.size(); ++band) {
      xyz[0] += spectrum[band] * d50.x[band] / 100;
      xyz[1] += spectrum[band] * d50.y[band] / 100;
      xyz[2] += spectrum[band] * d50.z[band] / 100;
    }
    for (std::size_t i = 0; i < 3; ++i) {
      for (std::size_t j = 0; j < 3; ++j) {
        square[i][j] += raw[i] * raw[j];
        cross[i][j] += xyz[i] * raw[j];
      }
    }
  }
  const Matrix back = inverse(square);
  Matrix out{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      for (std::size_t k = 0; k < 3; ++k) out[i][j] += cross[i][k] * back[k][j];
    }
  }
  return out;
}

double srgb_curve(double light) {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055;
}

enum Material : int { kBackground, kPaper, kBlack, kGap, kPatch, kHair = kPatch + 24 };

/// The plane of the sheet in the picture.
struct View {
  explicit View(const PhotoScene& scene) : scene_(scene) {
    const double turn = scene.degrees * std::numbers::pi / 180;
    cos_ = std::cos(turn);
    sin_ = std::sin(turn);
  }
  /// Millimetres of the window's frame, from pixels: solves the perspective of one point.
  [[nodiscard]] std::array<double, 2> mm(double px, double py) const {
    // u = s·(x cos − y sin)/w, v = s·(x sin + y cos)/w, w = 1 + tilt·x; x, y from the middle.
    const double u = (px - scene_.sheet_at[0]) / scene_.px_per_mm;
    const double v = (py - scene_.sheet_at[1]) / scene_.px_per_mm;
    const double along = u * cos_ + v * sin_;
    const double across = -u * sin_ + v * cos_;
    const double x = along / (1 - scene_.tilt * along);
    const double y = across * (1 + scene_.tilt * x);
    return {x + scene_.window_width_mm / 2.0, y + scene_.window_height_mm / 2.0};
  }

 private:
  const PhotoScene& scene_;
  double cos_ = 1, sin_ = 0;
};

struct TagPictures {
  explicit TagPictures(const std::array<int, 4>& ids) {
    apriltag_family_t* family = tag36h11_create();
    for (std::size_t k = 0; k < 4; ++k) {
      image_u8_t* image = apriltag_to_image(family, ids[k]);
      for (std::size_t i = 0; i < 100; ++i) {
        black[k][i] = image->buf[i / 10 * static_cast<std::size_t>(image->stride) + i % 10] < 128;
      }
      image_u8_destroy(image);
    }
    tag36h11_destroy(family);
  }
  std::array<std::array<bool, 100>, 4> black{};
};

int page_material(const PhotoScene& scene, double x, double y) {
  const PrintedPage& page = *scene.printed;
  const double px = (x + page.window_at_mm[0]) * page.px_per_mm;
  const double py = (y + page.window_at_mm[1]) * page.px_per_mm;
  if (!(px >= 0 && py >= 0)) return kBackground;
  const auto column = static_cast<std::size_t>(px);
  const auto row = static_cast<std::size_t>(py);
  if (column >= page.width || row >= page.height) return kBackground;
  return page.grey[row * page.width + column] < 128 ? kBlack : kPaper;
}

int sheet_material(const PhotoScene& scene, const TagPictures& tags, double x, double y) {
  constexpr double kEdge = kTagGap + kTagMm + 4;
  const double w = scene.window_width_mm;
  const double h = scene.window_height_mm;
  const bool in_window = x >= 0 && x < w && y >= 0 && y < h;
  if (scene.printed && !in_window) return page_material(scene, x, y);
  if (x < -kEdge || y < -kEdge || x > w + kEdge || y > h + kEdge) return kBackground;
  if (in_window) {
    if (scene.kind == 2) return kPatch;
    // Patches with black lines of 1.5 mm between them; the outer edges meet the window.
    constexpr double kLine = 1.5;
    const double pitch_x = (w + kLine) / 6;
    const double pitch_y = (h + kLine) / 4;
    const auto column = static_cast<int>(x / pitch_x);
    const auto row = static_cast<int>(y / pitch_y);
    if (x - column * pitch_x > pitch_x - kLine || y - row * pitch_y > pitch_y - kLine) return kGap;
    const int place = 6 * row + column;
    return kPatch + (scene.turned ? 23 - place : place);
  }
  for (int k = 0; scene.tags && k < 4; ++k) {
    if (k == scene.hidden_tag) continue;
    const bool right = k == 1 || k == 2;
    const double left = right ? w + kTagGap : -kTagGap - kTagMm;
    const double top = k >= 2 ? h + kTagGap : -kTagGap - kTagMm;
    const double cell = kTagMm / 8;
    const double i = std::floor((x - left) / cell) + 1;
    const double j = std::floor((y - top) / cell) + 1;
    if (i < 0 || j < 0 || i > 9 || j > 9) continue;
    const auto at = static_cast<std::size_t>(10 * j + i);
    return tags.black[static_cast<std::size_t>(k)][at] ? kBlack : kPaper;
  }
  return kPaper;
}

/// Where a pixel lies on the strand: share of the line, and distance; share below 0 beside it.
std::array<double, 2> on_line(const PhotoScene& scene, double x, double y) {
  double whole = 0;
  for (std::size_t i = 1; i < scene.line.size(); ++i) {
    whole += std::hypot(scene.line[i][0] - scene.line[i - 1][0],
                        scene.line[i][1] - scene.line[i - 1][1]);
  }
  double before = 0;
  double best = 1e9;
  double share = -1;
  for (std::size_t i = 1; i < scene.line.size(); ++i) {
    const double dx = scene.line[i][0] - scene.line[i - 1][0];
    const double dy = scene.line[i][1] - scene.line[i - 1][1];
    const double length = std::hypot(dx, dy);
    const double t =
        ((x - scene.line[i - 1][0]) * dx + (y - scene.line[i - 1][1]) * dy) / (length * length);
    const double held = std::clamp(t, 0.0, 1.0);
    const double far =
        std::hypot(x - scene.line[i - 1][0] - held * dx, y - scene.line[i - 1][1] - held * dy);
    if (far < best) {
      best = far;
      share = (before + held * length) / whole;
    }
    before += length;
  }
  return {share, best};
}

/// A table of tests/data; benchmarks read it too, so the place comes from the build.
Table table_at(const std::string& path) {
  std::ifstream in(HW_PHOTO_DATA + path, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  return parse_table(text, path).value();
}

/// Fast noise of about normal shape, sd 1: the sum of four uniforms.
class Noise {
 public:
  explicit Noise(std::uint64_t seed) : state_(seed * 0x9E3779B97F4A7C15ULL + 1) {}
  double operator()() {
    double sum = 0;
    for (int i = 0; i < 4; ++i) {
      state_ ^= state_ << 13U;
      state_ ^= state_ >> 7U;
      state_ ^= state_ << 17U;
      sum += static_cast<double>(state_ >> 11U) * 0x1p-53;
    }
    return (sum - 2) * std::sqrt(3.0);
  }

 private:
  std::uint64_t state_;
};

}  // namespace

const std::vector<Camera>& cameras() {
  static const std::vector<Camera> kAll{{"broad", {600, 535, 460}, {36, 42, 32}, 0.05},
                                        {"narrow", {610, 530, 455}, {26, 33, 24}, 0.02},
                                        {"near eye", {592, 545, 450}, {38, 40, 24}, 0.0}};
  return kAll;
}

Spectrum strand_spectrum(double low, double high, double middle_nm, double width_nm) {
  Spectrum spectrum;
  for (std::size_t band = 0; band < spectrum.size(); ++band) {
    spectrum[band] =
        low + (high - low) / (1 + std::exp(-(colour::wavelength_nm(band) - middle_nm) / width_nm));
  }
  return spectrum;
}

const std::vector<NamedSpectrum>& strands() {
  static const std::vector<NamedSpectrum> kAll{
      {"black", strand_spectrum(0.020, 0.055, 650, 60)},
      {"darkest brown", strand_spectrum(0.022, 0.11, 640, 60)},
      {"dark brown", strand_spectrum(0.028, 0.20, 630, 60)},
      {"light brown", strand_spectrum(0.04, 0.32, 620, 65)},
      {"dark blond", strand_spectrum(0.06, 0.42, 600, 70)},
      {"blond", strand_spectrum(0.09, 0.55, 570, 75)},
      {"pale yellow", strand_spectrum(0.14, 0.68, 520, 50)},
      {"orange", strand_spectrum(0.05, 0.42, 590, 30)},
      {"copper", strand_spectrum(0.035, 0.35, 610, 22)},
      {"red", strand_spectrum(0.03, 0.28, 625, 15)},
      {"silver", strand_spectrum(0.30, 0.42, 520, 60)}};
  return kAll;
}

const std::vector<Spectrum>& patch_spectra() {
  static const std::vector<Spectrum> kAll = [] {
    const Table most = table_at("/colour/chart_spectra.csv");
    const Table rest = table_at("/photo/chart_spectra_rest.csv");
    std::vector<Spectrum> all;
    for (int i = 1; i <= 24; ++i) {
      const std::string column = "p" + std::to_string(i);
      const auto values = (most.has(column) ? most : rest).numbers(column);
      all.push_back(*colour::resample(380, 10, *values));
    }
    return all;
  }();
  return kAll;
}

std::vector<double> line_shares(const PhotoScene& scene) {
  std::vector<double> out;
  for (const auto& point : scene.line) {
    out.push_back(point[0] / static_cast<double>(scene.width));
    out.push_back(point[1] / static_cast<double>(scene.height));
  }
  return out;
}

std::array<double, 2> sheet_mm(const PhotoScene& scene, double x, double y) {
  return View(scene).mm(x, y);
}

std::string render(const PhotoScene& scene) {
  std::vector<Spectrum> materials(kHair);
  materials[kBackground] = flat(0.25);
  materials[kPaper] =
      scene.cream ? strand_spectrum(0.45, 0.82, 490, 25) : strand_spectrum(0.6, 0.88, 420, 12);
  materials[kBlack] = flat(0.04);
  materials[kGap] = flat(0.035);
  for (std::size_t i = 0; i < 24; ++i) materials[kPatch + i] = patch_spectra()[i];
  if (scene.kind == 2) materials[kPatch] = flat(0.18);
  Noise chart(scene.chart_seed > 0 ? scene.chart_seed : scene.seed + 1000);
  for (std::size_t i = 0; i < 24; ++i) {
    // Of each patch, a third of the difference tilts its spectrum.
    const double all = scene.chart_apart * chart();
    const double tilt = scene.chart_apart * chart() / 3;
    for (std::size_t band = 0; band < 81; ++band) {
      const double place = (static_cast<double>(band) - 40) / 40;
      materials[kPatch + i][band] *= std::exp(all + tilt * place);
    }
  }
  for (const StrandZone& zone : scene.zones) {
    materials.push_back(zone.reflectance);
    for (double& value : materials.back()) value *= std::exp(scene.strand_light);
  }
  const Rgb white = raw_of(flat(1), scene);
  const Matrix maker = maker_matrix(scene, white);
  const Matrix screen = inverse(primaries(scene.p3));
  std::vector<Rgb> raws;
  for (const Spectrum& material : materials) {
    Rgb raw = raw_of(material, scene);
    for (std::size_t c = 0; c < 3; ++c) raw[c] *= scene.exposure / white[c];
    raws.push_back(raw);
  }
  const TagPictures tags(scene.tag_ids);
  const View view(scene);
  Noise noise(scene.seed);
  const auto w = static_cast<double>(scene.width);
  const auto h = static_cast<double>(scene.height);
  const double corner = (w * w + h * h) / 4;
  std::vector<std::uint8_t> rgb(3 * scene.width * scene.height);
  for (std::size_t py = 0; py < scene.height; ++py) {
    for (std::size_t px = 0; px < scene.width; ++px) {
      Rgb raw{};
      for (int sub = 0; sub < 2; ++sub) {
        const double x = static_cast<double>(px) + 0.25 + 0.5 * sub;
        const double y = static_cast<double>(py) + 0.25 + 0.5 * sub;
        const auto mm = view.mm(x, y);
        int material = sheet_material(scene, tags, mm[0], mm[1]);
        double texture = 1;
        if (material == kBackground && !scene.zones.empty()) {
          const auto [share, far] = on_line(scene, x, y);
          if (far < scene.strand_half_px) {
            std::size_t zone = 0;
            while (zone + 1 < scene.zones.size() && share > scene.zones[zone].to_share) ++zone;
            material = kHair + static_cast<int>(zone);
            // Strands side by side: a pattern across, steady along.
            texture = std::exp(scene.hair_texture * std::sin(1.9 * x + 0.05 * y) * std::sqrt(2.0));
          }
        }
        double added = 0;
        if (scene.glare > 0 && material >= kPatch && material < kHair) {
          const double far =
              std::hypot(mm[0] - scene.window_width_mm / 2.0, mm[1] - scene.window_height_mm / 2.0);
          added = scene.glare * std::exp(-far * far / 400);
        }
        if (material >= kHair) added = scene.strand_glare;
        const bool shaded =
            material != kBackground && material < kHair && mm[0] > 0.6 * scene.window_width_mm;
        const double left = shaded ? 1 - scene.shadow : 1;
        const Rgb& own = raws[static_cast<std::size_t>(material)];
        for (std::size_t c = 0; c < 3; ++c) raw[c] += left * (own[c] * texture + added) / 2;
      }
      const double dx = static_cast<double>(px) - w / 2;
      const double dy = static_cast<double>(py) - h / 2;
      const double light =
          (1 - scene.vignette * (dx * dx + dy * dy) / corner) * std::exp(scene.slope_x * dx / w);
      for (double& channel : raw) {
        channel *= light;
        channel += scene.noise * std::sqrt(std::max(channel, 0.0) + 0.01) * noise();
        channel = std::min(channel, 1.2);
      }
      const Rgb screen_rgb = times(screen, times(maker, raw));
      const std::size_t at = 3 * stored_at(scene.orientation, px, py, scene.width, scene.height);
      for (std::size_t c = 0; c < 3; ++c) {
        const double linear = std::pow(std::clamp(screen_rgb[c], 0.0, 1.0), scene.tone);
        rgb[at + c] = static_cast<std::uint8_t>(std::lround(255 * srgb_curve(linear)));
      }
    }
  }
  const bool sideways = scene.orientation >= 5;
  return jpeg_of(rgb, sideways ? scene.height : scene.width, sideways ? scene.width : scene.height,
                 scene);
}

}  // namespace hw::test
