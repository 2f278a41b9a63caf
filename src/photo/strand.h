#pragma once
// The strand: stations along a line, and the stretches of one colour among them.
#include "camera_fit.h"
#include "light_field.h"

namespace hw::photo {

/// The line in pixels of the upright picture, measured along.
class Line {
 public:
  Line(const Frame& frame, const std::vector<PointShare>& points);
  [[nodiscard]] double length() const { return along_.back(); }  ///< pixels
  [[nodiscard]] PointPx at(double share) const;
  /// Unit vector along the line there.
  [[nodiscard]] PointPx direction(double share) const;

 private:
  [[nodiscard]] std::size_t piece(double share) const;
  std::vector<PointPx> points_;
  std::vector<double> along_;  ///< pixels from the start, of each point
};

/// What the picture shows at one place of the line.
struct RawStation {
  double share = 0;
  PointPx px;
  Rgb rgb{};           ///< median of the strip, linear
  double clipped = 0;  ///< share of pixels
  double floored = 0;  ///< share of pixels
};
/// Stations at equal steps. Error (where "line"): it leaves the picture or is too short.
[[nodiscard]] Result<std::vector<RawStation>> look_along(const Frame& frame, const Profile& profile,
                                                         const Line& line, double width_share);

/// First stations of the stretches of one colour, 0 first. stations: their Lab.
[[nodiscard]] std::vector<std::size_t> stretches(const std::vector<Lab3>& stations);

}  // namespace hw::photo
