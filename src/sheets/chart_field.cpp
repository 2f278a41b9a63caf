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

Between row_of(const plan::StrandChart& chart, double cm) {
  const auto& zones = chart.course.zones;
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

Rgb encoded(const colour::HairLab& lab, bool& on_screen) {
  constexpr double kSteps = 255;  // of an 8-bit channel
  const auto screen = colour::to_screen(lab, colour::ScreenSpace::srgb);
  on_screen = on_screen && screen.in_gamut;
  return {static_cast<float>(screen.r * kSteps), static_cast<float>(screen.g * kSteps),
          static_cast<float>(screen.b * kSteps)};
}

/// What the pixels of a field are mixed from.
class Field {
 public:
  Field(const Frame& frame, bool& on_screen)
      : frame_(frame),
        width_(static_cast<int>(std::lround(frame.plot.w * frame.canvas.scale()))),
        height_(static_cast<int>(std::lround(frame.plot.h * frame.canvas.scale()))) {
    const plan::StrandChart& chart = frame.chart;
    nodes_.reserve(chart.lab.size());
    for (const colour::HairLab& lab : chart.lab) {
      nodes_.push_back(encoded(frame.shown(lab), on_screen));
    }
    if (frame.fade != nullptr) grown_ = encoded(frame.shown(frame.fade->grown), on_screen);
    for (int x = 0; x < width_; ++x) {
      columns_.push_back(pixel_column(chart, x, width_));
      grown_cm_.push_back(frame.grown_cm(plan::minute_at(chart, (x + 0.5) / width_)));
    }
  }

  void paint() const {
    const auto& zones = frame_.chart.course.zones;
    const double top = zones.front().from_cm;
    std::vector<std::uint32_t> argb;
    argb.reserve(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_));
    for (int y = 0; y < height_; ++y) {
      const double cm = top + (zones.back().to_cm - top) * (y + 0.5) / height_;
      Between row = row_of(frame_.chart, cm);
      for (int x = 0; x < width_; ++x) {
        const auto at = static_cast<std::size_t>(x);
        const double before = cm - grown_cm_[at];  // where this hair was at minute 0
        if (frame_.fade != nullptr && before >= top) row = row_of(frame_.chart, before);
        const float dither = threshold(static_cast<unsigned>(x), static_cast<unsigned>(y));
        argb.push_back(before < top ? pixel({&grown_, &grown_, &grown_, &grown_}, 0, 0, dither)
                                    : mixed(row, columns_[at], dither));
      }
    }
    frame_.canvas.paint_field(argb, width_, height_, {frame_.plot.x, frame_.plot.y});
  }

 private:
  [[nodiscard]] std::uint32_t mixed(const Between& row, const Between& column, float dither) const {
    const Rgb* upper = &nodes_[frame_.chart.at(row.low, 0)];
    const Rgb* lower = &nodes_[frame_.chart.at(row.high, 0)];
    return pixel({upper + column.low, upper + column.high, lower + column.low, lower + column.high},
                 column.t, row.t, dither);
  }

  const Frame& frame_;
  int width_;
  int height_;
  std::vector<Rgb> nodes_;
  Rgb grown_{};
  std::vector<Between> columns_;
  std::vector<double> grown_cm_;
};

}  // namespace

bool draw_field(Frame& frame) {
  bool on_screen = true;
  Field(frame, on_screen).paint();
  return on_screen;
}

}  // namespace hw::sheets
