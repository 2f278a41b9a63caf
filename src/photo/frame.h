#pragma once
// A stored picture seen upright: pixels are found where they lie, nothing is moved.
#include <cmath>
#include <cstddef>

#include "huewright/photo/jpeg.h"

namespace hw::photo {

class Frame {
 public:
  explicit Frame(const Picture& picture);

  [[nodiscard]] std::size_t width() const { return width_; }    ///< pixels, upright
  [[nodiscard]] std::size_t height() const { return height_; }  ///< pixels, upright
  [[nodiscard]] double long_side() const {
    return static_cast<double>(width_ > height_ ? width_ : height_);
  }
  /// Neighbours in x lie a stored row apart, those in y side by side.
  [[nodiscard]] bool is_sideways() const { return step_y_ == 3 || step_y_ == -3; }
  /// The three bytes of an upright pixel. x below width(), y below height().
  [[nodiscard]] const std::uint8_t* at(std::size_t x, std::size_t y) const {
    return data_ + origin_ + static_cast<std::ptrdiff_t>(x) * step_x_ +
           static_cast<std::ptrdiff_t>(y) * step_y_;
  }
  /// The pixel that holds a point [pixels, centres at ½]; null outside.
  [[nodiscard]] const std::uint8_t* at_point(double x, double y) const {
    if (!(x >= 0 && y >= 0)) return nullptr;
    if (x >= static_cast<double>(width_) || y >= static_cast<double>(height_)) return nullptr;
    return at(static_cast<std::size_t>(x), static_cast<std::size_t>(y));
  }

 private:
  const std::uint8_t* data_;
  std::size_t width_, height_;
  std::ptrdiff_t origin_ = 0, step_x_ = 3, step_y_ = 0;
};

}  // namespace hw::photo
