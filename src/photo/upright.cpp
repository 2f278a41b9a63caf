// Orientation, and photos as they are kept. Orientation: CIPA DC-008, tag 0x0112: the side of the
// scene where row 0 and column 0 of the stored picture lie.
#include <algorithm>

#include "frame.h"

namespace hw::photo {
namespace {

/// Mean over blocks of factor × factor pixels; the rest at the right and lower edge is left out.
Picture reduced(const Picture& picture, std::size_t factor) {
  Picture small;
  small.width = picture.width / factor;
  small.height = picture.height / factor;
  small.icc = picture.icc;
  small.grey = picture.grey;
  small.rgb.resize(3 * small.width * small.height);
  const auto area = static_cast<std::uint32_t>(factor * factor);
  std::vector<std::uint32_t> sums(3 * small.width);
  for (std::size_t y = 0; y < small.height; ++y) {
    std::ranges::fill(sums, area / 2);
    for (std::size_t row = 0; row < factor; ++row) {
      const std::uint8_t* from = picture.rgb.data() + 3 * picture.width * (y * factor + row);
      for (std::size_t x = 0; x < small.width; ++x) {
        for (std::size_t i = 0; i < factor; ++i) {
          for (std::size_t c = 0; c < 3; ++c) sums[3 * x + c] += *from++;
        }
      }
    }
    std::uint8_t* to = small.rgb.data() + 3 * small.width * y;
    for (const std::uint32_t sum : sums) *to++ = static_cast<std::uint8_t>(sum / area);
  }
  return small;
}

}  // namespace

Frame::Frame(const Picture& picture)
    : data_(picture.rgb.data()), width_(picture.width), height_(picture.height) {
  const auto row = static_cast<std::ptrdiff_t>(3 * picture.width);
  const std::ptrdiff_t last_x = row - 3;
  const std::ptrdiff_t last_y = row * (static_cast<std::ptrdiff_t>(picture.height) - 1);
  step_y_ = row;
  const int orientation = picture.exif.orientation;
  if (orientation >= 5) std::swap(width_, height_);
  switch (orientation) {
    case 2:
      origin_ = last_x, step_x_ = -3, step_y_ = row;
      break;
    case 3:
      origin_ = last_x + last_y, step_x_ = -3, step_y_ = -row;
      break;
    case 4:
      origin_ = last_y, step_x_ = 3, step_y_ = -row;
      break;
    case 5:
      origin_ = 0, step_x_ = row, step_y_ = 3;
      break;
    case 6:
      origin_ = last_y, step_x_ = -row, step_y_ = 3;
      break;
    case 7:
      origin_ = last_x + last_y, step_x_ = -row, step_y_ = -3;
      break;
    case 8:
      origin_ = last_x, step_x_ = row, step_y_ = -3;
      break;
    default:
      break;
  }
}

Picture upright(const Picture& picture) {
  if (picture.exif.orientation == 1) return picture;
  const Frame frame(picture);
  Picture turned;
  turned.width = frame.width();
  turned.height = frame.height();
  turned.grey = picture.grey;
  turned.icc = picture.icc;
  turned.exif = picture.exif;
  turned.exif.orientation = 1;
  turned.rgb.resize(picture.rgb.size());
  // In squares: a row of one is a column of the other, and both stay in the cache.
  constexpr std::size_t kSquare = 32;
  for (std::size_t top = 0; top < turned.height; top += kSquare) {
    for (std::size_t left = 0; left < turned.width; left += kSquare) {
      const std::size_t bottom = std::min(turned.height, top + kSquare);
      const std::size_t right = std::min(turned.width, left + kSquare);
      for (std::size_t y = top; y < bottom; ++y) {
        std::uint8_t* to = turned.rgb.data() + 3 * (turned.width * y + left);
        for (std::size_t x = left; x < right; ++x) to = std::copy_n(frame.at(x, y), 3, to);
      }
    }
  }
  return turned;
}

Result<std::string> clean_jpeg(std::string_view bytes, std::size_t most_side,
                               const JpegLimits& limits) {
  constexpr int kQuality = 92;  // 1 to 100: below what an eye tells from the original; guess
  auto picture = decode_jpeg(bytes, limits);
  if (!picture) return tl::unexpected(picture.error());
  const std::size_t side = std::max(picture->width, picture->height);
  const std::size_t factor = most_side == 0 ? 1 : (side + most_side - 1) / most_side;
  const std::size_t smaller = std::min(picture->width, picture->height);
  if (factor > 1 && smaller / factor > 0) {
    const int orientation = picture->exif.orientation;
    *picture = reduced(*picture, factor);
    picture->exif.orientation = orientation;
  }
  return encode_jpeg(upright(*picture), kQuality);
}

}  // namespace hw::photo
