// What is drawn on the colours: zones, level lines, and the moments of the course.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "chart_frame.h"

namespace hw::sheets {
namespace {

constexpr Type kZoneName{13, true};
constexpr Type kZoneNote{12, false};

/// A line that can be read on any hair: a dark casing below a pale stroke.
void cased(Canvas& canvas, std::span<const Point> points, double width,
           std::span<const double> dash = {}) {
  constexpr double kCasing = 2;  // wider than the stroke
  canvas.stroke(points, width + kCasing, neutral(kDarkL, 0.4), dash);
  canvas.stroke(points, width, neutral(kPaleL), dash);
}

/// The staircase of one moment of each zone, broken where a zone is left alone.
template <class Minute>
void staircase(Frame& frame, std::span<const double> dash, double width, Minute minute) {
  std::vector<Point> steps;
  const auto draw = [&] {
    if (steps.size() > 1) cased(frame.canvas, steps, width, dash);
    steps.clear();
  };
  for (const plan::ChartZone& zone : frame.chart.course.zones) {
    if (zone.applications.empty() || !frame.shows(minute(zone))) {
      draw();
      continue;
    }
    const double x = frame.canvas.snap(frame.x_of(minute(zone)));
    steps.push_back({x, frame.y_of(zone.from_cm)});
    steps.push_back({x, frame.y_of(zone.to_cm)});
  }
  draw();
}

/// Words on the field, in the ink that stands out there; keeps others off the place.
void words_on_field(Frame& frame, const std::string& words, Point at, const Type& type) {
  constexpr double kRoom = 4;
  const double width = frame.canvas.text_width(words, type);
  const auto under = frame.under({at.x + width / 2, at.y - type.size / 2});
  frame.canvas.text_on_field(words, at, type, Frame::mark_ink(under));
  frame.taken.push_back(
      {at.x - kRoom, at.y - type.size - kRoom, width + 2 * kRoom, type.size + 2 * kRoom});
}

std::string zone_note(const plan::ChartZone& zone) {
  if (zone.applications.empty()) return "left alone";
  return "on " + plan::clock_text(zone.start_min) + " to " + plan::clock_text(zone.stop_min);
}

constexpr double kIndent = 10;

double note_width(Frame& frame, const plan::ChartZone& zone) {
  return std::max(frame.canvas.text_width(zone.name, kZoneName),
                  frame.canvas.text_width(zone_note(zone), kZoneNote));
}

/// Marks that the zone names would cross if they all stood at x, left or right of it.
int crossings(Frame& frame, double x, Align align) {
  const auto& course = frame.chart.course;
  int count = 0;
  for (std::size_t z = 0; z < course.zones.size(); ++z) {
    const plan::ChartZone& zone = course.zones[z];
    const double width = note_width(frame, zone) + 2 * kIndent;
    const double from = align == Align::left ? x - kIndent : x + kIndent - width;
    const auto crossed = [&](double minute) {
      const double at = frame.x_of(minute);
      return at > from && at < from + width;
    };
    if (!zone.applications.empty()) count += crossed(zone.start_min) + crossed(zone.stop_min);
    for (const auto& moment : {course.hard_stop_min, course.now_min}) {
      count += moment && crossed(*moment);
    }
    for (const plan::LevelLine& line : frame.chart.lines) {
      count += plan::zone_at(frame.chart, line.label.cm) == z && crossed(line.label.minute);
    }
  }
  return count;
}

/// Where the zone names stand in one column: at the edge or beside the stop, whichever is quietest.
struct NameColumn {
  double x = 0;
  Align align = Align::left;
};

NameColumn name_column(Frame& frame) {
  const auto& course = frame.chart.course;
  double stop = course.hard_stop_min.value_or(course.end_min);
  for (const plan::ChartZone& zone : course.zones) {
    if (!zone.applications.empty()) stop = std::min(stop, zone.stop_min);
  }
  NameColumn best{frame.plot.x + kIndent, Align::left};
  int fewest = crossings(frame, best.x, best.align);
  for (const double x : {frame.plot.right() - kIndent, frame.x_of(stop) - kIndent}) {
    const int count = crossings(frame, x, Align::right);
    if (count >= fewest) continue;
    fewest = count;
    best = {x, Align::right};
  }
  return best;
}

/// A first zone too thin for words gets them over the field, where there is room for it alone.
void name_above(Frame& frame, const plan::ChartZone& zone) {
  constexpr double kRise = 20;
  const std::string words =
      fmt::format("{} ({:g} to {:g} cm): {}", zone.name, zone.from_cm, zone.to_cm, zone_note(zone));
  const auto stop = frame.chart.course.hard_stop_min;
  const double end = frame.plot.x + frame.canvas.text_width(words, kZoneNote);
  constexpr double kStopWords = 130;  // what the hard stop writes at most beside its shape
  if (stop && frame.shows(*stop) && frame.x_of(*stop) < end + kStopWords) return;
  frame.canvas.text(words, {frame.plot.x, frame.plot.y - kRise}, kZoneNote, neutral(kPaleL));
}

bool too_thin(const Frame& frame, const plan::ChartZone& zone) {
  constexpr double kThinnest = 26;  // for a name on it
  return frame.y_of(zone.to_cm) - frame.y_of(zone.from_cm) < kThinnest;
}

void name_zone(Frame& frame, const plan::ChartZone& zone, const NameColumn& column) {
  constexpr double kFirstLine = 20;
  constexpr double kSecondLine = 37;
  constexpr double kBelow = 6;
  if (too_thin(frame, zone)) return;
  const double top = frame.y_of(zone.from_cm);
  const double room = frame.y_of(zone.to_cm) - top;
  const double x = column.align == Align::left ? column.x : column.x - note_width(frame, zone);
  words_on_field(frame, zone.name, {x, top + kFirstLine}, kZoneName);
  if (room < kSecondLine + kBelow) return;
  words_on_field(frame, zone_note(zone), {x, top + kSecondLine}, kZoneNote);
}

bool is_whole(double level) {
  return level == std::floor(level);
}

std::vector<Point> drawn_at(const Frame& frame, const plan::LevelLine& line) {
  std::vector<Point> points;
  points.reserve(line.points.size());
  for (const plan::ChartPoint& point : line.points) {
    points.push_back({frame.x_of(point.minute), frame.y_of(point.cm)});
  }
  return points;
}

/// Puts a line's number on it, at the place nearest its middle that is still free.
void number_line(Frame& frame, const plan::LevelLine& line, const std::vector<Point>& points) {
  constexpr double kShortest = 26;  // lines shorter than this carry no number [units]
  constexpr double kRoom = 3;
  double length = 0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    length += std::hypot(points[i].x - points[i - 1].x, points[i].y - points[i - 1].y);
  }
  if (length < kShortest) return;
  const Type type{is_whole(line.level) ? 13.0 : 11.0, is_whole(line.level)};
  const std::string number = fmt::format("{:g}", line.level);
  const double width = frame.canvas.text_width(number, type);
  constexpr double kCapHeight = 0.73;  // of the letters' size: figures are that tall
  const double height = type.size * kCapHeight;
  const std::size_t middle = points.size() / 2;
  const auto& zone = frame.chart.course.zones[plan::zone_at(frame.chart, line.label.cm)];
  const Box band{frame.plot.x, frame.y_of(zone.from_cm), frame.plot.w,
                 frame.y_of(zone.to_cm) - frame.y_of(zone.from_cm)};
  for (std::size_t away = 0; away <= middle; ++away) {
    for (const std::size_t i : {middle - away, middle + away}) {
      if (i >= points.size()) continue;
      const Box box{points[i].x - width / 2 - kRoom, points[i].y - height / 2 - kRoom,
                    width + 2 * kRoom, height + 2 * kRoom};
      const auto meets = [&](const Box& other) { return other.meets(box); };
      if (!band.holds(box) || std::any_of(frame.taken.begin(), frame.taken.end(), meets)) {
        continue;
      }
      const auto under = frame.under(points[i]);
      frame.canvas.text_on_field(number, {points[i].x, points[i].y + height / 2}, type,
                                 Frame::mark_ink(under), Align::centre);
      frame.taken.push_back(box);
      return;
    }
  }
}

void keep_clear(Frame& frame, double minute, double from_cm, double to_cm) {
  constexpr double kEitherSide = 2;
  const double x = frame.x_of(minute);
  const double y = frame.y_of(from_cm);
  frame.taken.push_back({x - kEitherSide, y, 2 * kEitherSide, frame.y_of(to_cm) - y});
}

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
  staircase(frame, kRinseDash, 1.5, [](const plan::ChartZone& zone) { return zone.stop_min; });
  staircase(frame, kOnDash, 2, [](const plan::ChartZone& zone) { return zone.start_min; });
  frame.canvas.unclip();
}

void draw_zone_names(Frame& frame) {
  const auto& zones = frame.chart.course.zones;
  const NameColumn column = name_column(frame);
  frame.canvas.clip(frame.plot);
  for (const plan::ChartZone& zone : zones) name_zone(frame, zone, column);
  frame.canvas.unclip();
  if (too_thin(frame, zones.front())) name_above(frame, zones.front());
}

void draw_level_lines(Frame& frame) {
  frame.canvas.clip(frame.plot);
  for (const plan::LevelLine& line : frame.chart.lines) {
    const std::vector<Point> points = drawn_at(frame, line);
    const auto on = frame.under(points[points.size() / 2]);
    const bool whole = is_whole(line.level);
    frame.canvas.stroke(points, whole ? 1.25 : 0.75, Frame::mark_ink(on, whole ? 0.85 : 0.5));
  }
  frame.canvas.unclip();
}

void draw_level_numbers(Frame& frame) {
  const auto& course = frame.chart.course;
  for (const plan::ChartZone& zone : course.zones) {
    if (zone.applications.empty()) continue;
    keep_clear(frame, zone.start_min, zone.from_cm, zone.to_cm);
    keep_clear(frame, zone.stop_min, zone.from_cm, zone.to_cm);
  }
  for (const auto& moment : {course.hard_stop_min, course.now_min}) {
    if (moment) {
      keep_clear(frame, *moment, course.zones.front().from_cm, course.zones.back().to_cm);
    }
  }
  frame.canvas.clip(frame.plot);
  for (const bool whole : {true, false}) {  // whole levels take the good places
    for (const plan::LevelLine& line : frame.chart.lines) {
      if (is_whole(line.level) == whole) number_line(frame, line, drawn_at(frame, line));
    }
  }
  frame.canvas.unclip();
}

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
  if (course.hard_stop_min && frame.shows(*course.hard_stop_min)) {
    constexpr Type kWord{13, true};
    constexpr double kRadius = 8;
    constexpr double kRise = 26;  // of the shape above the field
    const double x = canvas.snap(frame.x_of(*course.hard_stop_min));
    const Point line[] = {{x, plot.y - kRise}, {x, plot.bottom()}};
    canvas.stroke(line, 5, neutral(kDarkL, 0.55));
    canvas.stroke(line, 2.5, neutral(kPaleL));
    const auto shape = octagon({x, plot.y - kRise}, kRadius);
    canvas.fill_shape(shape, ink_of(kStopRed));
    canvas.stroke_shape(shape, 1.5, neutral(kPaleL));
    const std::string words = "hard stop " + plan::clock_text(*course.hard_stop_min);
    const bool left = x + kRadius + kGap + canvas.text_width(words, kWord) > plot.right();
    const double off = kRadius + 3 * kGap;
    canvas.text(words, {left ? x - off : x + off, plot.y - kRise + kWord.size / 3}, kWord,
                neutral(kPaleL), left ? Align::right : Align::left);
  }
  if (course.now_min && frame.shows(*course.now_min)) {
    const double x = canvas.snap(frame.x_of(*course.now_min));
    const Point line[] = {{x, plot.y}, {x, plot.bottom() + kGap}};
    canvas.stroke(line, 5, neutral(kDarkL, 0.45));
    canvas.stroke(line, 3, neutral(kPaleL));
  }
}

}  // namespace hw::sheets
