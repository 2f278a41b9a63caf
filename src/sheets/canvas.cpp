#include "canvas.h"

#include <fmt/format.h>

#include <cmath>
#include <cstring>
#include <numbers>

#include "huewright/colour/screen.h"

#if defined(__SANITIZE_ADDRESS__)
// The system's font list keeps a few patterns for good when it is first asked for a typeface; leaks
// of our own are still found.
extern "C" const char* __lsan_default_suppressions() {
  return "leak:libfontconfig\n";
}
#endif

namespace hw::sheets {
namespace {

constexpr const char* kTypeface = "Inter";  // where it is missing, the system's plain sans

cairo_status_t append(void* to, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

Ink neutral(double lstar, double opacity) {
  Ink ink = ink_of({lstar, 0, 0});
  ink.a = opacity;
  return ink;
}

Ink ink_of(const colour::HairLab& lab) {
  const colour::ScreenColour screen = colour::to_screen(lab, colour::ScreenSpace::srgb);
  return {screen.r, screen.g, screen.b, 1};
}

Canvas::Canvas(double width, double height, double scale)
    : scale_(scale),
      surface_(cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                          static_cast<int>(std::lround(width * scale)),
                                          static_cast<int>(std::lround(height * scale)))),
      cairo_(cairo_create(surface_)) {
  cairo_scale(cairo_, scale, scale);
  cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_ROUND);
  // Grey smoothing of letters: coloured fringes would be colour that is not hair.
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_set_font_options(cairo_, options);
  cairo_font_options_destroy(options);
}

Canvas::~Canvas() {
  cairo_surface_destroy(field_);
  cairo_destroy(cairo_);
  cairo_surface_destroy(surface_);
}

void Canvas::set(const Ink& ink) {
  cairo_set_source_rgba(cairo_, ink.r, ink.g, ink.b, ink.a);
}

void Canvas::set(const Type& type) {
  cairo_select_font_face(cairo_, kTypeface, CAIRO_FONT_SLANT_NORMAL,
                         type.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size(cairo_, type.size);
}

void Canvas::path(std::span<const Point> points) {
  cairo_new_path(cairo_);
  for (const Point& point : points) cairo_line_to(cairo_, point.x, point.y);
}

void Canvas::fill(const Box& box, const Ink& ink) {
  set(ink);
  cairo_rectangle(cairo_, box.x, box.y, box.w, box.h);
  cairo_fill(cairo_);
}

void Canvas::fill_round(const Box& box, double radius, const Ink& ink) {
  constexpr double kQuarter = std::numbers::pi / 2;
  set(ink);
  cairo_new_path(cairo_);
  cairo_arc(cairo_, box.right() - radius, box.y + radius, radius, -kQuarter, 0);
  cairo_arc(cairo_, box.right() - radius, box.bottom() - radius, radius, 0, kQuarter);
  cairo_arc(cairo_, box.x + radius, box.bottom() - radius, radius, kQuarter, 2 * kQuarter);
  cairo_arc(cairo_, box.x + radius, box.y + radius, radius, 2 * kQuarter, 3 * kQuarter);
  cairo_close_path(cairo_);
  cairo_fill(cairo_);
}

void Canvas::fill_shape(std::span<const Point> corners, const Ink& ink) {
  set(ink);
  path(corners);
  cairo_close_path(cairo_);
  cairo_fill(cairo_);
}

void Canvas::stroke(std::span<const Point> points, double width, const Ink& ink,
                    std::span<const double> dash) {
  set(ink);
  path(points);
  cairo_set_line_width(cairo_, width);
  cairo_set_dash(cairo_, dash.data(), static_cast<int>(dash.size()), 0);
  cairo_stroke(cairo_);
  cairo_set_dash(cairo_, nullptr, 0, 0);
}

void Canvas::stroke_shape(std::span<const Point> corners, double width, const Ink& ink) {
  set(ink);
  path(corners);
  cairo_close_path(cairo_);
  cairo_set_line_width(cairo_, width);
  cairo_stroke(cairo_);
}

double Canvas::text_width(const std::string& words, const Type& type) {
  set(type);
  cairo_text_extents_t extents;
  cairo_text_extents(cairo_, words.c_str(), &extents);
  return extents.x_advance;
}

Point Canvas::aligned(const std::string& words, Point at, Align align) {
  if (align == Align::left) return at;
  cairo_text_extents_t extents;
  cairo_text_extents(cairo_, words.c_str(), &extents);
  return {at.x - extents.x_advance / (align == Align::centre ? 2 : 1), at.y};
}

void Canvas::text(const std::string& words, Point at, const Type& type, const Ink& ink,
                  Align align) {
  set(type);
  set(ink);
  const Point start = aligned(words, at, align);
  cairo_move_to(cairo_, start.x, start.y);
  cairo_show_text(cairo_, words.c_str());
  cairo_new_path(cairo_);
}

void Canvas::text_on_field(const std::string& words, Point at, const Type& type, const Ink& ink,
                           Align align) {
  constexpr double kClearShare = 0.5;  // of the letters' size, half of it outside them
  set(type);
  const Point start = aligned(words, at, align);
  cairo_new_path(cairo_);
  cairo_move_to(cairo_, start.x, start.y);
  cairo_text_path(cairo_, words.c_str());
  set_field();
  cairo_set_line_width(cairo_, type.size * kClearShare);
  cairo_stroke(cairo_);
  text(words, at, type, ink, align);
}

void Canvas::text_upwards(const std::string& words, Point centre, const Type& type,
                          const Ink& ink) {
  cairo_save(cairo_);
  cairo_translate(cairo_, centre.x, centre.y);
  cairo_rotate(cairo_, -std::numbers::pi / 2);
  text(words, {0, 0}, type, ink, Align::centre);
  cairo_restore(cairo_);
}

std::string Canvas::fitted(const std::string& words, double width, const Type& type) {
  if (text_width(words, type) <= width) return words;
  std::string cut = words;
  while (!cut.empty()) {
    const auto continues = [&] {
      return (static_cast<unsigned char>(cut.back()) & 0xC0U) == 0x80U;
    };
    while (!cut.empty() && continues()) cut.pop_back();  // the tail bytes of a UTF-8 letter
    if (!cut.empty()) cut.pop_back();
    while (!cut.empty() && cut.back() == ' ') cut.pop_back();
    if (text_width(cut + "…", type) <= width) break;
  }
  return cut + "…";
}

void Canvas::paint_field(std::span<const std::uint32_t> argb, int width, int height, Point corner) {
  cairo_surface_destroy(field_);
  field_ = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
  field_corner_ = {std::round(corner.x * scale_), std::round(corner.y * scale_)};
  if (cairo_surface_status(field_) == CAIRO_STATUS_SUCCESS) {
    cairo_surface_flush(field_);
    unsigned char* to = cairo_image_surface_get_data(field_);
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(field_));
    const auto row = static_cast<std::size_t>(width);
    for (std::size_t y = 0; y < static_cast<std::size_t>(height); ++y) {
      std::memcpy(to + y * stride, argb.data() + y * row, row * sizeof(std::uint32_t));
    }
    cairo_surface_mark_dirty(field_);
  }
  set_field();
  cairo_rectangle(cairo_, field_corner_.x / scale_, field_corner_.y / scale_, width / scale_,
                  height / scale_);
  cairo_fill(cairo_);
}

void Canvas::set_field() {
  cairo_pattern_t* pattern = cairo_pattern_create_for_surface(field_);
  cairo_matrix_t to_pixels;
  cairo_matrix_init(&to_pixels, scale_, 0, 0, scale_, -field_corner_.x, -field_corner_.y);
  cairo_pattern_set_matrix(pattern, &to_pixels);
  cairo_pattern_set_filter(pattern, CAIRO_FILTER_NEAREST);
  cairo_pattern_set_extend(pattern, CAIRO_EXTEND_PAD);
  cairo_set_source(cairo_, pattern);
  cairo_pattern_destroy(pattern);
}

void Canvas::clip(const Box& box) {
  cairo_save(cairo_);
  cairo_rectangle(cairo_, box.x, box.y, box.w, box.h);
  cairo_clip(cairo_);
}

void Canvas::unclip() {
  cairo_restore(cairo_);
}

double Canvas::snap(double units) const {
  return std::round(units * scale_) / scale_;
}

Result<std::string> Canvas::png() {
  const cairo_status_t drawn = cairo_status(cairo_);
  if (drawn == CAIRO_STATUS_INVALID_STRING) {
    return fail(ErrorCode::malformed, "a text on the chart is not UTF-8", "title or label",
                "save the case file as UTF-8");
  }
  if (drawn != CAIRO_STATUS_SUCCESS) {
    return fail(ErrorCode::io,
                fmt::format("the chart could not be drawn: {}", cairo_status_to_string(drawn)),
                "chart", "try a smaller size or scale");
  }
  std::string bytes;
  const cairo_status_t written = cairo_surface_write_to_png_stream(surface_, append, &bytes);
  if (written != CAIRO_STATUS_SUCCESS) {
    return fail(
        ErrorCode::io,
        fmt::format("the chart could not be made a PNG: {}", cairo_status_to_string(written)),
        "chart", "try a smaller size or scale");
  }
  return bytes;
}

}  // namespace hw::sheets
