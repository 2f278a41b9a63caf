#include "huewright/photo/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/hair/words.h"
#include "scene.h"

namespace hw::photo {
namespace {

using colour::operator*;

/// Hair and chart are not lit alike: 1 sd of ln of light between them where they lie side by side.
/// Guess, from the tilt of a strand of ten degrees or so.
constexpr double kPlaceSd = 0.04;

/// What a change of light does to a colour [Lab per ln of light]: Lab is a cube root of light.
Lab3 by_light(const colour::HairLab& lab) {
  return {(lab.l + 16) / 3, lab.a / 3, lab.b / 3};
}

/// What kUnseenShine does to a colour: white light added.
Lab3 by_shine(const colour::HairLab& lab) {
  const auto& white = colour::white_of<colour::D65, colour::Deg10>();
  auto xyz = colour::lab_to_xyz(lab);
  xyz.x += kUnseenShine * white.x;
  xyz.y += kUnseenShine * white.y;
  xyz.z += kUnseenShine * white.z;
  const colour::HairLab shining = colour::xyz_to_lab(xyz);
  return {shining.l - lab.l, shining.a - lab.a, shining.b - lab.b};
}

Result<void> check_strand(const std::vector<RawStation>& raw) {
  constexpr double kMuch = 0.4;  // of a station's pixels
  const auto many = static_cast<double>(raw.size()) * 0.3;
  const auto shining = std::ranges::count_if(raw, [](const auto& s) { return s.clipped > kMuch; });
  if (static_cast<double>(shining) > many) {
    return fail(ErrorCode::out_of_range, "the hair on the line is clipped: it shines too brightly",
                "line", "draw it beside the shine, or take the photo darker");
  }
  const auto black = std::ranges::count_if(raw, [](const auto& s) { return s.floored > kMuch; });
  if (static_cast<double>(black) > many) {
    return fail(ErrorCode::out_of_range, "the hair on the line is too dark in the photo to read",
                "line", "take it again in more light");
  }
  return {};
}

/// The length of the line on the sheet's plane [cm].
double length_on_plane(const Plane& plane, const Line& line) {
  constexpr int kSteps = 100;
  double sum = 0;
  PointMm last = plane.to_mm(line.at(0));
  for (int i = 1; i <= kSteps; ++i) {
    const PointMm here = plane.to_mm(line.at(i / static_cast<double>(kSteps)));
    sum += std::hypot(here.x - last.x, here.y - last.y);
    last = here;
  }
  return sum / 10;  // mm in a cm
}

/// Without a chart: words, from … to …, wide enough for any telephone in any light.
std::string words_alone(const Scene& scene, const ReadWish& wish) {
  // Levels that a photo without a chart may be off by. Guess: white balance, exposure and tones of
  // a telephone move the L* of hair by 15 and more.
  constexpr double kLevelsOff = 2.5;
  const Frame frame(scene.picture);
  std::vector<PointShare> points = wish.line;
  if (points.empty()) points = {{0.5, 0.35}, {0.5, 0.65}};
  const Line line(frame, points);
  const auto raw = look_along(frame, scene.profile, line, wish.width_share);
  if (!raw) return "Nothing can be said of the hair: " + raw.error().message + ".";
  Rgb mean{};
  for (const RawStation& station : *raw) {
    for (std::size_t c = 0; c < 3; ++c) {
      mean[c] += station.rgb[c] / static_cast<double>(raw->size());
    }
  }
  const auto xyz = scene.profile.to_xyz * colour::Vector3{mean[0], mean[1], mean[2]};
  const double level = hair::default_ladder().level_of(colour::lightness_of(xyz[1]));
  const std::string& from = hair::level_name(level - kLevelsOff);
  const std::string& to = hair::level_name(level + kLevelsOff);
  return fmt::format("Somewhere from {} to {}; the tone cannot be told.", from, to);
}

}  // namespace

std::vector<Lab3> plain(const std::vector<Station>& stations) {
  std::vector<Lab3> out;
  for (const Station& station : stations) {
    out.push_back({station.lab.l, station.lab.a, station.lab.b});
  }
  return out;
}

Result<StrandRead> read_strand(const Scene& scene, const CameraFit& fit, double factor,
                               const ReadWish& wish) {
  constexpr double kTooUnsure = 0.3;  // of ln of light; guess
  const Frame frame(scene.picture);
  const Line line(frame, wish.line);
  const auto raw = look_along(frame, scene.profile, line, wish.width_share);
  if (!raw) return tl::unexpected(raw.error());
  if (auto good = check_strand(*raw); !good) return tl::unexpected(good.error());
  const ChartView& chart = *scene.chart;
  StrandRead strand;
  for (const RawStation& station : *raw) {
    const double unsure = chart.light.sd_at(station.px);
    if (unsure > kTooUnsure) {
      return fail(ErrorCode::out_of_range, "the strand is too far from the chart to know its light",
                  "line", "hold the sheet beside the strand");
    }
    const double light = chart.light.at(station.px) / factor;
    Rgb rgb = station.rgb;
    for (double& channel : rgb) channel /= light;
    strand.stations.push_back({station.share, fit.lab(rgb)});
    strand.light_sd.push_back(std::hypot(unsure, kPlaceSd));
  }
  strand.length_cm = wish.length_cm;
  if (!strand.length_cm) {
    strand.length_cm = length_on_plane(chart.found.plane, line);
    strand.length_by_chart = true;
  }
  return strand;
}

ZoneRead read_zone(const StrandRead& strand, const CameraFit& fit, std::size_t from,
                   std::size_t to) {
  constexpr double kAlike = 4;  // neighbouring stations that count as one; guess
  const auto labs = plain(strand.stations);
  const auto count = static_cast<double>(to - from);
  Lab3 mean{};
  Lab3 square{};
  double unsure = 0;
  for (std::size_t i = from; i < to; ++i) {
    for (std::size_t c = 0; c < 3; ++c) {
      mean[c] += labs[i][c] / count;
      square[c] += labs[i][c] * labs[i][c] / count;
    }
    unsure += strand.light_sd[i] / count;
  }
  ZoneRead read;
  PhotoZone& zone = read.zone;
  const auto all = static_cast<double>(labs.size());
  zone.from_share = static_cast<double>(from) / all;
  zone.to_share = static_cast<double>(to) / all;
  if (strand.length_cm) {
    zone.from_cm = zone.from_share * *strand.length_cm;
    zone.to_cm = zone.to_share * *strand.length_cm;
  }
  zone.lab = {mean[0], mean[1], mean[2]};
  zone.words = hair::sentence(hair::describe(zone.lab));
  read.error.fit = fit.error_at(zone.lab);
  const Lab3 slope = by_light(zone.lab);
  read.error.shine = by_shine(zone.lab);
  zone.shine = read.error.shine;
  zone.covariance = read.error.fit;
  for (std::size_t c = 0; c < 3; ++c) {
    zone.spread[c] = std::sqrt(std::max(0.0, square[c] - mean[c] * mean[c]));
    read.error.own[c] = zone.spread[c] / std::sqrt(std::max(1.0, count / kAlike));
    read.error.light[c] = slope[c] * unsure;
    zone.covariance[4 * c] += read.error.own[c] * read.error.own[c];
  }
  for (std::size_t i = 0; i < 9; ++i) {
    zone.covariance[i] += read.error.light[i / 3] * read.error.light[i % 3] +
                          read.error.shine[i / 3] * read.error.shine[i % 3];
  }
  for (std::size_t c = 0; c < 3; ++c) {
    zone.shine[c] = std::abs(zone.shine[c]);
    zone.sd[c] = std::sqrt(zone.covariance[4 * c]);
  }
  return read;
}

Result<PhotoReading> read_photo(std::string_view bytes, const ReadWish& wish) {
  auto scene = open_scene(bytes, wish);
  if (!scene) return tl::unexpected(scene.error());
  PhotoReading reading;
  reading.file = (*scene)->facts;
  reading.cautions = cautions_of(**scene, wish);
  if (!(*scene)->chart) {
    reading.words = words_alone(**scene, wish);
    reading.cautions.emplace_back(
        "No sheet is in the photo, so no number is read from it: print the sheet and hold it "
        "beside "
        "the strand, in the same light.");
    return reading;
  }
  ChartView& chart = *(*scene)->chart;
  const auto fit = fit_scene(chart, (*scene)->profile);
  if (!fit) return tl::unexpected(fit.error());
  reading.chart = chart.facts;
  if (wish.line.empty()) return reading;
  const auto strand = read_strand(**scene, *fit, 1, wish);
  if (!strand) return tl::unexpected(strand.error());
  reading.stations = strand->stations;
  reading.length_cm = strand->length_cm;
  reading.length_by_chart = strand->length_by_chart;
  const auto cuts = stretches(plain(strand->stations));
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    const std::size_t end = i + 1 < cuts.size() ? cuts[i + 1] : strand->stations.size();
    reading.zones.push_back(read_zone(*strand, *fit, cuts[i], end).zone);
  }
  return reading;
}

}  // namespace hw::photo
