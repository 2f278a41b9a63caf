#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/hair/words.h"
#include "huewright/plan/strand_chart.h"
#include "text_columns.h"

namespace hw::plan {
namespace {

/// Minutes of the table: what somebody at the chair would ask about.
std::vector<double> table_minutes(const StrandChart& chart) {
  constexpr double kEveryMin = 10;
  const ChartCourse& course = chart.course;
  std::vector<double> minutes{0, course.end_min};
  minutes.insert(minutes.end(), course.check_min.begin(), course.check_min.end());
  for (const ChartZone& zone : course.zones) {
    for (const ChartEvent& event : zone.events) {
      if (std::holds_alternative<ChartWashes>(event.what)) continue;
      minutes.insert(minutes.end(), {event.on_min, event.stop_min});
      if (event.hard_stop_min) minutes.push_back(*event.hard_stop_min);
      if (!course.check_min.empty() && !event.colours()) continue;
      for (double at = event.on_min + kEveryMin; at < event.stop_min; at += kEveryMin) {
        minutes.push_back(at);
      }
    }
  }
  std::erase_if(minutes, [&](double m) { return m < 0 || m > course.end_min; });
  std::sort(minutes.begin(), minutes.end());
  minutes.erase(std::unique(minutes.begin(), minutes.end()), minutes.end());
  return minutes;
}

/// Lowest and highest level of a zone at one minute.
std::pair<double, double> level_range(const StrandChart& chart, std::size_t z, double minute,
                                      const hair::Ladder& ladder) {
  const ChartBand& band = chart.bands[z];
  const ChartZone& zone = chart.course.zones[z];
  double low = 10;
  double high = 1;
  for (std::size_t i = 0; i < band.rows; ++i) {
    // The last row of a zone lies on the next one's border, so it is read from just inside.
    const double inside = zone.to_cm - (zone.to_cm - zone.from_cm) / 1e6;
    const double cm = std::min(chart.distance_cm[band.first_row + i], inside);
    const double level = ladder.level_of(colour_at(chart, minute, cm).l);
    low = std::min(low, level);
    high = std::max(high, level);
  }
  return {low, high};
}

/// "left alone", "waits", "lift works", "rinsed", …
std::string standing_of(const ChartCourse& course, const ChartZone& zone, double minute) {
  std::string standing = "left alone";
  for (const ChartEvent& event : zone.events) {
    if (std::holds_alternative<ChartWashes>(event.what) || event.stop_min < 0) continue;
    if (minute < event.on_min) return standing == "rinsed" ? standing : "waits";
    if (minute < event.stop_min) {
      return (event.step < course.steps.size() ? course.steps[event.step] + " " : "") + "works";
    }
    standing = "rinsed";
  }
  return standing;
}

std::string cell(const StrandChart& chart, std::size_t z, double minute,
                 const hair::Ladder& ladder) {
  constexpr double kOneWord = 0.5;  // levels that a zone may span and still be one number
  const ChartZone& zone = chart.course.zones[z];
  const auto words =
      hair::describe(colour_at(chart, minute, (zone.from_cm + zone.to_cm) / 2), ladder);
  const auto [low, high] = level_range(chart, z, minute, ladder);
  std::string text = high - low < kOneWord ? fmt::format("{:.1f}", words.level)
                                           : fmt::format("{:.1f} to {:.1f}", low, high);
  text += " " + words.level_name;
  if (!words.warmth.empty()) {
    text += ", " + words.warmth;
  } else if (words.tone != "neutral") {
    text += ", " + words.tone;
  }
  return fmt::format("{} ({})", text, standing_of(chart.course, zone, minute));
}

/// The hard stops of that minute: which zones they are for.
std::string hard_stops(const ChartCourse& course, double minute) {
  std::string names;
  for (const ChartZone& zone : course.zones) {
    for (const ChartEvent& event : zone.events) {
      if (event.hard_stop_min != minute) continue;
      names += (names.empty() ? " hard stop " : ", ") + zone.name;
    }
  }
  return names;
}

}  // namespace

std::string clock_text(double minute) {
  const long whole = std::lround(minute);
  constexpr long kMinutesPerHour = 60;
  return fmt::format("{}:{:02}", whole / kMinutesPerHour, whole % kMinutesPerHour);
}

std::string text_table(const StrandChart& chart, const hair::Ladder& ladder) {
  std::vector<std::vector<std::string>> table(1, {"time"});
  for (const ChartZone& zone : chart.course.zones) {
    table[0].push_back(fmt::format("{} ({:g} to {:g} cm)", zone.name, zone.from_cm, zone.to_cm));
  }
  for (const double minute : table_minutes(chart)) {
    auto& line = table.emplace_back(1, clock_text(minute));
    for (std::size_t z = 0; z < chart.bands.size(); ++z) {
      line.push_back(cell(chart, z, minute, ladder));
    }
    line[0] += hard_stops(chart.course, minute);
  }
  return in_columns(table);
}

std::string in_columns(const std::vector<std::vector<std::string>>& table) {
  std::vector<std::size_t> width(table[0].size(), 0);
  for (const auto& line : table) {
    for (std::size_t i = 0; i < line.size(); ++i) width[i] = std::max(width[i], line[i].size());
  }
  std::string text;
  for (const auto& line : table) {
    std::string row;
    for (std::size_t i = 0; i < line.size(); ++i) row += fmt::format("{:<{}}  ", line[i], width[i]);
    row.erase(row.find_last_not_of(' ') + 1);
    text += row + "\n";
  }
  return text;
}

}  // namespace hw::plan
