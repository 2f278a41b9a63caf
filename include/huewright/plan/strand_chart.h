#pragma once
// The strand chart as numbers: time across, distance from the scalp down, at each point the colour
// the strand is predicted to have there and then. One member stands for each zone; each distance of
// the zone is simulated at the scalp warmth it has where the hair lies at rest, through everything
// that is done to it. Nothing is smoothed between zones: a border is as sharp as the plan makes it.
// Drawing is sheets/strand_chart_png.h.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/colour/lab.h"
#include "huewright/hair/ladder.h"
#include "huewright/process/deposit.h"
#include "huewright/process/fade.h"
#include "huewright/process/lift.h"
#include "huewright/process/warmth.h"

namespace hw::plan {

/// Mixes one after another, that lighten.
struct ChartLift {
  std::vector<process::Application> applications;
};

/// A colour bowl as the one member takes it, no doubt left in its shades.
struct ChartColour {
  process::DepositBowl bowl;           ///< works for its minutes, or until it is rinsed
  std::vector<process::Poured> pours;  ///< process::settled()
  process::UptakeConstants uptake = process::central_uptake();
  /// How it fades, by process::HairState.
  std::array<process::FadeConstants, 3> fade = {};
};

/// A remover of old colour: shares of every dye layer left, at the end of each whole minute from 0
/// on, and what it adds in wear [share of cystine].
struct ChartRemover {
  std::vector<double> left = {1};
  double wear = 0;
};

/// Washing and light between two visits: every colour of an earlier event fades by its own law.
struct ChartWashes {
  double washes = 0;
  double light_h = 0;
  process::WashHabit habit;
};

/// One thing that happens to a zone, on the clock of the chart. It may lie before minute 0: then it
/// is simulated and not shown.
struct ChartEvent {
  std::size_t step = 0;  ///< which step of the day; the picture joins the zones of one step
  double on_min = 0;     ///< its first strand
  double from_min = 0;   ///< its middle strand: chemistry counts from here; on_min or later
  double stop_min = 0;   ///< rinsed or wiped; nothing works after it
  std::vector<double> again_min = {};  ///< when fresh mix goes on
  std::optional<double> hard_stop_min = {};
  std::variant<ChartLift, ChartColour, ChartRemover, ChartWashes> what;
  [[nodiscard]] bool colours() const { return std::holds_alternative<ChartColour>(what); }
};

/// One zone of the strand through the course.
struct ChartZone {
  std::string name;             ///< "roots", "lengths", …
  double from_cm = 0;           ///< from the scalp, stretched
  double to_cm = 1;             ///< above from_cm
  process::LiftMembers member;  ///< one member: the one nearest the median; its warmth_c is added
  std::vector<ChartEvent> events;  ///< in order, none before the last has stopped
  double resting_factor = 1;       ///< resting distance = stretched distance × this, above 0 to 1
};

/// A stretch of the day with a name over it; it lasts until the next one or the end.
struct ChartPhase {
  double from_min = 0;
  std::string label;
};

/// What is to be shown.
struct ChartCourse {
  std::vector<ChartZone> zones;  ///< from the scalp outward, without gap or overlap; at least one
  std::vector<std::string> steps = {};  ///< what each step puts on: "lift", "colour"
  std::vector<double> check_min = {};   ///< clock minutes of the checks
  double end_min = 0;                   ///< the chart ends here, above 0
  std::optional<double> now_min = {};
  std::vector<ChartPhase> phases = {};
  double room_c = process::kStandardCelsius;
  double skin_c = process::kSkinCelsius;
};

struct ChartPoint {
  double minute = 0;
  double cm = 0;
};

/// Points at which the level is the same, in order along the line.
struct LevelLine {
  double level = 0;
  std::vector<ChartPoint> points;  ///< at least two; a closed line repeats its first at the end
  ChartPoint label;                ///< a point half way along, where a number may stand
};

/// One zone's rows. The first row is at from_cm and the last at to_cm, so a border has two rows.
struct ChartBand {
  std::size_t first_row = 0;
  std::size_t rows = 0;
};

/// A clock minute and where it stands across the chart [0 to 1].
struct AxisKnot {
  double minute = 0;
  double across = 0;
};

struct StrandChart {
  ChartCourse course;  ///< as it was given
  std::size_t columns = 0;
  std::size_t rows = 0;
  std::vector<AxisKnot> axis;        ///< straight between knots
  std::vector<double> minute;        ///< of each column; columns are evenly spaced across
  std::vector<double> distance_cm;   ///< of each row, from the scalp, stretched
  std::vector<ChartBand> bands;      ///< one per zone
  std::vector<colour::HairLab> lab;  ///< rows × columns, row by row
  std::vector<double> level;         ///< likewise [1 to 10]
  std::vector<LevelLine> lines;      ///< whole and half levels, 1.5 to 9.5
  [[nodiscard]] std::size_t at(std::size_t row, std::size_t column) const {
    return row * columns + column;
  }
};

/// The chart of a course [Lab at D65/10°, level 1 to 10].
///
/// course: see above; check and phase minutes may lie anywhere, those outside are not shown.
/// What works is cut at stop_min; when it ends earlier the zone rests from there. columns,
/// rows: 2 or more, and at least two rows per zone; rows are shared out by length. Time runs at
/// full length while a bowl is on any zone and in pauses up to 15 min; longer pauses are folded
/// to a quarter (our choice of picture). ladder: reads the levels. Distances whose warmth differs
/// by less than 0.01 °C are simulated once (under 0.01 L*), and between simulated minutes, at most
/// 1 min apart, colours are taken on a straight line. Programmer's mistakes (gaps between zones,
/// not one member, events out of order): HW_CHECK. Deterministic: the same numbers whatever the
/// executor. 240 × 240 points are meant to take at most 16 ms.
[[nodiscard]] StrandChart strand_chart(const ChartCourse& course, std::size_t columns,
                                       std::size_t rows, const hair::Ladder& ladder,
                                       Executor& executor);

/// Lines at which a field of levels crosses one value, by marching squares with straight edges
/// [minute, cm]. minute, cm: coordinates of columns and rows, rising, 2 or more each; level: rows ×
/// columns, row by row. Where a cell is a saddle its mean decides. A value equal to `at` counts as
/// above. A line that starts and ends on the rim is open. Deterministic. Worked: level = minute/10
/// on a grid from 0 to 60 crosses 3 at minute 30 in every row.
[[nodiscard]] std::vector<LevelLine> level_lines(std::span<const double> minute,
                                                 std::span<const double> cm,
                                                 std::span<const double> level, double at);

/// Where a minute stands across the chart [0 to 1]; held at the ends. Without folds minute 30 of 60
/// stands at 0.5.
[[nodiscard]] double across(const StrandChart& chart, double minute);
/// The minute that stands there; the inverse of across().
[[nodiscard]] double minute_at(const StrandChart& chart, double across);

/// Which zone a distance belongs to [index]: from_cm ≤ cm < to_cm; held at the ends.
[[nodiscard]] std::size_t zone_at(const StrandChart& chart, double cm);
/// The colour at a point, linear between grid points and never across a border [Lab D65/10°].
/// minute, cm: held at the edges of the chart.
[[nodiscard]] colour::HairLab colour_at(const StrandChart& chart, double minute, double cm);

/// "1:05" for minute 65; rounded to the whole minute.
[[nodiscard]] std::string clock_text(double minute);

/// The chart in words, a table of minutes × zones for people who do not see it or have no screen.
/// Lines: the start, every check (every 10 min of a bowl at work when there is none), when each
/// bowl goes on and comes off, the hard stops, the end. Each cell: the level half way along the
/// zone, or its range where it spans half a level or more; the words for that colour; whether the
/// zone waits, what works on it, or that it is rinsed. Ends with a line break.
[[nodiscard]] std::string text_table(const StrandChart& chart, const hair::Ladder& ladder);

}  // namespace hw::plan
