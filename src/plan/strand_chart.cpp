#include "huewright/plan/strand_chart.h"

#include <algorithm>
#include <cmath>

#include "huewright/base/check.h"
#include "strand_grid.h"
#include "strand_play.h"

namespace hw::plan {
namespace {

constexpr double kFullPauseMin = 15;      // longer pauses are folded; choice of picture
constexpr double kFoldedShare = 1.0 / 4;  // of their length, and never shorter than a full pause

struct Span {
  double from = 0;
  double to = 0;
};

/// Stretches with a bowl on any zone, joined and in order.
std::vector<Span> working_spans(const ChartCourse& course) {
  std::vector<Span> spans;
  for (const ChartZone& zone : course.zones) {
    for (const ChartEvent& event : zone.events) {
      if (std::holds_alternative<ChartWashes>(event.what)) continue;
      const Span span{std::clamp(event.on_min, 0.0, course.end_min),
                      std::clamp(event.stop_min, 0.0, course.end_min)};
      if (span.to > span.from) spans.push_back(span);
    }
  }
  std::sort(spans.begin(), spans.end(),
            [](const Span& a, const Span& b) { return a.from < b.from; });
  std::vector<Span> joined;
  for (const Span& span : spans) {
    if (joined.empty() || span.from > joined.back().to) {
      joined.push_back(span);
    } else {
      joined.back().to = std::max(joined.back().to, span.to);
    }
  }
  return joined;
}

std::vector<AxisKnot> make_axis(const ChartCourse& course) {
  std::vector<AxisKnot> axis{{0, 0}};
  const auto go_to = [&](double minute, bool working) {
    const double length = minute - axis.back().minute;
    if (!(length > 0)) return;
    const bool folded = !working && length > kFullPauseMin;
    const double shown = folded ? std::max(kFullPauseMin, length * kFoldedShare) : length;
    axis.push_back({minute, axis.back().across + shown});
  };
  for (const Span& span : working_spans(course)) {
    go_to(span.from, false);
    go_to(span.to, true);
  }
  go_to(course.end_min, false);
  const double whole = axis.back().across;
  for (AxisKnot& knot : axis) knot.across /= whole;
  return axis;
}

void check_course(const ChartCourse& course, std::size_t columns, std::size_t rows) {
  constexpr double kSameBorderCm = 1e-9;
  constexpr double kSameMinute = 1e-9;
  HW_CHECK(!course.zones.empty() && course.end_min > 0);
  HW_CHECK(columns >= 2 && rows >= 2 * course.zones.size());
  for (std::size_t z = 0; z < course.zones.size(); ++z) {
    const ChartZone& zone = course.zones[z];
    HW_CHECK(zone.member.size() == 1 && zone.to_cm > zone.from_cm);
    HW_CHECK(zone.resting_factor > 0 && zone.resting_factor <= 1);
    HW_CHECK(z == 0 || std::abs(zone.from_cm - course.zones[z - 1].to_cm) < kSameBorderCm);
    for (std::size_t e = 0; e < zone.events.size(); ++e) {
      const ChartEvent& event = zone.events[e];
      HW_CHECK(event.on_min <= event.from_min);
      HW_CHECK(e == 0 || event.from_min > zone.events[e - 1].stop_min - kSameMinute);
    }
  }
}

colour::HairLab between(const colour::HairLab& a, const colour::HairLab& b, double t) {
  return {a.l + (b.l - a.l) * t, a.a + (b.a - a.a) * t, a.b + (b.b - a.b) * t};
}

/// How often a zone is read out: about once a column, no finer than a quarter of a minute.
double read_every(const StrandChart& chart) {
  constexpr double kFinestMin = 0.25;
  constexpr double kCoarsestMin = 1;
  double column = kCoarsestMin;
  for (std::size_t c = 1; c < chart.columns; ++c) {
    column = std::min(column, chart.minute[c] - chart.minute[c - 1]);
  }
  return std::clamp(column, kFinestMin, kCoarsestMin);
}

void paint_zone(StrandChart& chart, std::size_t z, Executor& executor) {
  const ChartBand& band = chart.bands[z];
  const ZoneMembers rows = zone_members(chart, z);
  const auto moments =
      play(rows.members, chart.course.zones[z].events, read_every(chart), executor).moments;
  std::size_t next = 0;  // first moment after the column
  for (std::size_t c = 0; c < chart.columns; ++c) {
    const double minute = chart.minute[c];
    while (next < moments.size() && moments[next].minute <= minute) ++next;
    const std::size_t before = next == 0 ? 0 : next - 1;
    const std::size_t after = std::min(next, moments.size() - 1);
    const double gap = moments[after].minute - moments[before].minute;
    const double t = gap > 0 ? (minute - moments[before].minute) / gap : 0;
    for (std::size_t i = 0; i < band.rows; ++i) {
      const std::size_t m = rows.of_row[i];
      chart.lab[chart.at(band.first_row + i, c)] =
          between(moments[before].lab[m], moments[after].lab[m], t);
    }
  }
}

}  // namespace

StrandChart strand_chart(const ChartCourse& course, std::size_t columns, std::size_t rows,
                         const hair::Ladder& ladder, Executor& executor) {
  check_course(course, columns, rows);
  StrandChart chart;
  chart.course = course;
  chart.columns = columns;
  chart.axis = make_axis(course);
  lay_rows(chart, rows);
  for (std::size_t c = 0; c < columns; ++c) {
    chart.minute.push_back(
        minute_at(chart, static_cast<double>(c) / static_cast<double>(columns - 1)));
  }
  chart.lab.resize(rows * columns);
  for (std::size_t z = 0; z < course.zones.size(); ++z) paint_zone(chart, z, executor);
  find_levels(chart, ladder);
  return chart;
}

namespace {

/// Straight lines through the knots, from one coordinate to the other.
double through_knots(const std::vector<AxisKnot>& knots, double x, double AxisKnot::*from,
                     double AxisKnot::*to) {
  if (x <= knots.front().*from) return knots.front().*to;
  for (std::size_t i = 1; i < knots.size(); ++i) {
    const AxisKnot& a = knots[i - 1];
    const AxisKnot& b = knots[i];
    if (x < b.*from) return a.*to + (b.*to - a.*to) * (x - a.*from) / (b.*from - a.*from);
  }
  return knots.back().*to;
}

/// The pair of grid coordinates round a value, and how far along between them it stands.
struct Bracket {
  std::size_t low = 0;
  std::size_t high = 0;
  double t = 0;
};
Bracket bracket(std::span<const double> rising, double x) {
  const auto above = std::upper_bound(rising.begin(), rising.end(), x);
  if (above == rising.begin()) return {0, 0, 0};
  const auto high = static_cast<std::size_t>(above - rising.begin());
  if (high == rising.size()) return {high - 1, high - 1, 0};
  return {high - 1, high, (x - rising[high - 1]) / (rising[high] - rising[high - 1])};
}

}  // namespace

double across(const StrandChart& chart, double minute) {
  return through_knots(chart.axis, minute, &AxisKnot::minute, &AxisKnot::across);
}

double minute_at(const StrandChart& chart, double across) {
  return through_knots(chart.axis, across, &AxisKnot::across, &AxisKnot::minute);
}

std::size_t zone_at(const StrandChart& chart, double cm) {
  const auto& zones = chart.course.zones;
  std::size_t z = 0;
  while (z + 1 < zones.size() && cm >= zones[z].to_cm) ++z;
  return z;
}

colour::HairLab colour_at(const StrandChart& chart, double minute, double cm) {
  const ChartBand& band = chart.bands[zone_at(chart, cm)];
  const Bracket row = bracket(std::span(chart.distance_cm).subspan(band.first_row, band.rows), cm);
  const Bracket column = bracket(chart.minute, minute);
  const auto along = [&](std::size_t r) {
    const std::size_t first = chart.at(band.first_row + r, 0);
    return between(chart.lab[first + column.low], chart.lab[first + column.high], column.t);
  };
  return between(along(row.low), along(row.high), row.t);
}

}  // namespace hw::plan
