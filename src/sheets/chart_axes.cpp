// Rim, ticks, names of the axes, phases, and the sign of the present minute.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "chart_frame.h"

namespace hw::sheets {
namespace {

constexpr Type kTickType{13, false};
constexpr Type kAxisType{14, false};
constexpr double kTick = 6;
constexpr double kTickBase = 22;  ///< base line of tick words below the field

/// The sign of the present minute takes its place among the ticks first.
void sign_now(Frame& frame, std::vector<Box>& words) {
  const auto now = frame.chart.course.now_min;
  if (!now || !frame.shows(*now)) return;
  constexpr Type kWord{13, true};
  constexpr double kPad = 7;
  constexpr double kHeight = 20;
  const std::string word = frame.say("now " + plan::clock_text(*now));
  const double width = frame.canvas.text_width(word, kWord) + 2 * kPad;
  const double left = std::clamp(frame.x_of(*now) - width / 2, frame.plot.x - kPad,
                                 frame.plot.right() - width + kPad);
  const Box box{left, frame.plot.bottom() + kTick, width, kHeight};
  frame.canvas.fill_round(box, kHeight / 4, neutral(kPaleL));
  frame.canvas.text(word, {left + width / 2, box.y + kHeight - kPad + 1}, kWord, neutral(kDarkL),
                    Align::centre);
  words.push_back({box.x - kPad, frame.plot.bottom(), box.w + 2 * kPad, kTickBase});
}

/// Two slanted strokes across the lower rim: time is folded here.
void fold_mark(Frame& frame, double x) {
  const double y = frame.plot.bottom();
  for (const double shift : {-3.0, 3.0}) {
    const Point stroke[] = {{x + shift - 3, y + 6}, {x + shift + 3, y - 6}};
    frame.canvas.stroke(stroke, 1.5, neutral(kPaleL));
  }
}

bool time_axis(Frame& frame) {
  constexpr double kWidest = 56;
  constexpr double kMinutes[] = {1, 2, 5, 10, 15, 30, 60, 120, 240};
  constexpr double kFoldedBelow = 0.99;  // of the steepest stretch: less is a fold
  const auto& axis = frame.chart.axis;
  const auto pace = [&](std::size_t i) {
    return (axis[i].across - axis[i - 1].across) / (axis[i].minute - axis[i - 1].minute);
  };
  double full = 0;
  for (std::size_t i = 1; i < axis.size(); ++i) full = std::max(full, pace(i));
  std::vector<Box> words;
  sign_now(frame, words);
  draw_tick(frame, frame.x_of(0), plan::clock_text(0), words, true);
  draw_tick(frame, frame.x_of(frame.chart.course.end_min),
            plan::clock_text(frame.chart.course.end_min), words, true);
  bool folded = false;
  for (std::size_t i = 1; i < axis.size(); ++i) {
    const double step = tick_step(pace(i) * frame.plot.w, kWidest, kMinutes);
    for (double n = std::ceil(axis[i - 1].minute / step); n * step <= axis[i].minute; ++n) {
      draw_tick(frame, frame.x_of(n * step), plan::clock_text(n * step), words, false);
    }
    if (pace(i) < full * kFoldedBelow) {
      folded = true;
      constexpr double kIntoFold = 14;
      fold_mark(frame, frame.plot.x + frame.plot.w * axis[i - 1].across + kIntoFold);
    }
  }
  return folded;
}

/// The words of a phase in lines, and the type they are set in: narrow phases get three small ones.
struct PhaseWords {
  std::vector<std::string> lines;
  Type type = kAxisType;
  double line = 17;
};
PhaseWords phase_words(Canvas& canvas, const std::string& label, double room) {
  constexpr Type kNarrow{12, false};
  constexpr double kNarrowLine = 14;
  PhaseWords words{two_lines(canvas, label, room, kAxisType)};
  const auto cut = [](const std::string& line) { return line.ends_with("…"); };
  if (std::none_of(words.lines.begin(), words.lines.end(), cut)) return words;
  words = {two_lines(canvas, label, room, kNarrow), kNarrow, kNarrowLine};
  if (std::none_of(words.lines.begin(), words.lines.end(), cut)) return words;
  words.lines = {label};
  while (words.lines.size() < 3) {  // a blank at a time from the front, as much as fits
    const std::string rest = words.lines.back();
    std::size_t at = rest.find(' ');
    while (at != std::string::npos && rest.find(' ', at + 1) != std::string::npos &&
           canvas.text_width(rest.substr(0, rest.find(' ', at + 1)), kNarrow) <= room) {
      at = rest.find(' ', at + 1);
    }
    if (at == std::string::npos) break;
    words.lines.back() = rest.substr(0, at);
    words.lines.push_back(rest.substr(at + 1));
  }
  for (std::string& line : words.lines) line = canvas.fitted(line, room, kNarrow);
  return words;
}

void phases(Frame& frame) {
  constexpr double kSide = 4;
  constexpr double kRise = 44;  // of the lower line above the field
  constexpr double kSeparator = 30;
  const auto& course = frame.chart.course;
  for (std::size_t i = 0; i < course.phases.size(); ++i) {
    const double until =
        i + 1 < course.phases.size() ? course.phases[i + 1].from_min : course.end_min;
    const double left = frame.x_of(course.phases[i].from_min);
    const double right = frame.x_of(until);
    double base = frame.plot.y - kRise;
    if (i > 0 && frame.shows(course.phases[i].from_min)) {
      const double x = frame.canvas.snap(left);
      const Point separator[] = {{x, base - kSeparator}, {x, base + 4}};
      frame.canvas.stroke(separator, 1, neutral(kPaleL, 0.7));
    }
    const PhaseWords words =
        phase_words(frame.canvas, course.phases[i].label, right - left - 2 * kSide);
    for (auto line = words.lines.rbegin(); line != words.lines.rend(); ++line) {
      frame.canvas.text(*line, {(left + right) / 2, base}, words.type, neutral(kPaleL),
                        Align::centre);
      base -= words.line;
    }
  }
}

}  // namespace

double tick_step(double units_per_one, double widest, std::span<const double> steps) {
  for (const double step : steps) {
    if (step * units_per_one >= widest) return step;
  }
  return steps.back();
}

void draw_tick(Frame& frame, double x, const std::string& word, std::vector<Box>& words,
               bool must) {
  constexpr double kRoom = 5;
  const double at = frame.canvas.snap(x);
  const double width = frame.canvas.text_width(word, kTickType);
  const Box box{at - width / 2 - kRoom, frame.plot.bottom(), width + 2 * kRoom, kTickBase};
  const bool free =
      std::none_of(words.begin(), words.end(), [&](const Box& other) { return other.meets(box); });
  const Point tick[] = {{at, frame.plot.bottom()}, {at, frame.plot.bottom() + kTick}};
  if (!free && !must) return;
  frame.canvas.stroke(tick, 1, neutral(kPaleL));
  if (!free) return;
  frame.canvas.text(word, {at, frame.plot.bottom() + kTickBase}, kTickType, neutral(kPaleL),
                    Align::centre);
  words.push_back(box);
}

void draw_rim(Frame& frame) {
  constexpr double kHalfPixel = 0.5;
  const Box& plot = frame.plot;
  const double off = kHalfPixel / frame.canvas.scale();
  const std::vector<Point> rim{{plot.x - off, plot.y - off},
                               {plot.right() + off, plot.y - off},
                               {plot.right() + off, plot.bottom() + off},
                               {plot.x - off, plot.bottom() + off}};
  frame.canvas.stroke_shape(rim, 1, neutral(kPaleL));
}

void draw_distance_axis(Frame& frame, const std::string& name) {
  constexpr double kClosest = 34;
  constexpr double kSteps[] = {0.5, 1, 2.5, 5, 10, 20, 50};
  constexpr double kWordGap = 10;
  const auto& zones = frame.chart.course.zones;
  const double top = zones.front().from_cm;
  const double bottom = zones.back().to_cm;
  const double step = tick_step(frame.plot.h / (bottom - top), kClosest, kSteps);
  for (double n = std::ceil(top / step); n * step <= bottom; ++n) {
    const double y = frame.canvas.snap(frame.y_of(n * step));
    const Point tick[] = {{frame.plot.x - kTick, y}, {frame.plot.x, y}};
    frame.canvas.stroke(tick, 1, neutral(kPaleL));
    frame.canvas.text(decimal(frame.picture.language, n * step, 2),
                      {frame.plot.x - kWordGap, y + kTickType.size / 3}, kTickType, neutral(kPaleL),
                      Align::right);
  }
  constexpr double kNameAt = 48;
  frame.canvas.text_upwards(name, {frame.plot.x - kNameAt, frame.plot.y + frame.plot.h / 2},
                            kAxisType, neutral(kPaleL));
}

void name_time_axis(Frame& frame, const std::string& name) {
  constexpr double kBelow = 46;
  frame.canvas.text(frame.say(name),
                    {frame.plot.x + frame.plot.w / 2, frame.plot.bottom() + kBelow}, kAxisType,
                    neutral(kPaleL), Align::centre);
}

void draw_axes(Frame& frame) {
  draw_rim(frame);
  const bool folded = time_axis(frame);
  draw_distance_axis(frame, frame.say("cm from scalp, stretched"));
  phases(frame);
  name_time_axis(frame,
                 folded ? "hours and minutes; longer pauses are folded" : "hours and minutes");
}

}  // namespace hw::sheets
