#pragma once
// How unevenly the scene is lit, from the white paper of the sheet.
//   ln(light) = c0 + c1·x + c2·y + c3·r²    x, y: from the frame's middle, in halves of its long
//   side
// Priors of c1, c2: normal, sd 0.5; of c3, the lens's own darkening: mean −0.1, sd 0.2 (guesses).
// The posterior says how sure the light is away from the sheet.
#include <optional>

#include "chart.h"

namespace hw::photo {

class LightField {
 public:
  /// Light at a point over light at the sheet's middle [1].
  [[nodiscard]] double at(PointPx point) const;
  /// 1 sd of ln of that [1].
  [[nodiscard]] double sd_at(PointPx point) const;
  /// What the paper leaves unexplained, 1 sd of ln [1].
  [[nodiscard]] double residual() const { return residual_; }

 private:
  friend std::optional<LightField> fit_light(const Frame& frame, const std::vector<Sample>& paper,
                                             PointPx middle);
  [[nodiscard]] std::array<double, 3> terms(PointPx point) const;
  double half_ = 1, x0_ = 0, y0_ = 0, residual_ = 0;
  std::array<double, 3> middle_{}, coefficients_{};
  std::array<double, 9> covariance_{};
};

/// Pieces of the sheet's paper between and beside the tags.
[[nodiscard]] std::vector<Sample> look_at_paper(const Frame& frame, const Profile& profile,
                                                const FoundSheet& found);

/// paper: at least four pieces in the picture; outliers (a fold, a hand) are left out. Empty when
/// too few are left.
[[nodiscard]] std::optional<LightField> fit_light(const Frame& frame,
                                                  const std::vector<Sample>& paper, PointPx middle);

}  // namespace hw::photo
