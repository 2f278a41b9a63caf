#pragma once
// Where things stand on the strand chart, and the parts it is drawn from.
#include <optional>
#include <vector>

#include "canvas.h"
#include "huewright/plan/fade_chart.h"
#include "huewright/plan/strand_chart.h"
#include "huewright/sheets/strand_chart_png.h"

namespace hw::sheets {

// Neutrals [L*]. The surround is near 50 so that hair is judged against grey, and just dark enough
// for near-white letters to stand out 4.5 : 1.
inline constexpr double kSurroundL = 48;
inline constexpr double kPaleL = 98;
inline constexpr double kDarkL = 10;
/// Marks on hair lighter than this are dark, on darker hair pale [L*]: half way between the two in
/// contrast against either.
inline constexpr double kPaleMarksBelowL = 58;

struct Frame {
  Canvas& canvas;
  const plan::StrandChart& chart;
  const ChartPicture& picture;
  Box plot;                     ///< of the field
  Box legend;                   ///< right of it
  std::vector<Box> taken = {};  ///< where words already stand on the field
  /// The fade chart that `chart` is the body of: its places move out as the hair grows.
  const plan::FadeChart* fade = nullptr;

  /// Words of the picture in its language.
  [[nodiscard]] std::string say(std::string_view english) const {
    return retold(picture.language, english);
  }
  [[nodiscard]] double x_of(double minute) const {
    return plot.x + plot.w * plan::across(chart, minute);
  }
  [[nodiscard]] double y_of(double cm) const;
  /// Hair grown since minute 0 [cm]; 0 on a strand chart.
  [[nodiscard]] double grown_cm(double minute) const;
  /// Where the hair is at a minute that was at a place at minute 0.
  [[nodiscard]] double y_at(double minute, double cm) const { return y_of(cm + grown_cm(minute)); }
  /// Minute and place at minute 0 of what is seen at a point of the picture.
  [[nodiscard]] plan::ChartPoint place_of(const Point& at) const;
  [[nodiscard]] bool shows(double minute) const {
    return minute >= 0 && minute <= chart.course.end_min;
  }
  /// A hair colour as this picture shows it.
  [[nodiscard]] colour::HairLab shown(const colour::HairLab& lab) const;
  /// Colour of the field under a point of the picture.
  [[nodiscard]] colour::HairLab under(const Point& at) const;
  /// Pale or dark, whichever stands out on that colour.
  [[nodiscard]] static Ink mark_ink(const colour::HairLab& under, double opacity = 1);
};

/// The colours. Returns whether the screen can show all of them.
bool draw_field(Frame& frame);
/// Zone borders, when each bowl goes on and is rinsed.
void draw_zones(Frame& frame);
void draw_level_lines(Frame& frame);
void draw_zone_names(Frame& frame);
/// After the names, which keep their places.
void draw_level_numbers(Frame& frame);
/// Checks, hard stop, now.
void draw_moments(Frame& frame);
/// Rim, ticks, names of both axes, phases.
void draw_axes(Frame& frame);
/// Parts of it: the rim, the distance axis, the name of the time axis, a tick with its word. words:
/// where words of the axis already stand; a tick that must be there comes without its word where
/// there is no room for it.
void draw_rim(Frame& frame);
void draw_distance_axis(Frame& frame, const std::string& name);
void name_time_axis(Frame& frame, const std::string& name);
void draw_tick(Frame& frame, double x, const std::string& word, std::vector<Box>& words, bool must);
/// Of some steps the first whose ticks stand wide enough apart for words.
[[nodiscard]] double tick_step(double units_per_one, double widest, std::span<const double> steps);
/// Where the parts of a chart stand.
[[nodiscard]] Frame frame_of(Canvas& canvas, const plan::StrandChart& chart,
                             const ChartPicture& picture);
/// Errors: a size or scale outside its range.
[[nodiscard]] Result<void> check_size(const ChartPicture& picture);
/// Writes bytes over what stood there. Error: io (where: the path).
[[nodiscard]] Result<void> write_png(const Result<std::string>& bytes, const std::string& path);
/// Words on the field, in the ink that stands out there; keeps others off the place.
void words_on_field(Frame& frame, const std::string& words, Point at, const Type& type);
void draw_legend(Frame& frame, bool all_on_screen);
void draw_title_and_footnote(Frame& frame);

/// The title on one line in large letters, or on two in smaller ones.
void draw_title(Canvas& canvas, const std::string& title, double left, double room);
/// Words on one line where they fit, else on two, cut at the blank that makes them most alike.
[[nodiscard]] std::vector<std::string> two_lines(Canvas& canvas, const std::string& words,
                                                 double room, const Type& type);
/// Whether something is put on: washes are not drawn.
[[nodiscard]] bool is_bowl(const plan::ChartEvent& event);
/// The bowl of one step on a zone that the chart shows, if there is one.
[[nodiscard]] const plan::ChartEvent* bowl_of(const plan::ChartZone& zone, std::size_t step);
[[nodiscard]] std::size_t steps_of(const plan::ChartCourse& course);
/// The earliest hard stop of any zone that the chart may show [min].
[[nodiscard]] std::optional<double> first_hard_stop(const plan::ChartCourse& course);

/// An eight-cornered shape round a centre: a stop.
[[nodiscard]] std::vector<Point> octagon(Point centre, double radius);
/// A triangle that stands on its tip: a check.
[[nodiscard]] std::vector<Point> check_mark(Point tip, double size);

// Strokes that mean something, in the field and in the key alike.
inline constexpr double kOnDash[] = {0.1, 4.5};  // round caps make dots of it
inline constexpr double kRinseDash[] = {8, 5};
/// The stop's red: the one colour that is not hair. D65/10° Lab.
inline constexpr colour::HairLab kStopRed{45, 62, 40};

}  // namespace hw::sheets
