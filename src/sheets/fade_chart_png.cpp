#include "huewright/sheets/fade_chart_png.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "chart_frame.h"
#include "huewright/hair/words.h"

namespace hw::sheets {
namespace {

constexpr double kMinutesPerWeek = 7 * 24 * 60;
constexpr double kWeeksPerMonth = 365.25 / 12 / 7;  // days of a mean month over those of a week

double x_of_week(const Frame& frame, double week) {
  return frame.x_of(week * kMinutesPerWeek);
}

/// Borders of the zones as the hair grows, and the line that the colour has grown out to.
void draw_borders(Frame& frame) {
  frame.canvas.clip(frame.plot);
  const double end = frame.chart.course.end_min;
  for (const plan::ChartZone& zone : frame.chart.course.zones) {
    const Point border[] = {{frame.plot.x, frame.y_of(zone.from_cm)},
                            {frame.plot.right(), frame.y_at(end, zone.from_cm)}};
    frame.canvas.stroke(border, 1, neutral(kPaleL, 0.28));
  }
  frame.canvas.unclip();
}

/// "5.3 light brown, copper"
std::string words_for(const Frame& frame, const plan::FadeStand& stand) {
  const auto words = hair::describe(stand.lab);
  const std::string tone = words.warmth.empty() ? words.tone : words.warmth;
  return fmt::format("{} {}, {}", fixed(frame.picture.language, words.level, 1),
                     frame.say(words.level_name), frame.say(tone));
}

/// Each zone's name and colour at the finish, and its colour at the end of the chart.
void name_zones(Frame& frame) {
  constexpr Type kName{13, true};
  constexpr Type kNote{12, false};
  constexpr double kIndent = 10;
  constexpr double kFirstLine = 20;
  constexpr double kLine = 17;
  constexpr double kThinnest = 26;
  constexpr double kWithNote = 43;
  const auto& zones = frame.chart.course.zones;
  const auto& stands = frame.fade->stands;
  const double end = frame.chart.course.end_min;
  frame.canvas.clip(frame.plot);
  for (std::size_t z = 0; z < zones.size(); ++z) {
    const double top = frame.y_of(zones[z].from_cm);
    const double height = frame.y_of(zones[z].to_cm) - top;
    if (height < kThinnest) continue;
    words_on_field(frame, zones[z].name, {frame.plot.x + kIndent, top + kFirstLine}, kName);
    if (height < kWithNote) continue;
    words_on_field(frame, words_for(frame, stands[z]),
                   {frame.plot.x + kIndent, top + kFirstLine + kLine}, kNote);
    const plan::FadeStand& last = stands[stands.size() - zones.size() + z];
    const double last_top = frame.y_at(end, zones[z].from_cm);
    if (last.wash <= 0 || last_top + kFirstLine + kLine > frame.plot.bottom()) continue;
    const std::string words = words_for(frame, last);
    words_on_field(frame, words,
                   {frame.plot.right() - kIndent - frame.canvas.text_width(words, kNote),
                    last_top + kFirstLine},
                   kNote);
  }
  frame.canvas.unclip();
}

void draw_weeks(Frame& frame) {
  constexpr double kWidest = 40;
  constexpr double kSteps[] = {1, 2, 4, 8, 13, 26};
  const plan::FadeCourse& course = frame.fade->course;
  std::vector<Box> words;
  draw_tick(frame, frame.plot.x, "0", words, true);
  const double step = tick_step(frame.plot.w / course.weeks, kWidest, kSteps);
  for (double n = 1; n * step <= course.weeks; ++n) {
    draw_tick(frame, x_of_week(frame, n * step), fmt::format("{:g}", n * step), words, false);
  }
  const std::string washes =
      course.washes_per_week == 1 ? "1 wash" : fmt::format("{:g} washes", course.washes_per_week);
  name_time_axis(frame, fmt::format("weeks after the finish, {} a week; {:.1f} cm grow in a month",
                                    washes, course.growth_cm_per_week * kWeeksPerMonth));
}

/// The washes at which the stands are, along the top.
void draw_washes(Frame& frame) {
  constexpr Type kType{13, false};
  constexpr double kSize = 9;
  constexpr double kGap = 2;
  constexpr double kRise = 15;
  double free_from = frame.plot.x;
  double last = -1;
  for (const plan::FadeStand& stand : frame.fade->stands) {
    if (stand.wash <= 0 || stand.wash == last) continue;
    last = stand.wash;
    const double x = x_of_week(frame, stand.wash / frame.fade->course.washes_per_week);
    frame.canvas.fill_shape(check_mark({x, frame.plot.y - kGap}, kSize), neutral(kPaleL));
    const std::string word = frame.say(fmt::format("wash {:.0f}", stand.wash));
    const double width = frame.canvas.text_width(word, kType);
    const double left = std::min(x - width / 2, frame.plot.right() - width);
    if (left < free_from) continue;
    frame.canvas.text(word, {left, frame.plot.y - kRise}, kType, neutral(kPaleL));
    free_from = left + width + kSize;
  }
}

/// Dates: a broken line each, its words at its head. From the last to the first each takes the
/// lowest row that is free, so that no line runs through the words of another.
void draw_marks(Frame& frame) {
  constexpr Type kType{13, true};
  constexpr double kLowest = 36;  // of the words' base line above the field
  constexpr double kRow = 16;
  constexpr int kRows = 3;
  constexpr double kGap = 8;
  const auto& marks = frame.fade->marks;
  std::vector<Box> taken;
  for (auto mark = marks.rbegin(); mark != marks.rend(); ++mark) {
    const double x = frame.canvas.snap(x_of_week(frame, mark->week));
    const std::string words =
        frame.say(mark->words + ": " + plan::week_text(*frame.fade, mark->week));
    const double width = frame.canvas.text_width(words, kType);
    const double left = std::min(x, frame.plot.right() - width);
    Box box{left - kGap, frame.plot.y - kLowest - kType.size, width + 2 * kGap, kRow};
    for (int row = 1; row < kRows; ++row) {
      const bool free = std::none_of(taken.begin(), taken.end(),
                                     [&](const Box& other) { return other.meets(box); });
      if (free) break;
      box.y -= kRow;
    }
    taken.push_back(box);
    const double base = box.y + kType.size;
    const Point line[] = {{x, base + 4}, {x, frame.plot.bottom()}};
    frame.canvas.stroke(line, 3.5, neutral(kDarkL, 0.4), kRinseDash);
    frame.canvas.stroke(line, 1.5, neutral(kPaleL), kRinseDash);
    frame.canvas.text(words, {left, base}, kType, neutral(kPaleL));
  }
}

}  // namespace

Result<std::string> fade_chart_png(const plan::FadeChart& chart, const ChartPicture& picture) {
  if (auto sized = check_size(picture); !sized) return tl::unexpected(sized.error());
  Canvas canvas(picture.width, picture.height, picture.scale);
  Frame frame = frame_of(canvas, chart.body, picture);
  frame.fade = &chart;
  canvas.fill({0, 0, picture.width + 1, picture.height + 1}, neutral(kSurroundL));
  const bool all_on_screen = draw_field(frame);
  draw_borders(frame);
  draw_level_lines(frame);
  draw_marks(frame);
  name_zones(frame);
  draw_level_numbers(frame);
  draw_rim(frame);
  draw_weeks(frame);
  draw_distance_axis(frame, frame.say("cm from scalp, stretched; trimmed as it grows"));
  draw_washes(frame);
  draw_legend(frame, all_on_screen);
  draw_title_and_footnote(frame);
  return canvas.png();
}

Result<void> write_fade_chart_png(const plan::FadeChart& chart, const ChartPicture& picture,
                                  const std::string& path) {
  return write_png(fade_chart_png(chart, picture), path);
}

}  // namespace hw::sheets
