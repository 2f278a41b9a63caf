#include "huewright/sheets/strand_chart_png.h"

#include <fmt/format.h>

#include <fstream>

#include "chart_frame.h"

namespace hw::sheets {
namespace {

constexpr double kLeft = 84;
constexpr double kRight = 232;  ///< of it the legend takes all but its gap
constexpr double kLegendGap = 22;
constexpr double kTop = 128;
constexpr double kBottom = 96;
constexpr double kEdge = 12;
constexpr double kFoot = 44;  ///< what the footnote takes

struct Limit {
  const char* name;
  double value;
  double low;
  double high;
};

}  // namespace

Result<void> check_size(const ChartPicture& picture) {
  for (const Limit& limit :
       {Limit{"width", picture.width, 900, 4000}, Limit{"height", picture.height, 540, 3000},
        Limit{"scale", picture.scale, 1, 4}}) {
    if (limit.value >= limit.low && limit.value <= limit.high) continue;
    return fail(ErrorCode::out_of_range,
                fmt::format("{:g} is outside {:g} to {:g}", limit.value, limit.low, limit.high),
                limit.name, "choose a value in that range");
  }
  return {};
}

Result<void> write_png(const Result<std::string>& bytes, const std::string& path) {
  if (!bytes) return tl::unexpected(bytes.error());
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file.write(bytes->data(), static_cast<std::streamsize>(bytes->size()));
  file.close();
  if (!file) {
    return fail(ErrorCode::io, "the chart could not be written", path,
                "name a file in a folder that exists and may be written to");
  }
  return {};
}

double lifted_shadow(double lstar) {
  constexpr double kFloor =
      14.2;                       // L* of the darkest hair: surface term at its least, hair/tress.h
  constexpr double kShadow = 26;  // below it levels 1 to 4 lie within 7 L* of each other
  constexpr double kDrawnAt = 40;
  constexpr double kAsItIs = 70;
  if (lstar <= kFloor || lstar >= kAsItIs) return lstar;
  if (lstar < kShadow) {
    return kFloor + (lstar - kFloor) * (kDrawnAt - kFloor) / (kShadow - kFloor);
  }
  return kDrawnAt + (lstar - kShadow) * (kAsItIs - kDrawnAt) / (kAsItIs - kShadow);
}

double Frame::y_of(double cm) const {
  const auto& zones = chart.course.zones;
  const double top = zones.front().from_cm;
  return plot.y + plot.h * (cm - top) / (zones.back().to_cm - top);
}

colour::HairLab Frame::shown(const colour::HairLab& lab) const {
  if (!picture.shadows_lifted || !(lab.l > 0)) return lab;
  const double l = lifted_shadow(lab.l);
  return {l, lab.a * l / lab.l, lab.b * l / lab.l};  // as strong a colour for its lightness
}

double Frame::grown_cm(double minute) const {
  return fade == nullptr ? 0 : fade->course.growth_cm_per_week * plan::week_of(minute);
}

plan::ChartPoint Frame::place_of(const Point& at) const {
  const auto& zones = chart.course.zones;
  const double top = zones.front().from_cm;
  const double cm = top + (zones.back().to_cm - top) * (at.y - plot.y) / plot.h;
  const double minute = plan::minute_at(chart, (at.x - plot.x) / plot.w);
  return {minute, cm - grown_cm(minute)};
}

colour::HairLab Frame::under(const Point& at) const {
  const plan::ChartPoint place = place_of(at);
  const bool regrown = fade != nullptr && place.cm < chart.course.zones.front().from_cm;
  return shown(regrown ? fade->grown : plan::colour_at(chart, place.minute, place.cm));
}

Ink Frame::mark_ink(const colour::HairLab& under, double opacity) {
  return neutral(under.l < kPaleMarksBelowL ? kPaleL : kDarkL, opacity);
}

Frame frame_of(Canvas& canvas, const plan::StrandChart& chart, const ChartPicture& picture) {
  const double right = canvas.snap(picture.width - kRight);
  const double bottom = canvas.snap(picture.height - kBottom);
  return {canvas,
          chart,
          picture,
          {canvas.snap(kLeft), canvas.snap(kTop), right - canvas.snap(kLeft),
           bottom - canvas.snap(kTop)},
          {right + kLegendGap, kTop, kRight - kLegendGap - kEdge, picture.height - kTop - kFoot}};
}

Result<std::string> strand_chart_png(const plan::StrandChart& chart, const ChartPicture& picture) {
  if (auto sized = check_size(picture); !sized) return tl::unexpected(sized.error());
  Canvas canvas(picture.width, picture.height, picture.scale);
  Frame frame = frame_of(canvas, chart, picture);
  canvas.fill({0, 0, picture.width + 1, picture.height + 1}, neutral(kSurroundL));
  const bool all_on_screen = draw_field(frame);
  draw_zones(frame);
  draw_level_lines(frame);
  draw_zone_names(frame);
  draw_level_numbers(frame);
  draw_axes(frame);
  draw_moments(frame);
  draw_legend(frame, all_on_screen);
  draw_title_and_footnote(frame);
  return canvas.png();
}

Result<void> write_strand_chart_png(const plan::StrandChart& chart, const ChartPicture& picture,
                                    const std::string& path) {
  return write_png(strand_chart_png(chart, picture), path);
}

}  // namespace hw::sheets
