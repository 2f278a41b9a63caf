// What is drawn on the colours: zones, level lines, and the moments of the course.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "chart_frame.h"

namespace hw::sheets {
namespace {

/// A line that can be read on any hair: a dark casing below a pale stroke.
void cased(Canvas& canvas, std::span<const Point> points, double width,
           std::span<const double> dash = {}) {
  constexpr double kCasing = 2;  // wider than the stroke
  canvas.stroke(points, width + kCasing, neutral(kDarkL, 0.4), dash);
  canvas.stroke(points, width, neutral(kPaleL), dash);
}

/// Stretches of one moment of one step, zone by zone, as a staircase: broken where a zone is not in
/// that step or has no such moment.
template <class Minute>
std::vector<std::vector<Point>> stairs(Frame& frame, Minute minute) {
  std::vector<std::vector<Point>> all;
  for (std::size_t step = 0; step < steps_of(frame.chart.course); ++step) {
    all.emplace_back();
    for (const plan::ChartZone& zone : frame.chart.course.zones) {
      const plan::ChartEvent* event = bowl_of(zone, step);
      const std::optional<double> at = event != nullptr ? minute(*event) : std::nullopt;
      if (!at || !frame.shows(*at)) {
        all.emplace_back();
        continue;
      }
      const double x = frame.canvas.snap(frame.x_of(*at));
      all.back().push_back({x, frame.y_of(zone.from_cm)});
      all.back().push_back({x, frame.y_of(zone.to_cm)});
    }
  }
  std::erase_if(all, [](const auto& steps) { return steps.empty(); });
  return all;
}

std::optional<double> on_of(const plan::ChartEvent& event) {
  return event.on_min;
}
std::optional<double> stop_of(const plan::ChartEvent& event) {
  return event.stop_min;
}
/// A hard stop at the rinse itself stands beside it, so that both are seen.
struct HardStop {
  const Frame& frame;
  std::optional<double> operator()(const plan::ChartEvent& event) const {
    if (!event.hard_stop_min) return std::nullopt;
    constexpr double kApart = 4;  // units
    const double off = frame.x_of(*event.hard_stop_min) - frame.x_of(event.stop_min);
    if (std::abs(off) >= kApart) return event.hard_stop_min;
    const double x = frame.x_of(event.stop_min) + kApart;
    return plan::minute_at(frame.chart, (x - frame.plot.x) / frame.plot.w);
  }
};

}  // namespace

std::vector<Point> octagon(Point centre, double radius) {
  constexpr double kEighth = std::numbers::pi / 4;
  std::vector<Point> corners;
  for (int i = 0; i < 8; ++i) {
    const double angle = kEighth * (i + 0.5);
    corners.push_back({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
  }
  return corners;
}

std::vector<Point> check_mark(Point tip, double size) {
  return {tip, {tip.x - size / 2, tip.y - size}, {tip.x + size / 2, tip.y - size}};
}

void draw_zones(Frame& frame) {
  const auto& zones = frame.chart.course.zones;
  frame.canvas.clip(frame.plot);
  for (std::size_t z = 1; z < zones.size(); ++z) {
    const double y = frame.canvas.snap(frame.y_of(zones[z].from_cm));
    const Point border[] = {{frame.plot.x, y}, {frame.plot.right(), y}};
    frame.canvas.stroke(border, 1, neutral(kPaleL, 0.28));
  }
  for (const auto& stair : stairs(frame, stop_of)) cased(frame.canvas, stair, 1.5, kRinseDash);
  for (const auto& stair : stairs(frame, on_of)) cased(frame.canvas, stair, 2, kOnDash);
  for (const plan::ChartZone& zone : zones) {
    for (const plan::ChartEvent& event : zone.events) {
      for (const double minute : event.again_min) {
        if (!frame.shows(minute)) continue;
        const double x = frame.canvas.snap(frame.x_of(minute));
        const Point fresh[] = {{x, frame.y_of(zone.from_cm)}, {x, frame.y_of(zone.to_cm)}};
        cased(frame.canvas, fresh, 2, kOnDash);
      }
    }
  }
  frame.canvas.unclip();
}

bool is_bowl(const plan::ChartEvent& event) {
  return !std::holds_alternative<plan::ChartWashes>(event.what);
}

const plan::ChartEvent* bowl_of(const plan::ChartZone& zone, std::size_t step) {
  for (const plan::ChartEvent& event : zone.events) {
    if (event.step == step && is_bowl(event) && event.stop_min > 0) return &event;
  }
  return nullptr;
}

std::size_t steps_of(const plan::ChartCourse& course) {
  std::size_t steps = 0;
  for (const plan::ChartZone& zone : course.zones) {
    for (const plan::ChartEvent& event : zone.events) steps = std::max(steps, event.step + 1);
  }
  return steps;
}

std::optional<double> first_hard_stop(const plan::ChartCourse& course) {
  std::optional<double> first;
  for (const plan::ChartZone& zone : course.zones) {
    for (const plan::ChartEvent& event : zone.events) {
      const auto& stop = event.hard_stop_min;
      if (stop && *stop >= 0 && (!first || *stop < *first)) first = stop;
    }
  }
  return first;
}

namespace {

/// The stop's line over each zone, its shape and word over the first of them.
void draw_hard_stop(Frame& frame) {
  const auto first = first_hard_stop(frame.chart.course);
  if (!first || !frame.shows(*first)) return;
  constexpr Type kWord{13, true};
  constexpr double kRadius = 8;
  constexpr double kGap = 2;
  constexpr double kRise = 26;  // of the shape above the field
  Canvas& canvas = frame.canvas;
  const Box& plot = frame.plot;
  double x = plot.right();
  for (const auto& stair : stairs(frame, HardStop{frame})) {
    for (const Point& point : stair) x = std::min(x, point.x);
    canvas.stroke(stair, 5, neutral(kDarkL, 0.55));
    canvas.stroke(stair, 2.5, neutral(kPaleL));
  }
  const Point stem[] = {{x, plot.y - kRise}, {x, plot.y}};
  canvas.stroke(stem, 2.5, neutral(kPaleL));
  const auto shape = octagon({x, plot.y - kRise}, kRadius);
  canvas.fill_shape(shape, ink_of(kStopRed));
  canvas.stroke_shape(shape, 1.5, neutral(kPaleL));
  const std::string words = frame.say("hard stop " + plan::clock_text(*first));
  const bool left = x + kRadius + kGap + canvas.text_width(words, kWord) > plot.right();
  const double off = kRadius + 3 * kGap;
  canvas.text(words, {left ? x - off : x + off, plot.y - kRise + kWord.size / 3}, kWord,
              neutral(kPaleL), left ? Align::right : Align::left);
}

}  // namespace

void draw_moments(Frame& frame) {
  Canvas& canvas = frame.canvas;
  const auto& course = frame.chart.course;
  const Box& plot = frame.plot;
  constexpr double kCheckSize = 9;
  constexpr double kGap = 2;
  for (const double minute : course.check_min) {
    if (!frame.shows(minute)) continue;
    canvas.fill_shape(check_mark({frame.x_of(minute), plot.y - kGap}, kCheckSize), neutral(kPaleL));
  }
  draw_hard_stop(frame);
  if (course.now_min && frame.shows(*course.now_min)) {
    const double x = canvas.snap(frame.x_of(*course.now_min));
    const Point line[] = {{x, plot.y}, {x, plot.bottom() + kGap}};
    canvas.stroke(line, 5, neutral(kDarkL, 0.45));
    canvas.stroke(line, 3, neutral(kPaleL));
  }
}

}  // namespace hw::sheets
