#pragma once
// Pictures read back, for tests of what was drawn.
#include <cairo.h>

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

namespace hw::test {

struct Pixel {
  int r = 0;
  int g = 0;
  int b = 0;
};

struct Picture {
  int width = 0;
  int height = 0;
  std::vector<Pixel> pixels;
  [[nodiscard]] const Pixel& at(int x, int y) const {
    return pixels[static_cast<std::size_t>(y * width + x)];
  }
};

/// Reads a PNG back through the drawing library.
inline Picture read_png(const std::string& path) {
  Picture out;
  cairo_surface_t* surface = cairo_image_surface_create_from_png(path.c_str());
  if (cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS) {
    out.width = cairo_image_surface_get_width(surface);
    out.height = cairo_image_surface_get_height(surface);
    const unsigned char* data = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    for (int y = 0; y < out.height; ++y) {
      for (int x = 0; x < out.width; ++x) {
        std::uint32_t value = 0;
        std::copy_n(data + y * stride + 4 * x, 4, reinterpret_cast<unsigned char*>(&value));
        out.pixels.push_back({static_cast<int>(value >> 16U & 0xffU),
                              static_cast<int>(value >> 8U & 0xffU),
                              static_cast<int>(value & 0xffU)});
      }
    }
  }
  cairo_surface_destroy(surface);
  return out;
}

}  // namespace hw::test
