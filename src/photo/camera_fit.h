#pragma once
// From the numbers of one photo to colour in daylight, fitted on what lies in the sheet's window.
//   XYZ (D65, 10°) = Cᵀ·φ(r^γ)    r: linear RGB over the light field, 1 for the chart's white
// φ: r, g, b; with or without √rg, √gb, √rb (root_polynomial_2015), which keep hue when the
// exposure changes; with or without a constant, for stray light. γ bends a telephone's tones back.
// C is the least-squares solution of errors in Lab, chroma weighted as in CIE94 (cie116_1995);
// which φ and γ serve is decided by leaving out each patch in turn.
#include <vector>

#include "chart.h"
#include "huewright/photo/read.h"

namespace hw::photo {

struct FitPatch {
  std::size_t patch = 0;
  Rgb rgb{};
  colour::HairLab reference;
  bool used = true;  ///< false: looks unlike itself (covered, shining, another chart)
};

/// Error of a patch that the fit had not seen.
struct LeftOut {
  std::size_t patch = 0;
  colour::HairLab reference;
  Lab3 error{};     ///< fitted minus reference
  double de00 = 0;  ///< CIEDE2000
};

class CameraFit {
 public:
  [[nodiscard]] colour::HairLab lab(const Rgb& rgb) const;
  /// Of every patch used; empty for a grey card.
  [[nodiscard]] const std::vector<LeftOut>& left_out() const { return left_out_; }
  /// What the fit itself may be wrong by at a colour.
  [[nodiscard]] Covariance error_at(const colour::HairLab& lab) const;
  [[nodiscard]] double gamma() const { return gamma_; }
  [[nodiscard]] bool has_roots() const { return roots_; }
  [[nodiscard]] bool has_constant() const { return constant_; }

 private:
  friend class Fitting;
  friend CameraFit fit_grey(const Rgb& grey, const Profile& profile);
  [[nodiscard]] std::vector<double> terms(const Rgb& rgb) const;
  bool roots_ = false, constant_ = false;
  double gamma_ = 1;
  Rgb scale_{1, 1, 1};
  std::vector<double> coefficients_;  ///< three per term
  std::vector<LeftOut> left_out_;
};

/// The best fit on the patches; marks those that no fit explains as not used (three at most).
/// Error (malformed, where "chart"): fewer than 12 patches are left, or more than three make no
/// sense.
[[nodiscard]] Result<CameraFit> fit_camera(std::vector<FitPatch>& patches);

/// White balance and exposure alone, from a grey card of 18 %; the profile gives the rest.
[[nodiscard]] CameraFit fit_grey(const Rgb& grey, const Profile& profile);

}  // namespace hw::photo
