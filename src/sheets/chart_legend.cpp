// What the marks and levels mean, the title, and the line that says what a prediction is.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "chart_frame.h"
#include "huewright/hair/words.h"

namespace hw::sheets {
namespace {

constexpr Type kHead{14, true};
constexpr Type kWord{13, false};
constexpr Type kSmall{11.5, false};
constexpr double kKeyLine = 21;
constexpr double kTextAt = 62;  ///< left edge of words in the legend

/// A level that occurs on the chart and the colour it has where it is met most exactly.
struct Rung {
  int level = 0;
  colour::HairLab lab;
};

std::vector<Rung> rungs(const plan::StrandChart& chart) {
  constexpr double kNear = 0.25;  // levels; farther off is another colour
  constexpr int kLevels = 10;
  std::vector<Rung> found;
  for (int level = 1; level <= kLevels; ++level) {
    double best = kNear;
    std::size_t at = chart.level.size();
    for (std::size_t i = 0; i < chart.level.size(); ++i) {
      const double off = std::abs(chart.level[i] - level);
      if (off < best) {
        best = off;
        at = i;
      }
    }
    if (at < chart.level.size()) found.push_back({level, chart.lab[at]});
  }
  return found;
}

/// Two lines of words beside a large swatch, or one beside a small one where many levels occur.
struct RungSize {
  double row;
  double swatch;
  bool two_lines;
};
constexpr RungSize kRoomy{36, 26, true};
constexpr RungSize kTight{22, 18, false};

void draw_rung(Frame& frame, const Rung& rung, double y, const RungSize& size) {
  constexpr double kNumberAt = 14;  // centre of the number
  constexpr double kSwatchAt = 28;
  constexpr double kHalfFigure = 5;
  Canvas& canvas = frame.canvas;
  const double x = frame.legend.x;
  const double middle = y + size.swatch / 2;
  canvas.text(fmt::format("{}", rung.level), {x + kNumberAt, middle + kHalfFigure}, kHead,
              neutral(kPaleL), Align::centre);
  canvas.fill({canvas.snap(x + kSwatchAt), canvas.snap(y), kRoomy.swatch, size.swatch},
              ink_of(frame.shown(rung.lab)));
  const hair::ColourWords words = hair::describe(rung.lab);
  const std::string warmth = frame.say(!words.warmth.empty() ? words.warmth : words.tone);
  const std::string name = frame.say(hair::level_name(rung.level));
  const double room = frame.legend.w - kTextAt;
  if (size.two_lines) {
    canvas.text(canvas.fitted(name, room, kWord), {x + kTextAt, y + 11}, kWord, neutral(kPaleL));
    canvas.text(canvas.fitted(warmth, room, kSmall), {x + kTextAt, y + 26}, kSmall,
                neutral(kPaleL));
  } else {
    canvas.text(canvas.fitted(name, room, kSmall), {x + kTextAt, middle + kHalfFigure - 1}, kSmall,
                neutral(kPaleL));
  }
}

/// One line of the key: its mark is drawn by `draw` round the centre it is given.
template <class Draw>
void key(Frame& frame, double& y, const std::string& words, Draw draw) {
  constexpr double kMarkAt = 41;
  constexpr double kSecondLine = 13;
  draw(Point{frame.legend.x + kMarkAt, y});
  const auto lines = two_lines(frame.canvas, frame.say(words), frame.legend.w - kTextAt, kSmall);
  double base = y + kSmall.size / 3 - (lines.size() > 1 ? kSecondLine / 2 : 0);
  for (const std::string& line : lines) {
    frame.canvas.text(line, {frame.legend.x + kTextAt, base}, kSmall, neutral(kPaleL));
    base += kSecondLine;
  }
  y += kKeyLine + (lines.size() > 1 ? kSecondLine / 2 : 0);
}

/// What the marks of a fade chart mean.
void draw_fade_key(Frame& frame, double& y) {
  constexpr double kHalf = 9;
  Canvas& canvas = frame.canvas;
  const double level = hair::describe(frame.fade->grown).level;
  key(frame, y, fmt::format("grown in, level {:.1f}", level), [&](Point at) {
    canvas.fill({at.x - kHalf, at.y - kHalf, 2 * kHalf, 2 * kHalf},
                ink_of(frame.shown(frame.fade->grown)));
  });
  key(frame, y, "level; thin: half level", [&](Point at) {
    const Point line[] = {{at.x - kHalf, at.y}, {at.x + kHalf, at.y}};
    canvas.stroke(line, 1.25, neutral(kPaleL, 0.85));
  });
  key(frame, y, "washes so far", [&](Point at) {
    canvas.fill_shape(check_mark({at.x, at.y + 5}, 9), neutral(kPaleL));
  });
  if (frame.fade->marks.empty()) return;
  key(frame, y, "a date to keep", [&](Point at) {
    const Point line[] = {{at.x, at.y - kHalf}, {at.x, at.y + kHalf}};
    canvas.stroke(line, 2, neutral(kPaleL), kRinseDash);
  });
}

/// What the marks of a day mean.
void draw_day_key(Frame& frame, double& y) {
  constexpr double kHalf = 11;
  Canvas& canvas = frame.canvas;
  const auto& course = frame.chart.course;
  const auto flat = [&](Point centre) {
    return std::array<Point, 2>{Point{centre.x - kHalf, centre.y},
                                Point{centre.x + kHalf, centre.y}};
  };
  const auto& zones = course.zones;
  const bool any_bowl = std::any_of(
      zones.begin(), zones.end(), [](const plan::ChartZone& zone) { return !zone.events.empty(); });
  if (any_bowl) {
    key(frame, y, "goes on",
        [&](Point at) { canvas.stroke(flat(at), 2, neutral(kPaleL), kOnDash); });
    key(frame, y, "is rinsed",
        [&](Point at) { canvas.stroke(flat(at), 1.5, neutral(kPaleL), kRinseDash); });
  }
  key(frame, y, "level; thin: half level",
      [&](Point at) { canvas.stroke(flat(at), 1.25, neutral(kPaleL, 0.85)); });
  if (!course.check_min.empty()) {
    key(frame, y, "check", [&](Point at) {
      canvas.fill_shape(check_mark({at.x, at.y + 5}, 9), neutral(kPaleL));
    });
  }
  if (first_hard_stop(course)) {
    key(frame, y, "hard stop: rinse by then", [&](Point at) {
      canvas.fill_shape(octagon(at, 7), ink_of(kStopRed));
      canvas.stroke_shape(octagon(at, 7), 1.25, neutral(kPaleL));
    });
  }
}

void draw_key(Frame& frame, double y, bool all_on_screen) {
  frame.fade != nullptr ? draw_fade_key(frame, y) : draw_day_key(frame, y);
  Canvas& canvas = frame.canvas;
  if (!all_on_screen) {
    key(frame, y, "nearest a screen can show", [&](Point at) {
      canvas.text("≈", {at.x, at.y + 5}, kHead, neutral(kPaleL), Align::centre);
    });
  }
}

}  // namespace

void draw_title(Canvas& canvas, const std::string& title, double left, double room) {
  constexpr Type kTitle{20, true};
  constexpr Type kLongTitle{15.5, true};
  constexpr double kBase = 36;
  constexpr double kLongBase = 27;
  constexpr double kLine = 20;
  const bool fits = canvas.text_width(title, kTitle) <= room;
  double y = fits ? kBase : kLongBase;
  for (const std::string& line : two_lines(canvas, title, room, fits ? kTitle : kLongTitle)) {
    canvas.text(line, {left, y}, fits ? kTitle : kLongTitle, neutral(kPaleL));
    y += kLine;
  }
}

std::vector<std::string> two_lines(Canvas& canvas, const std::string& words, double room,
                                   const Type& type) {
  if (canvas.text_width(words, type) <= room) return {words};
  std::vector<std::string> best{canvas.fitted(words, room, type)};
  double narrowest = canvas.text_width(words, type);
  for (std::size_t at = words.find(' '); at != std::string::npos; at = words.find(' ', at + 1)) {
    const std::string first = words.substr(0, at);
    const std::string second = words.substr(at + 1);
    const double width = std::max(canvas.text_width(first, type), canvas.text_width(second, type));
    if (width >= narrowest) continue;
    narrowest = width;
    best = {canvas.fitted(first, room, type), canvas.fitted(second, room, type)};
  }
  return best;
}

void draw_legend(Frame& frame, bool all_on_screen) {
  constexpr double kHeadRoom = 12;
  constexpr double kKeyRoom = 18;
  double y = frame.legend.y;
  frame.canvas.text(frame.say("level and look"), {frame.legend.x + 7, y - kHeadRoom}, kHead,
                    neutral(kPaleL));
  const auto found = rungs(frame.chart);
  constexpr int kKeyLines = 6;
  const double roomy =
      static_cast<double>(found.size()) * kRoomy.row + kKeyRoom + kKeyLines * kKeyLine;
  const RungSize& size = roomy <= frame.legend.h ? kRoomy : kTight;
  for (const Rung& rung : found) {
    draw_rung(frame, rung, y, size);
    y += size.row;
  }
  draw_key(frame, y + kKeyRoom, all_on_screen);
}

void draw_title_and_footnote(Frame& frame) {
  constexpr Type kBadge{13, true};
  constexpr double kBase = 36;
  constexpr double kFootRise = 18;
  constexpr double kBadgeRoom = 330;
  Canvas& canvas = frame.canvas;
  const double right = frame.legend.right();
  const double room = right - frame.plot.x - (frame.picture.shadows_lifted ? kBadgeRoom : 0);
  draw_title(canvas, frame.picture.title, frame.plot.x, room);
  if (frame.picture.shadows_lifted) {
    constexpr double kPad = 12;
    constexpr double kHeight = 28;
    const std::string words = frame.say("shadows lifted: dark hair drawn lighter");
    const double width = canvas.text_width(words, kBadge) + 2 * kPad;
    const Box box{right - width, kBase - kHeight + 8, width, kHeight};
    canvas.fill_round(box, kHeight / 4, neutral(kDarkL));
    canvas.text(words, {box.x + kPad, kBase - 1}, kBadge, neutral(kPaleL));
  }
  const std::string first = frame.say("What a model expects of this hair, not proof.");
  const std::string second = frame.say(
      "Do a strand test; follow the makers' instructions and local law; the licensed professional "
      "decides.");
  const double foot = frame.picture.height - kFootRise;
  const std::string whole = first + " " + second;
  if (canvas.text_width(whole, kWord) <= right - frame.plot.x) {
    canvas.text(whole, {frame.plot.x, foot}, kWord, neutral(kPaleL));
  } else {  // never cut: it is the line that matters most
    constexpr double kHalfLine = 8;
    canvas.text(first, {frame.plot.x, foot - kHalfLine}, kWord, neutral(kPaleL));
    canvas.text(second, {frame.plot.x, foot + kHalfLine}, kWord, neutral(kPaleL));
  }
}

}  // namespace hw::sheets
