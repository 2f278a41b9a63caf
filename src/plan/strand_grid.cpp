#include "strand_grid.h"

#include <algorithm>
#include <cmath>

#include "strand_play.h"

namespace hw::plan {
namespace {

constexpr double kSameWarmthC = 0.01;  // distances nearer in warmth than this are one member

/// Shares the rows out by length, each zone getting at least two.
std::vector<ChartBand> make_bands(const ChartCourse& course, std::size_t rows) {
  const double top = course.zones.front().from_cm;
  const double length = course.zones.back().to_cm - top;
  const std::size_t zones = course.zones.size();
  std::vector<ChartBand> bands;
  std::size_t used = 0;
  for (std::size_t z = 0; z < zones; ++z) {
    const double share = (course.zones[z].to_cm - top) / length;
    const auto wanted = static_cast<std::size_t>(std::lround(share * static_cast<double>(rows)));
    const std::size_t last = rows - 2 * (zones - 1 - z);  // leaves two for each zone to come
    const std::size_t end = z + 1 == zones ? rows : std::clamp(wanted, used + 2, last);
    bands.push_back({used, end - used});
    used = end;
  }
  return bands;
}

void find_lines(StrandChart& chart) {
  for (const ChartBand& band : chart.bands) {
    const auto rows = std::span(chart.distance_cm).subspan(band.first_row, band.rows);
    const auto field =
        std::span(chart.level).subspan(chart.at(band.first_row, 0), band.rows * chart.columns);
    const auto [low, high] = std::minmax_element(field.begin(), field.end());
    // Levels 1 and 10 are where the ladder is held, so no line stands there.
    constexpr int kHalvesFrom = 3;  // 1.5
    constexpr int kHalvesTo = 19;   // 9.5
    for (int halves = kHalvesFrom; halves <= kHalvesTo; ++halves) {
      const double at = halves / 2.0;
      if (at <= *low || at > *high) continue;
      for (LevelLine& line : level_lines(chart.minute, rows, field, at)) {
        chart.lines.push_back(std::move(line));
      }
    }
  }
}

}  // namespace

void lay_rows(StrandChart& chart, std::size_t rows) {
  chart.rows = rows;
  chart.bands = make_bands(chart.course, rows);
  for (std::size_t z = 0; z < chart.course.zones.size(); ++z) {
    const ChartZone& zone = chart.course.zones[z];
    const auto steps = static_cast<double>(chart.bands[z].rows - 1);
    for (std::size_t i = 0; i < chart.bands[z].rows; ++i) {
      const double down = static_cast<double>(i) / steps;
      chart.distance_cm.push_back(zone.from_cm + (zone.to_cm - zone.from_cm) * down);
    }
  }
}

ZoneMembers zone_members(const StrandChart& chart, std::size_t z) {
  const ChartZone& zone = chart.course.zones[z];
  const ChartBand& band = chart.bands[z];
  std::vector<double> warmths;
  ZoneMembers out;
  for (std::size_t i = 0; i < band.rows; ++i) {
    const double resting = chart.distance_cm[band.first_row + i] * zone.resting_factor;
    const double warmth =
        process::scalp_warmth_c(resting, chart.course.room_c, chart.course.skin_c);
    const double rounded = std::round(warmth / kSameWarmthC) * kSameWarmthC;
    if (warmths.empty() || warmths.back() != rounded) warmths.push_back(rounded);
    out.of_row.push_back(warmths.size() - 1);
  }
  out.members = copies_of(zone.member, warmths);
  return out;
}

void find_levels(StrandChart& chart, const hair::Ladder& ladder) {
  chart.level.resize(chart.lab.size());
  std::transform(chart.lab.begin(), chart.lab.end(), chart.level.begin(),
                 [&](const colour::HairLab& lab) { return ladder.level_of(lab.l); });
  find_lines(chart);
}

}  // namespace hw::plan
