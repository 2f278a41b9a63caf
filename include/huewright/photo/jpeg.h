#pragma once
// Pictures from JPEG bytes and back, held to limits. A file is an attacker's until it is decoded:
// bytes, pixels and scans are bounded before memory is taken, and a damaged file is an Error, since
// half a picture would give a whole colour.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/photo/exif.h"

namespace hw::photo {

/// What a picture may cost. House rules, no source: a 40 Mpx telephone's photo passes.
struct JpegLimits {
  std::size_t bytes = std::size_t{12} << 20;  ///< of the file
  std::size_t pixels = 40'000'000;
  int scans = 64;  ///< of a progressive file; encoders write 10, a bomb thousands
};

/// How colour that a file holds for every second pixel is spread over the pixels.
enum class Chroma {
  smooth,   ///< to be looked at
  nearest,  ///< to be read from: a fifth faster, and no colour runs over an edge
};

/// A decoded picture as it is stored: not yet turned upright.
struct Picture {
  std::size_t width = 0;          ///< pixels
  std::size_t height = 0;         ///< pixels
  std::vector<std::uint8_t> rgb;  ///< encoded, 3 · width · height, row by row from the upper left
  bool grey = false;              ///< the file holds no colour
  std::string icc;                ///< embedded profile; empty: none
  Exif exif;
};

/// Decodes a JPEG. bytes: the whole file. Errors (where: "photo"): malformed (no JPEG: names the
/// kind where it is known; damaged; four inks), out_of_range (a limit).
[[nodiscard]] Result<Picture> decode_jpeg(std::string_view bytes, const JpegLimits& limits = {},
                                          Chroma chroma = Chroma::smooth);

/// A JPEG of a picture, baseline, 4:4:4. quality: 1 to 100. icc: written when not empty. No other
/// metadata is written. Error: out_of_range (no pixels, or a side above 65500), io (no memory).
[[nodiscard]] Result<std::string> encode_jpeg(const Picture& picture, int quality);

/// A photo fit to be kept: decoded within limits, turned upright, its long side brought down to
/// `most_side` pixels, written anew. Nothing of the old file is left but pixels and colour profile:
/// no place, no date, no preview, nothing hidden behind the picture. Errors: those of decode_jpeg.
[[nodiscard]] Result<std::string> clean_jpeg(std::string_view bytes, std::size_t most_side = 4096,
                                             const JpegLimits& limits = {});

/// A picture turned as its orientation tag says; the tag is 1 afterwards.
[[nodiscard]] Picture upright(const Picture& picture);

}  // namespace hw::photo
