// Words on the colours: zone names and the numbers of level lines.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "chart_frame.h"

namespace hw::sheets {
namespace {

constexpr Type kZoneName{13, true};
constexpr Type kZoneNote{12, false};

/// "0:08 to 0:53", with the step's name where there are several; a line for each bowl.
std::vector<std::string> zone_notes(const Frame& frame, const plan::ChartZone& zone) {
  const plan::ChartCourse& course = frame.chart.course;
  std::vector<std::string> notes;
  for (const plan::ChartEvent& event : zone.events) {
    if (!is_bowl(event) || event.stop_min <= 0 || event.on_min >= course.end_min) continue;
    const bool named = event.step < course.steps.size();
    notes.push_back(said(frame.picture.language, "{0} {1} to {2}",
                         {frame.say(named ? course.steps[event.step] : "on"),
                          plan::clock_text(event.on_min), plan::clock_text(event.stop_min)}));
  }
  if (notes.empty()) notes.push_back(frame.say("left alone"));
  return notes;
}

constexpr double kIndent = 10;

bool too_thin(const Frame& frame, const plan::ChartZone& zone) {
  constexpr double kThinnest = 26;  // for a name on it
  return frame.y_of(zone.to_cm) - frame.y_of(zone.from_cm) < kThinnest;
}

std::string joined(const std::vector<std::string>& notes) {
  std::string all;
  for (const std::string& note : notes) all += (all.empty() ? "" : ", ") + note;
  return all;
}

constexpr double kFirstLine = 20;  // of a zone's name below its border
constexpr double kLine = 17;
constexpr double kApart = 10;  // between a name and notes on the same line

/// What is written on a zone: its notes on a line each, on one, or beside its name.
struct ZoneWords {
  std::vector<std::string> notes;
  bool beside = false;
  double name_width = 0;
  double width = 0;
};

ZoneWords zone_words(Frame& frame, const plan::ChartZone& zone) {
  constexpr double kBelow = 6;
  ZoneWords words{zone_notes(frame, zone)};
  const double room = frame.y_of(zone.to_cm) - frame.y_of(zone.from_cm) - kBelow - kFirstLine;
  const double lines = std::floor(room / kLine);
  if (static_cast<double>(words.notes.size()) > lines) words.notes = {joined(words.notes)};
  words.beside = lines < 1;
  words.name_width = words.width = frame.canvas.text_width(zone.name, kZoneName);
  for (const std::string& note : words.notes) {
    const double width = frame.canvas.text_width(note, kZoneNote);
    words.width = words.beside ? words.name_width + kApart + width : std::max(words.width, width);
  }
  return words;
}

/// Marks that the zone names would cross if they all stood at x, left or right of it; none where
/// they would not fit in.
std::optional<int> crossings(Frame& frame, double x, Align align) {
  const auto& course = frame.chart.course;
  int count = 0;
  for (std::size_t z = 0; z < course.zones.size(); ++z) {
    const plan::ChartZone& zone = course.zones[z];
    if (too_thin(frame, zone)) continue;
    const double width = zone_words(frame, zone).width + 2 * kIndent;
    const double from = align == Align::left ? x - kIndent : x + kIndent - width;
    if (from < frame.plot.x || from + width > frame.plot.right()) return std::nullopt;
    const auto crossed = [&](double minute) {
      const double at = frame.x_of(minute);
      return frame.shows(minute) && at > from && at < from + width;
    };
    for (const plan::ChartEvent& event : zone.events) {
      if (is_bowl(event)) count += crossed(event.on_min) + crossed(event.stop_min);
      for (const double again : event.again_min) count += crossed(again);
      count += event.hard_stop_min && crossed(*event.hard_stop_min);
    }
    count += course.now_min && crossed(*course.now_min);
    for (const plan::LevelLine& line : frame.chart.lines) {
      count += plan::zone_at(frame.chart, line.label.cm) == z && crossed(line.label.minute);
    }
  }
  return count;
}

/// Where the zone names stand in one column: at an edge or beside a stop, whichever is quietest.
struct NameColumn {
  double x = 0;
  Align align = Align::left;
};

NameColumn name_column(Frame& frame) {
  const auto& course = frame.chart.course;
  NameColumn best{frame.plot.x + kIndent, Align::left};
  std::optional<int> fewest = crossings(frame, best.x, best.align);
  const auto try_at = [&](double x, Align align) {
    const auto count = crossings(frame, x, align);
    if (!count || (fewest && *count >= *fewest)) return;
    fewest = count;
    best = {x, align};
  };
  try_at(frame.plot.right() - kIndent, Align::right);
  for (std::size_t step = 0; step < steps_of(course); ++step) {
    double first = course.end_min;
    double last = 0;
    for (const plan::ChartZone& zone : course.zones) {
      const plan::ChartEvent* event = bowl_of(zone, step);
      if (event == nullptr) continue;
      first = std::min(first, event->stop_min);
      last = std::max(last, event->hard_stop_min.value_or(event->stop_min));
    }
    if (frame.shows(first)) try_at(frame.x_of(first) - kIndent, Align::right);
    if (frame.shows(last)) try_at(frame.x_of(last) + kIndent, Align::left);
  }
  return best;
}

/// A first zone too thin for words gets them over the field, where there is room for it alone.
void name_above(Frame& frame, const plan::ChartZone& zone) {
  constexpr double kRise = 20;
  const auto& course = frame.chart.course;
  std::string words = fmt::format("{} ({:g} to {:g} cm)", zone.name, zone.from_cm, zone.to_cm);
  for (const std::string& note : zone_notes(frame, zone)) words += ", " + note;
  const double end = frame.plot.x + frame.canvas.text_width(words, kZoneNote);
  constexpr double kStopWords = 130;  // what the hard stop writes at most beside its shape
  const auto stop = first_hard_stop(course);
  if (stop && frame.shows(*stop) && frame.x_of(*stop) < end + kStopWords) return;
  frame.canvas.text(words, {frame.plot.x, frame.plot.y - kRise}, kZoneNote, neutral(kPaleL));
}

void name_zone(Frame& frame, const plan::ChartZone& zone, const NameColumn& column,
               double column_width) {
  if (too_thin(frame, zone)) return;
  const ZoneWords words = zone_words(frame, zone);
  const double y = frame.y_of(zone.from_cm) + kFirstLine;
  // Names stand flush at their own edge, and to the left of a column that they end at.
  const double width = std::max(words.width, words.beside ? 0 : column_width);
  const double x = column.align == Align::left ? column.x : column.x - width;
  words_on_field(frame, zone.name, {x, y}, kZoneName);
  for (std::size_t i = 0; i < words.notes.size(); ++i) {
    const double down = static_cast<double>(i + 1) * kLine;
    const Point at = words.beside ? Point{x + words.name_width + kApart, y} : Point{x, y + down};
    words_on_field(frame, words.notes[i], at, kZoneNote);
  }
}

/// Width of the zones' words that stand in lines below their names.
double column_width(Frame& frame) {
  double width = 0;
  for (const plan::ChartZone& zone : frame.chart.course.zones) {
    const ZoneWords words = zone_words(frame, zone);
    const bool in_lines = words.notes.size() > 1;
    if (in_lines && !too_thin(frame, zone)) width = std::max(width, words.width);
  }
  return width;
}

bool is_whole(double level) {
  return level == std::floor(level);
}

std::vector<Point> drawn_at(const Frame& frame, const plan::LevelLine& line) {
  std::vector<Point> points;
  points.reserve(line.points.size());
  for (const plan::ChartPoint& point : line.points) {
    points.push_back({frame.x_of(point.minute), frame.y_at(point.minute, point.cm)});
  }
  return points;
}

/// Whether another level's line runs through a box: a number there would be read as of both.
bool crowded(const Frame& frame, const plan::LevelLine& line, const Box& box) {
  return std::any_of(
      frame.chart.lines.begin(), frame.chart.lines.end(), [&](const plan::LevelLine& other) {
        if (other.level == line.level) return false;
        return std::any_of(
            other.points.begin(), other.points.end(), [&](const plan::ChartPoint& point) {
              const Box at{frame.x_of(point.minute), frame.y_at(point.minute, point.cm), 0, 0};
              return box.meets(at);
            });
      });
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
  const std::string number = decimal(frame.picture.language, line.level, 2);
  const double width = frame.canvas.text_width(number, type);
  constexpr double kCapHeight = 0.73;  // of the letters' size: figures are that tall
  const double height = type.size * kCapHeight;
  const std::size_t middle = points.size() / 2;
  const auto& zone = frame.chart.course.zones[plan::zone_at(frame.chart, line.label.cm)];
  const Box rows{frame.plot.x, frame.y_of(zone.from_cm), frame.plot.w,
                 frame.y_of(zone.to_cm) - frame.y_of(zone.from_cm)};
  const Box& band = frame.fade != nullptr ? frame.plot : rows;
  for (std::size_t away = 0; away <= middle; ++away) {
    for (const std::size_t i : {middle - away, middle + away}) {
      if (i >= points.size()) continue;
      const Box box{points[i].x - width / 2 - kRoom, points[i].y - height / 2 - kRoom,
                    width + 2 * kRoom, height + 2 * kRoom};
      const auto meets = [&](const Box& other) { return other.meets(box); };
      if (!band.holds(box) || std::any_of(frame.taken.begin(), frame.taken.end(), meets) ||
          crowded(frame, line, box)) {
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

void words_on_field(Frame& frame, const std::string& words, Point at, const Type& type) {
  constexpr double kRoom = 4;
  const double width = frame.canvas.text_width(words, type);
  const auto under = frame.under({at.x + width / 2, at.y - type.size / 2});
  frame.canvas.text_on_field(words, at, type, Frame::mark_ink(under));
  frame.taken.push_back(
      {at.x - kRoom, at.y - type.size - kRoom, width + 2 * kRoom, type.size + 2 * kRoom});
}

void draw_zone_names(Frame& frame) {
  const auto& zones = frame.chart.course.zones;
  const NameColumn column = name_column(frame);
  frame.canvas.clip(frame.plot);
  const double width = column_width(frame);
  for (const plan::ChartZone& zone : zones) name_zone(frame, zone, column, width);
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
    for (const plan::ChartEvent& event : zone.events) {
      if (!is_bowl(event)) continue;
      for (const auto& moment :
           {std::optional(event.on_min), std::optional(event.stop_min), event.hard_stop_min}) {
        if (moment) keep_clear(frame, *moment, zone.from_cm, zone.to_cm);
      }
    }
  }
  if (course.now_min) {
    keep_clear(frame, *course.now_min, course.zones.front().from_cm, course.zones.back().to_cm);
  }
  frame.canvas.clip(frame.plot);
  for (const bool whole : {true, false}) {  // whole levels take the good places
    for (const plan::LevelLine& line : frame.chart.lines) {
      if (is_whole(line.level) == whole) number_line(frame, line, drawn_at(frame, line));
    }
  }
  frame.canvas.unclip();
}

}  // namespace hw::sheets
