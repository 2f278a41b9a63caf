#pragma once
// A sheet of pixels to draw on, owned; the only file that speaks to the drawing library directly is
// canvas.cpp, save for the field of the chart, which is pixels.
#include <cairo.h>

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/colour/lab.h"

namespace hw::sheets {

struct Box {
  double x = 0;
  double y = 0;
  double w = 0;
  double h = 0;
  [[nodiscard]] double right() const { return x + w; }
  [[nodiscard]] double bottom() const { return y + h; }
  [[nodiscard]] bool meets(const Box& other) const {
    return x < other.right() && other.x < right() && y < other.bottom() && other.y < bottom();
  }
  [[nodiscard]] bool holds(const Box& other) const {
    return other.x >= x && other.y >= y && other.right() <= right() && other.bottom() <= bottom();
  }
};

struct Point {
  double x = 0;
  double y = 0;
};

/// Encoded sRGB, 0 to 1, and opacity.
struct Ink {
  double r = 0;
  double g = 0;
  double b = 0;
  double a = 1;
};
/// A neutral of some L*.
[[nodiscard]] Ink neutral(double lstar, double opacity = 1);
[[nodiscard]] Ink ink_of(const colour::HairLab& lab);

struct Type {
  double size = 13;  ///< of the letters [units]
  bool bold = false;
};
enum class Align { left, centre, right };

class Canvas {
 public:
  Canvas(double width, double height, double scale);
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;

  void fill(const Box& box, const Ink& ink);
  void fill_round(const Box& box, double radius, const Ink& ink);
  void fill_shape(std::span<const Point> corners, const Ink& ink);
  void stroke(std::span<const Point> points, double width, const Ink& ink,
              std::span<const double> dash = {});
  void stroke_shape(std::span<const Point> corners, double width, const Ink& ink);
  /// Text on one line; y is its base line.
  void text(const std::string& words, Point at, const Type& type, const Ink& ink,
            Align align = Align::left);
  /// Text on the field: whatever was drawn there gives way to the field's own colours round it.
  void text_on_field(const std::string& words, Point at, const Type& type, const Ink& ink,
                     Align align = Align::left);
  /// Text turned a quarter to read upwards, centred on a point.
  void text_upwards(const std::string& words, Point centre, const Type& type, const Ink& ink);
  [[nodiscard]] double text_width(const std::string& words, const Type& type);
  /// As much of the words as fits, with an ellipsis when cut.
  [[nodiscard]] std::string fitted(const std::string& words, double width, const Type& type);
  /// Pixels (0xffrrggbb, row by row) laid without scaling at a corner that lies on a whole pixel;
  /// they are the field that text_on_field() knows.
  void paint_field(std::span<const std::uint32_t> argb, int width, int height, Point corner);
  void clip(const Box& box);
  void unclip();

  /// A unit length as a whole number of pixels, so that edges are crisp.
  [[nodiscard]] double snap(double units) const;
  [[nodiscard]] double scale() const { return scale_; }
  [[nodiscard]] Result<std::string> png();

 private:
  void set(const Ink& ink);
  void set(const Type& type);
  void set_field();
  void path(std::span<const Point> points);
  [[nodiscard]] Point aligned(const std::string& words, Point at, Align align);

  double scale_;
  cairo_surface_t* surface_;
  cairo_t* cairo_;
  cairo_surface_t* field_ = nullptr;
  Point field_corner_;  ///< in pixels
};

}  // namespace hw::sheets
