#pragma once
// The patches of the chart: what they are, and what the picture shows of them.
#include <array>
#include <string>
#include <vector>

#include "huewright/colour/lab.h"
#include "profile.h"
#include "tags.h"

namespace hw::photo {

inline constexpr std::size_t kPatches = 24;  // six columns by four rows
inline constexpr std::size_t kColumns = 6;
inline constexpr std::size_t kRows = 4;
inline constexpr std::size_t kWhitePatch = 18;  // index; the greys go on to 23

struct PatchColour {
  std::string name;
  colour::HairLab lab;  ///< D65, 10 degrees, of the edition
};
/// The colours of an edition, patch by patch. The printed Lab are for D50 and 2 degrees; the step
/// to D65 and 10 degrees is that of the average spectrum of each patch (pascale2012).
[[nodiscard]] const std::array<PatchColour, kPatches>& chart_colours(ChartKind edition);

using Rgb = std::array<double, 3>;  ///< linear, 1 for the largest number of the file

/// What a piece of the sheet looks like in the picture.
struct Sample {
  PointMm at;
  PointPx px;
  Rgb rgb{};           ///< mean without the outer tenths
  double scatter = 0;  ///< of pixels, share of the mean green [1]
  double clipped = 0;  ///< share of pixels at the top of the scale
  double floored = 0;  ///< share of pixels with a channel at the bottom
  double unlike = 1;   ///< brightest over darkest part of the piece [1]
  std::size_t pixels = 0;
};
/// A square piece of the sheet. half_mm: half its side.
[[nodiscard]] Sample look_at(const Frame& frame, const Profile& profile, const Plane& plane,
                             PointMm at, double half_mm);

/// The middle of a patch [mm]. turned: the chart lies upside down in the window.
[[nodiscard]] PointMm patch_middle(const ChartSheet& sheet, std::size_t patch, bool turned);

}  // namespace hw::photo
