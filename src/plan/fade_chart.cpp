#include "huewright/plan/fade_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/colour/difference.h"
#include "huewright/hair/words.h"
#include "strand_grid.h"
#include "strand_play.h"
#include "text_columns.h"

namespace hw::plan {
namespace {

constexpr double kMinutesPerWeek = 7 * 24 * 60;
constexpr int kDaysPerWeek = 7;

ChartWashes washes_until(const FadeCourse& course, double week) {
  return {course.washes_per_week * week, course.light_h_per_week * week, course.wash};
}

std::vector<colour::HairLab> colours_of(const process::LiftMembers& hair) {
  std::vector<colour::HairLab> labs(hair.size());
  process::lift_colours(hair, process::starting_moment(hair), labs);
  return labs;
}

void paint_zone(FadeChart& chart, std::size_t z, Executor& executor) {
  StrandChart& body = chart.body;
  const ZoneMembers rows = zone_members(body, z);
  const Played played = play(rows.members, chart.course.zones[z].events, 1, executor);
  executor.run(body.columns, [&](std::size_t c) {
    const DyedHair hair = washed(played.after, washes_until(chart.course, week_of(body.minute[c])));
    const auto labs = colours_of(hair.hair);
    for (std::size_t i = 0; i < body.bands[z].rows; ++i) {
      body.lab[body.at(body.bands[z].first_row + i, c)] = labs[rows.of_row[i]];
    }
  });
}

double middle_of(const ChartZone& zone) {
  return (zone.from_cm + zone.to_cm) / 2;
}

colour::HairLab zone_lab(const FadeChart& chart, std::size_t z, double week) {
  return colour_at(chart.body, week * kMinutesPerWeek, middle_of(chart.course.zones[z]));
}

/// The first zone that differs clearly from its finish, and when.
void mark_refresh(FadeChart& chart) {
  for (const double minute : chart.body.minute) {
    for (std::size_t z = 0; z < chart.course.zones.size(); ++z) {
      const double de =
          colour::delta_e_2000(zone_lab(chart, z, 0), zone_lab(chart, z, week_of(minute)));
      if (de < kClearDe00) continue;
      chart.marks.push_back({week_of(minute), "refresh the colour"});
      return;
    }
  }
}

/// When the regrowth has grown out of the scalp's warmth, where it is seen at all.
void mark_roots(FadeChart& chart) {
  const FadeCourse& course = chart.course;
  if (!(course.growth_cm_per_week > 0)) return;
  const double week = kWarmRegrowthCm / course.growth_cm_per_week;
  if (week > course.weeks) return;
  if (colour::delta_e_2000(chart.grown, zone_lab(chart, 0, week)) < kClearDe00) return;
  chart.marks.push_back({week, "regrowth half an inch"});
}

void add_marks(FadeChart& chart) {
  mark_refresh(chart);
  mark_roots(chart);
  const auto& next = chart.course.next_visit_week;
  if (next && *next <= chart.course.weeks) chart.marks.push_back({*next, "next visit"});
  std::stable_sort(chart.marks.begin(), chart.marks.end(),
                   [](const FadeMark& a, const FadeMark& b) { return a.week < b.week; });
}

void add_stands(FadeChart& chart) {
  constexpr std::array<double, 5> kWashes = {0, 5, 10, 20, 30};
  constexpr double kLastWash = 1 + 1e-9;  // the end itself is shown
  const FadeCourse& course = chart.course;
  for (const double wash : kWashes) {
    const double week = wash / course.washes_per_week;
    if (week > course.weeks * kLastWash) break;
    for (std::size_t z = 0; z < course.zones.size(); ++z) {
      const auto lab = zone_lab(chart, z, week);
      chart.stands.push_back({wash, z, lab, colour::delta_e_2000(zone_lab(chart, z, 0), lab)});
    }
  }
}

}  // namespace

FadeChart fade_chart(const FadeCourse& course, std::size_t columns, std::size_t rows,
                     const hair::Ladder& ladder, Executor& executor) {
  HW_CHECK(course.weeks > 0 && course.washes_per_week > 0 && course.regrowth.size() == 1);
  HW_CHECK(!course.zones.empty() && columns >= 2 && rows >= 2 * course.zones.size());
  FadeChart chart;
  chart.course = course;
  StrandChart& body = chart.body;
  body.course.zones = course.zones;
  body.course.end_min = course.weeks * kMinutesPerWeek;
  body.course.room_c = course.room_c;
  body.columns = columns;
  body.axis = {{0, 0}, {body.course.end_min, 1}};
  lay_rows(body, rows);
  for (std::size_t c = 0; c < columns; ++c) {
    body.minute.push_back(body.course.end_min * static_cast<double>(c) /
                          static_cast<double>(columns - 1));
  }
  body.lab.resize(rows * columns);
  for (std::size_t z = 0; z < course.zones.size(); ++z) paint_zone(chart, z, executor);
  find_levels(body, ladder);
  chart.grown = colours_of(course.regrowth)[0];
  add_marks(chart);
  add_stands(chart);
  return chart;
}

double week_of(double minute) {
  return minute / kMinutesPerWeek;
}

colour::HairLab faded_at(const FadeChart& chart, double week, double cm) {
  const double at_finish = cm - chart.course.growth_cm_per_week * week;
  if (at_finish < chart.course.zones.front().from_cm) return chart.grown;
  return colour_at(chart.body, week * kMinutesPerWeek, at_finish);
}

std::string week_text(const FadeChart& chart, double week) {
  constexpr std::array kMonths = {"January",   "February", "March",    "April",
                                  "May",       "June",     "July",     "August",
                                  "September", "October",  "November", "December"};
  std::string text = fmt::format("week {:.0f}", week);
  if (!chart.course.finished_on) return text;
  const int days = static_cast<int>(std::lround(week * kDaysPerWeek));
  const auto date = process::days_later(*chart.course.finished_on, days);
  return text + fmt::format(", {} {}", static_cast<unsigned>(date.day()),
                            kMonths[static_cast<unsigned>(date.month()) - 1]);
}

std::string text_table(const FadeChart& chart, const hair::Ladder& ladder) {
  std::vector<std::vector<std::string>> table(1, {"wash", "when"});
  for (const ChartZone& zone : chart.course.zones) table[0].push_back(zone.name);
  for (std::size_t i = 0; i < chart.stands.size(); i += chart.course.zones.size()) {
    const double wash = chart.stands[i].wash;
    auto& line = table.emplace_back(1, fmt::format("{:.0f}", wash));
    line.push_back(week_text(chart, wash / chart.course.washes_per_week));
    for (std::size_t z = 0; z < chart.course.zones.size(); ++z) {
      const FadeStand& stand = chart.stands[i + z];
      const auto words = hair::describe(stand.lab, ladder);
      line.push_back(fmt::format("{:.1f} {}, {}", words.level, words.level_name, words.tone));
      if (wash > 0) line.back() += fmt::format(" ({:.1f} off)", stand.de00);
    }
  }
  std::string text = in_columns(table);
  for (const FadeMark& mark : chart.marks) {
    text += fmt::format("{}: {}\n", week_text(chart, mark.week), mark.words);
  }
  return text;
}

}  // namespace hw::plan
