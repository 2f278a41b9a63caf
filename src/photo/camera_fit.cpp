#include "camera_fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "huewright/colour/adaptation.h"
#include "huewright/colour/difference.h"
#include "solve.h"

namespace hw::photo {
namespace {

using colour::operator*;

using colour::HairLab;
using colour::HairXyz;

/// How Lab moves with XYZ at a colour, chroma weighted.
colour::Matrix3 weighted_slope(const HairLab& lab) {
  constexpr double kChroma = 0.045;  // cie116_1995, S_C of graphic arts
  const HairXyz xyz = colour::lab_to_xyz(lab);
  const auto& white = colour::white_of<colour::D65, colour::Deg10>();
  const auto slope = [](double t, double w) {
    constexpr double kEdge = 24.0 / 116;
    const double root = std::cbrt(std::max(t / w, kEdge * kEdge * kEdge));
    return 1 / (3 * root * root * w);
  };
  const double x = slope(xyz.x, white.x);
  const double y = slope(xyz.y, white.y);
  const double z = slope(xyz.z, white.z);
  const double chroma = 1 / (1 + kChroma * std::hypot(lab.a, lab.b));
  return {{{0, 116 * y, 0},
           {500 * x * chroma, -500 * y * chroma, 0},
           {0, 200 * y * chroma, -200 * z * chroma}}};
}

/// Colours near those of hair count for more: the fit is for them. Guess.
double likeness_to_hair(const HairLab& lab) {
  constexpr double kMore = 2;
  const bool near = lab.a > -6 && lab.b > -6 && std::hypot(lab.a, lab.b) < 45 && lab.l < 85;
  return near ? 1 + kMore : 1;
}

Lab3 difference(const HairLab& one, const HairLab& two) {
  return {one.l - two.l, one.a - two.a, one.b - two.b};
}

double median_of(std::vector<double> values) {
  std::ranges::sort(values);
  return values.empty() ? 0 : values[values.size() / 2];
}

constexpr std::size_t kNobody = kPatches;

}  // namespace

std::vector<double> CameraFit::terms(const Rgb& rgb) const {
  Rgb v{};
  for (std::size_t c = 0; c < 3; ++c) {
    const double share = std::max(0.0, rgb[c] * scale_[c]);
    v[c] = gamma_ == 1 ? share : std::pow(share, gamma_);
  }
  std::vector<double> out(v.begin(), v.end());
  if (roots_) {
    out.push_back(std::sqrt(v[0] * v[1]));
    out.push_back(std::sqrt(v[1] * v[2]));
    out.push_back(std::sqrt(v[0] * v[2]));
  }
  if (constant_) out.push_back(1);
  return out;
}

HairLab CameraFit::lab(const Rgb& rgb) const {
  const auto t = terms(rgb);
  HairXyz xyz;
  for (std::size_t i = 0; i < t.size(); ++i) {
    xyz.x += t[i] * coefficients_[3 * i];
    xyz.y += t[i] * coefficients_[3 * i + 1];
    xyz.z += t[i] * coefficients_[3 * i + 2];
  }
  return colour::xyz_to_lab(xyz);
}

/// One way of fitting, tried on the patches.
class Fitting {
 public:
  Fitting(const std::vector<FitPatch>& patches, double gamma, bool roots, bool constant) {
    fit_.gamma_ = gamma;
    fit_.roots_ = roots;
    fit_.constant_ = constant;
    Rgb top{};
    for (const FitPatch& patch : patches) {
      for (std::size_t c = 0; c < 3; ++c) top[c] = std::max(top[c], patch.rgb[c]);
    }
    for (std::size_t c = 0; c < 3; ++c) fit_.scale_[c] = 1 / std::max(top[c], 1e-6);
    for (const FitPatch& patch : patches) {
      if (!patch.used) continue;
      kept_.push_back(&patch);
      parts_.push_back(part_of(patch));
    }
    if (parts_.empty()) return;
    whole_ = parts_.front();
    for (std::size_t p = 1; p < parts_.size(); ++p) {
      for (std::size_t i = 0; i < whole_.a.size(); ++i) whole_.a[i] += parts_[p].a[i];
      for (std::size_t i = 0; i < whole_.b.size(); ++i) whole_.b[i] += parts_[p].b[i];
    }
  }

  /// Leaves out each patch in turn, then fits on all. False: the equations have no solution.
  bool run() {
    fit_.left_out_.clear();
    for (std::size_t i = 0; i < kept_.size(); ++i) {
      if (!solve(i)) return false;
      const HairLab got = fit_.lab(kept_[i]->rgb);
      fit_.left_out_.push_back({kept_[i]->patch, kept_[i]->reference,
                                difference(got, kept_[i]->reference),
                                colour::delta_e_2000(got, kept_[i]->reference)});
    }
    return solve(kNobody);
  }
  /// Root mean square of the errors, those near hair counted for more.
  [[nodiscard]] double score() const {
    double sum = 0;
    double weights = 0;
    for (const LeftOut& one : fit_.left_out()) {
      const double weight = likeness_to_hair(one.reference);
      sum += weight * one.de00 * one.de00;
      weights += weight;
    }
    return std::sqrt(sum / weights);
  }
  [[nodiscard]] const CameraFit& fit() const { return fit_; }

 private:
  /// What one patch adds to the equations.
  struct Part {
    std::vector<double> a, b;
  };

  [[nodiscard]] Part part_of(const FitPatch& patch) const {
    const auto t = fit_.terms(patch.rgb);
    const std::size_t n = 3 * t.size();
    const auto slope = weighted_slope(patch.reference);
    const HairXyz xyz = colour::lab_to_xyz(patch.reference);
    const double weight = likeness_to_hair(patch.reference);
    Part part{std::vector<double>(n * n), std::vector<double>(n)};
    colour::Matrix3 square{};
    for (std::size_t i = 0; i < 3; ++i) {
      for (std::size_t j = 0; j < 3; ++j) {
        for (std::size_t k = 0; k < 3; ++k) square[i][j] += weight * slope[k][i] * slope[k][j];
      }
    }
    const colour::Vector3 wanted = square * colour::Vector3{xyz.x, xyz.y, xyz.z};
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j) {
        part.a[i * n + j] = t[i / 3] * t[j / 3] * square[i % 3][j % 3];
      }
      part.b[i] = t[i / 3] * wanted[i % 3];
    }
    return part;
  }

  bool solve(std::size_t left_out) {
    const std::size_t terms = fit_.terms({1, 1, 1}).size();
    const std::size_t n = 3 * terms;
    // Priors in XYZ of 100, errors of 1 in Lab: roots and the constant are small unless needed.
    constexpr double kPlainSd = 300;
    constexpr double kRootSd = 30;
    constexpr double kConstantSd = 1;
    std::vector<double> a(n * n, 0.0);
    std::vector<double> b(n, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
      const std::size_t term = i / 3;
      const bool is_constant = fit_.has_constant() && term + 1 == terms;
      const double sd = term < 3 ? kPlainSd : is_constant ? kConstantSd : kRootSd;
      a[i * n + i] = 1 / (sd * sd);
    }
    for (std::size_t i = 0; i < a.size(); ++i) a[i] += whole_.a[i];
    for (std::size_t i = 0; i < n; ++i) b[i] += whole_.b[i];
    if (left_out != kNobody) {
      const Part& part = parts_[left_out];
      for (std::size_t i = 0; i < a.size(); ++i) a[i] -= part.a[i];
      for (std::size_t i = 0; i < n; ++i) b[i] -= part.b[i];
    }
    auto solved = solve_positive(std::move(a), std::move(b));
    if (!solved) return false;
    fit_.coefficients_ = *std::move(solved);
    return true;
  }

  CameraFit fit_;
  std::vector<const FitPatch*> kept_;
  std::vector<Part> parts_;
  Part whole_;  ///< their sum
};

namespace {

/// The best of all ways; ways with more freedom must earn it.
std::optional<CameraFit> best_fit(const std::vector<FitPatch>& patches) {
  constexpr std::array kGammas{1.0, 0.7, 0.76, 0.82, 0.88, 0.94, 1.06, 1.12, 1.2, 1.3, 1.4};
  constexpr double kGain = 0.95;  // a bent tone must bring the error below this share; guess
  std::optional<CameraFit> best;
  double least = 0;
  for (const double gamma : kGammas) {
    for (const bool roots : {false, true}) {
      for (const bool constant : {false, true}) {
        Fitting trial(patches, gamma, roots, constant);
        if (!trial.run()) continue;
        const double score = gamma == 1 ? trial.score() : trial.score() / kGain;
        if (best && score >= least) continue;
        best = trial.fit();
        least = score;
      }
    }
  }
  return best;
}

}  // namespace

Result<CameraFit> fit_camera(std::vector<FitPatch>& patches) {
  constexpr std::size_t kLeast = 12;
  constexpr std::size_t kMostUnlike = 3;
  constexpr double kUnlike = 4;    // times the median error; guess
  constexpr double kUnlikeDe = 6;  // and at least this CIEDE2000; guess
  const auto no_sense = [](std::string what) {
    return fail(ErrorCode::malformed, std::move(what), "chart",
                "see that the window shows the patches, edge to edge and in even light, and that "
                "the sheet names the edition of the chart");
  };
  for (std::size_t dropped = 0;; ++dropped) {
    const auto used = static_cast<std::size_t>(
        std::ranges::count_if(patches, [](const FitPatch& patch) { return patch.used; }));
    if (used < kLeast) {
      return no_sense(fmt::format("only {} of {} patches can be used", used, kPatches));
    }
    const auto best = best_fit(patches);
    if (!best) return no_sense("the patches give no colours");
    std::vector<double> errors;
    for (const LeftOut& one : best->left_out()) errors.push_back(one.de00);
    const double median = median_of(errors);
    const auto worst = std::ranges::max_element(best->left_out(), {}, &LeftOut::de00);
    if (worst->de00 < std::max(kUnlikeDe, kUnlike * median)) {
      constexpr double kMostMedian = 6;  // CIEDE2000; guess: twice what a bad lamp gives
      if (median > kMostMedian) {
        return no_sense(
            fmt::format("the patches are {:.0f} CIEDE2000 from what they should be", median));
      }
      return *best;
    }
    if (dropped == kMostUnlike) {
      return no_sense(fmt::format("more than {} patches are not what they should be", kMostUnlike));
    }
    std::ranges::find(patches, worst->patch, &FitPatch::patch)->used = false;
  }
}

Covariance CameraFit::error_at(const HairLab& lab) const {
  if (left_out_.empty()) {
    // A grey card: what the camera's own colours are wrong by. Guesses, held against rendered
    // frames.
    constexpr double kL = 2.5;
    constexpr double kA = 3;
    constexpr double kB = 4;
    return {kL * kL, 0, 0, 0, kA * kA, 0, 0, 0, kB * kB};
  }
  constexpr double kReach = 20;       // Lab; patches this far tell less of it; guess
  constexpr double kEveryone = 0.03;  // but all tell something
  // A patch left out errs by more than hair does: its own departure from the edition counts, and
  // it lies further out than hair. Fitted: bands of 95 % hold 95 to 99 % on rendered frames.
  constexpr double kOfPatches = 0.8;
  constexpr double kLeast = 0.1;  // Lab per axis, so that no chart seems perfect; guess
  Covariance sum{};
  double weights = 0;
  double squares = 0;
  for (const LeftOut& one : left_out_) {
    const Lab3 far = difference(one.reference, lab);
    const double distance = far[0] * far[0] + far[1] * far[1] + far[2] * far[2];
    const double weight = kEveryone + std::exp(-distance / (2 * kReach * kReach));
    for (std::size_t i = 0; i < 9; ++i) sum[i] += weight * one.error[i / 3] * one.error[i % 3];
    weights += weight;
    squares += weight * weight;
  }
  const double others = 1 + squares / (weights * weights);  // few patches know the spread badly
  for (std::size_t i = 0; i < 9; ++i) {
    sum[i] *= kOfPatches * kOfPatches * others / weights;
    if (i % 4 == 0) sum[i] += kLeast * kLeast;
  }
  return sum;
}

CameraFit fit_grey(const Rgb& grey, const Profile& profile) {
  constexpr double kGrey = 0.18;  // reflectance of a grey card: common practice, no source
  CameraFit fit;
  for (std::size_t c = 0; c < 3; ++c) fit.scale_[c] = kGrey / std::max(grey[c], 1e-6);
  const colour::WhitePoint d50{96.42, 100, 82.49};  // ICC.1, profile connection space
  const auto to_d65 =
      colour::adaptation_matrix(d50, colour::white_of<colour::D65, colour::Deg10>());
  const auto matrix = to_d65 * profile.to_xyz;
  fit.coefficients_.resize(9);
  for (std::size_t term = 0; term < 3; ++term) {
    for (std::size_t axis = 0; axis < 3; ++axis) {
      fit.coefficients_[3 * term + axis] = 100 * matrix[axis][term];
    }
  }
  return fit;
}

}  // namespace hw::photo
