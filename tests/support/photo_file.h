#pragma once
// A rendered picture as a telephone would store it: turned, with its EXIF and its profile.
#include <cstdint>
#include <string>
#include <vector>

#include "support/photo_scene.h"

namespace hw::test {

/// Where a pixel of the upright picture is stored: the eight ways of CIPA DC-008, tag 0x0112.
std::size_t stored_at(int orientation, std::size_t x, std::size_t y, std::size_t w, std::size_t h);
/// w, h: as stored.
std::string jpeg_of(const std::vector<std::uint8_t>& rgb, std::size_t w, std::size_t h,
                    const PhotoScene& scene);

/// A grey ramp as a JPEG of some making: "baseline", "progressive", "rgb" (no luma and chroma),
/// "grey" (one channel), "cmyk" (four inks).
std::string ramp_jpeg(const std::string& making);

}  // namespace hw::test
