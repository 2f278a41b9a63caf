// The colours of the strand chart, pixel by pixel.
#include <algorithm>
#include <array>
#include <cmath>

#include "chart_frame.h"
#include "huewright/colour/screen.h"

namespace hw::sheets {
namespace {

using Rgb = std::array<float, 3>;  // encoded sRGB, 0 to 255

/// Fractions of one step of 8 bits, so that slow changes of dark colours show no bands: the usual
/// 8 × 8 ordered pattern, by interleaving the bits of x and x xor y.
float threshold(unsigned x, unsigned y) {
  unsigned value = 0;
  const unsigned mixed = x ^ y;
  for (unsigned bit = 0; bit < 3; ++bit) {
    value = (value << 2U) | (((mixed >> bit) & 1U) << 1U) | ((y >> bit) & 1U);
  }
  return (static_cast<float>(value) + 0.5F) / 64;
}

/// Two neighbours on one side of the chart and how far between them a pixel lies.
struct Between {
  std::size_t low = 0;
  std::size_t high = 0;
  float t = 0;
};

Between pixel_column(const plan::StrandChart& chart, int x, int width) {
  const double place = (x + 0.5) / width * static_cast<double>(chart.columns - 1);
  const auto low = std::min(static_cast<std::size_t>(place), chart.columns - 2);
  return {low, low + 1, static_cast<float>(place - static_cast<double>(low))};
}

Between pixel_row(const plan::StrandChart& chart, int y, int height) {
  const auto& zones = chart.course.zones;
  const double top = zones.front().from_cm;
  const double cm = top + (zones.back().to_cm - top) * (y + 0.5) / height;
  const std::size_t z = plan::zone_at(chart, cm);
  const plan::ChartBand& band = chart.bands[z];
  const double share = (cm - zones[z].from_cm) / (zones[z].to_cm - zones[z].from_cm);
  const double place = share * static_cast<double>(band.rows - 1);
  const auto low = std::min(static_cast<std::size_t>(place), band.rows - 2);
  return {band.first_row + low, band.first_row + low + 1,
          static_cast<float>(place - static_cast<double>(low))};
}

std::uint32_t pixel(const std::array<const Rgb*, 4>& corner, float across, float down,
                    float dither) {
  std::uint32_t argb = 0xffU;
  for (std::size_t i = 0; i < 3; ++i) {
    const float upper = (*corner[0])[i] + ((*corner[1])[i] - (*corner[0])[i]) * across;
    const float lower = (*corner[2])[i] + ((*corner[3])[i] - (*corner[2])[i]) * across;
    const float value = upper + (lower - upper) * down + dither;
    argb = (argb << 8U) | static_cast<std::uint32_t>(std::clamp(value, 0.0F, 255.0F));
  }
  return argb;
}

}  // namespace

bool draw_field(Frame& frame) {
  constexpr double kSteps = 255;  // of an 8-bit channel
  const plan::StrandChart& chart = frame.chart;
  bool all_on_screen = true;
  std::vector<Rgb> nodes(chart.lab.size());
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const auto screen = colour::to_screen(frame.shown(chart.lab[i]), colour::ScreenSpace::srgb);
    all_on_screen = all_on_screen && screen.in_gamut;
    nodes[i] = {static_cast<float>(screen.r * kSteps), static_cast<float>(screen.g * kSteps),
                static_cast<float>(screen.b * kSteps)};
  }
  const double scale = frame.canvas.scale();
  const auto width = static_cast<int>(std::lround(frame.plot.w * scale));
  const auto height = static_cast<int>(std::lround(frame.plot.h * scale));
  std::vector<Between> columns;
  columns.reserve(static_cast<std::size_t>(width));
  for (int x = 0; x < width; ++x) columns.push_back(pixel_column(chart, x, width));
  std::vector<std::uint32_t> argb;
  argb.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  for (int y = 0; y < height; ++y) {
    const Between row = pixel_row(chart, y, height);
    const Rgb* upper = &nodes[chart.at(row.low, 0)];
    const Rgb* lower = &nodes[chart.at(row.high, 0)];
    for (int x = 0; x < width; ++x) {
      const Between& column = columns[static_cast<std::size_t>(x)];
      argb.push_back(
          pixel({upper + column.low, upper + column.high, lower + column.low, lower + column.high},
                column.t, row.t, threshold(static_cast<unsigned>(x), static_cast<unsigned>(y))));
    }
  }
  frame.canvas.paint_field(argb, width, height, {frame.plot.x, frame.plot.y});
  return all_on_screen;
}

}  // namespace hw::sheets
