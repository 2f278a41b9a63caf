#pragma once
// The few facts of a photo's EXIF block that a reading needs. Reads hostile bytes: every offset is
// looked at before it is followed, tables are read once, and what makes no sense is left out.
#include <optional>
#include <string_view>

namespace hw::photo {

struct Exif {
  int orientation = 1;                    ///< 1 to 8; 1: as stored
  std::optional<double> exposure_s = {};  ///< seconds, > 0
  std::optional<double> f_number = {};    ///< > 0
  std::optional<int> iso = {};            ///< > 0
  std::optional<bool> manual_white = {};  ///< white balance set by hand
  std::optional<bool> flash = {};         ///< it fired
  std::optional<bool> says_srgb = {};     ///< colour space 1; false: "uncalibrated"
};

/// The facts of an APP1 segment's content, which begins with "Exif\0\0" [never fails].
/// Source: CIPA DC-008 (EXIF 2.32), sections 4.6.2 and 4.6.5; TIFF 6.0, section 2.
[[nodiscard]] Exif read_exif(std::string_view segment);

}  // namespace hw::photo
