#include "chart_json.h"

#include <cmath>
#include <span>
#include <string>

#include "huewright/colour/screen.h"
#include "huewright/sheets/strand_chart_png.h"

namespace hw::server {
namespace {

std::string base64(std::string_view bytes) {
  constexpr std::string_view kLetters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  constexpr unsigned kSixBits = 63;
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    unsigned group = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      const auto byte = i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U;
      group = group << 8U | byte;
    }
    for (std::size_t k = 0; k < 4; ++k) {
      const bool filled = i + k <= bytes.size();
      text += filled ? kLetters[group >> (18 - 6 * k) & kSixBits] : '=';
    }
  }
  return text;
}

/// The points of a chart in one colour space, three bytes each.
std::string bytes_of(std::span<const colour::HairLab> labs, colour::ScreenSpace space,
                     bool lifted) {
  std::string bytes;
  bytes.reserve(labs.size() * 3);
  for (colour::HairLab lab : labs) {
    if (lifted && lab.l > 0) {  // as strong a colour for its lightness, as the picture for print
      const double l = sheets::lifted_shadow(lab.l);
      lab = {l, lab.a * l / lab.l, lab.b * l / lab.l};
    }
    for (const auto part : colour::eight_bit(colour::to_screen(lab, space))) {
      bytes += static_cast<char>(part);
    }
  }
  return bytes;
}

Json rounded(std::span<const double> values) {
  Json list = Json::array();
  for (const double value : values) list.push_back(two_decimals(value));
  return list;
}

Json lines_json(const std::vector<plan::LevelLine>& lines) {
  Json list = Json::array();
  for (const plan::LevelLine& line : lines) {
    Json one;
    one["level"] = line.level;
    one["points"] = Json::array();
    for (const plan::ChartPoint& point : line.points) {
      one["points"].push_back({two_decimals(point.minute), two_decimals(point.cm)});
    }
    one["label"] = {two_decimals(line.label.minute), two_decimals(line.label.cm)};
    list.push_back(one);
  }
  return list;
}

Json events_json(const plan::ChartCourse& course) {
  Json list = Json::array();
  for (const plan::ChartZone& zone : course.zones) {
    for (const plan::ChartEvent& event : zone.events) {
      if (event.stop_min < 0) continue;  // of an earlier visit
      Json one;
      one["zone"] = zone.name;
      one["from_cm"] = zone.from_cm;
      one["to_cm"] = zone.to_cm;
      one["step"] = event.step;
      one["on_min"] = event.on_min;
      one["from_min"] = event.from_min;
      one["stop_min"] = event.stop_min;
      one["hard_stop_min"] = event.hard_stop_min ? Json(*event.hard_stop_min) : Json();
      one["again_min"] = event.again_min;
      list.push_back(one);
    }
  }
  return list;
}

}  // namespace

double two_decimals(double value) {
  constexpr double kParts = 100;
  return std::round(value * kParts) / kParts;
}

Json chart_json(const plan::StrandChart& chart, bool lifted) {
  Json body;
  body["columns"] = chart.columns;
  body["rows"] = chart.rows;
  body["lifted"] = lifted;
  body["axis"] = Json::array();
  for (const plan::AxisKnot& knot : chart.axis) {
    body["axis"].push_back({{"minute", knot.minute}, {"across", knot.across}});
  }
  body["minute"] = rounded(chart.minute);
  body["cm"] = rounded(chart.distance_cm);
  body["bands"] = Json::array();
  for (std::size_t z = 0; z < chart.bands.size(); ++z) {
    body["bands"].push_back({{"zone", chart.course.zones[z].name},
                             {"first_row", chart.bands[z].first_row},
                             {"rows", chart.bands[z].rows}});
  }
  body["srgb"] = base64(bytes_of(chart.lab, colour::ScreenSpace::srgb, lifted));
  body["p3"] = base64(bytes_of(chart.lab, colour::ScreenSpace::display_p3, lifted));
  body["level"] = rounded(chart.level);
  body["lines"] = lines_json(chart.lines);
  body["steps"] = chart.course.steps;
  body["events"] = events_json(chart.course);
  body["checks_min"] = chart.course.check_min;
  body["end_min"] = chart.course.end_min;
  body["now_min"] = chart.course.now_min ? Json(*chart.course.now_min) : Json();
  body["phases"] = Json::array();
  for (const plan::ChartPhase& phase : chart.course.phases) {
    body["phases"].push_back({{"from_min", phase.from_min}, {"label", phase.label}});
  }
  return body;
}

}  // namespace hw::server
