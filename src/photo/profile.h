#pragma once
// What the numbers of a picture mean: curves to light, and the matrix to XYZ.
#include <array>
#include <string>

#include "huewright/base/result.h"
#include "huewright/colour/matrix.h"
#include "huewright/photo/jpeg.h"

namespace hw::photo {

struct Profile {
  std::string name;                                ///< "sRGB", "Display P3", …
  bool assumed = false;                            ///< the file names no colour space
  std::array<std::array<double, 256>, 3> light{};  ///< of each stored number, 0 to 1
  colour::Matrix3 to_xyz{};  ///< of linear RGB to XYZ, Y = 1 for the white, D50 of the ICC
};

/// The profile of a picture: the embedded one, else sRGB. Errors (malformed, where "photo"): a
/// profile that cannot be read, is not for RGB, or is no matrix with curves.
[[nodiscard]] Result<Profile> profile_of(const Picture& picture);

}  // namespace hw::photo
