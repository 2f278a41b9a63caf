#pragma once
// The fade chart as numbers: the strand chart with weeks across. It starts from the finished
// colour of a course; washes and light take it off, the canvas shows through, and natural hair
// grows in at the scalp and pushes every border down the picture. Tips are cut as the hair grows.
// Drawing is sheets/fade_chart_png.h.
#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/plan/belief.h"
#include "huewright/plan/case.h"
#include "huewright/plan/course.h"
#include "huewright/plan/strand_chart.h"

namespace hw::plan {

/// Colour differences of CIEDE2000 from here on are clear: that the colour is refreshed then, and
/// that a regrowth is seen, are our choice.
inline constexpr double kClearDe00 = 3;
/// Regrowth that still lies in the warmth of the scalp [cm]: half an inch, common practice.
inline constexpr double kWarmRegrowthCm = 1.27;

/// How the finished colour is lived with.
struct FadeCourse {
  std::vector<ChartZone> zones;   ///< as ChartCourse; their events are simulated and not shown
  process::LiftMembers regrowth;  ///< one member: the hair that grows in
  double weeks = 30;              ///< shown, > 0
  double washes_per_week = 1;     ///< > 0
  double light_h_per_week = 0;
  process::WashHabit wash;
  double growth_cm_per_week = 0;  ///< stretched, ≥ 0
  std::optional<double> next_visit_week = {};
  std::optional<std::chrono::year_month_day> finished_on = {};
  double room_c = process::kStandardCelsius;
};

/// A date to keep.
struct FadeMark {
  double week = 0;
  std::string words;  ///< "refresh the colour", "regrowth half an inch", "next visit"
};

/// A zone after some washes.
struct FadeStand {
  double wash = 0;
  std::size_t zone = 0;
  colour::HairLab lab;  ///< half way along the zone
  double de00 = 0;      ///< from wash 0
};

struct FadeChart {
  FadeCourse course;              ///< as it was given
  StrandChart body;               ///< minutes since the finish; rows by distance at the finish
  colour::HairLab grown;          ///< of the regrowth
  std::vector<FadeMark> marks;    ///< by week, none beyond the end
  std::vector<FadeStand> stands;  ///< washes 0, 5, 10, 20, 30 as far as shown, zone by zone
};

/// The fade of one section of a course: up to wash 30, at least 4 weeks and at most 52. The hair
/// that grows in is the natural hair of the zone nearest the scalp, as the same member has it.
/// Otherwise as chart_course().
[[nodiscard]] FadeCourse fade_course(const Case& head, std::span<const ZoneBelief> beliefs,
                                     const Course& course, const std::string& section);
[[nodiscard]] FadeCourse fade_course(const Case& head, std::span<const ZoneBelief> beliefs,
                                     const Course& course);

/// The chart [Lab at D65/10°, level 1 to 10]. columns, rows, ladder, mistakes: as strand_chart().
/// Washes are spread evenly over the weeks. Marks: a refresh when the first zone has moved by
/// kClearDe00; the regrowth when it is kWarmRegrowthCm long, if it differs by as much from the zone
/// below it; the next visit. Deterministic.
[[nodiscard]] FadeChart fade_chart(const FadeCourse& course, std::size_t columns, std::size_t rows,
                                   const hair::Ladder& ladder, Executor& executor);

/// Weeks after the finish that a minute of the body is.
[[nodiscard]] double week_of(double minute);
/// The colour at a place of the picture: cm from the scalp then [Lab D65/10°].
[[nodiscard]] colour::HairLab faded_at(const FadeChart& chart, double week, double cm);
/// "week 6, 3 March" where the day of the finish is known, else "week 6"; whole weeks.
[[nodiscard]] std::string week_text(const FadeChart& chart, double week);

/// The chart in words: a line for each of the stands' washes with a cell for each zone, then the
/// marks with their dates, one a line. Ends with a line break.
[[nodiscard]] std::string text_table(const FadeChart& chart, const hair::Ladder& ladder);

}  // namespace hw::plan
