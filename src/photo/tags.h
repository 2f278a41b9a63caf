#pragma once
// The sheet found in a picture: which one it is and where each of its millimetres lies.
#include <array>
#include <optional>
#include <utility>
#include <vector>

#include "frame.h"
#include "huewright/colour/matrix.h"
#include "huewright/photo/chart_sheet.h"

namespace hw::photo {

struct PointPx {
  double x = 0;
  double y = 0;
};

/// A plane seen by a camera: millimetres of the sheet to pixels of the upright picture, and back.
class Plane {
 public:
  [[nodiscard]] PointPx to_pixels(PointMm at) const;
  [[nodiscard]] PointMm to_mm(PointPx at) const;

 private:
  friend std::optional<Plane> fit_plane(const std::vector<std::pair<PointMm, PointPx>>& pairs);
  std::array<double, 9> there_{}, back_{};
};
/// The plane of matching points, at least four. Least squares; empty where they lie in a line.
[[nodiscard]] std::optional<Plane> fit_plane(const std::vector<std::pair<PointMm, PointPx>>& pairs);

struct FoundSheet {
  ChartSheet sheet;
  Plane plane;
};

/// The sheet in a picture; empty optional: no tag of a sheet is seen at all. Errors (where
/// "chart"): missing (some of the four are not seen: names them), conflict (tags of two sheets).
[[nodiscard]] Result<std::optional<FoundSheet>> find_sheet(const Frame& frame);

}  // namespace hw::photo
