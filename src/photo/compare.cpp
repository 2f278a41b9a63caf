#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "huewright/colour/difference.h"
#include "scene.h"

namespace hw::photo {
namespace {

/// One light and camera: patches of the two photos differ by less than this, CIEDE2000, median.
constexpr double kOneLight = 1;  // guess: two frames of one scene, with noise, differ by 0.3

tl::unexpected<Error> of(std::string_view which, Error error) {
  error.where = std::string(which) + (error.where.empty() ? "" : " " + error.where);
  return tl::unexpected(std::move(error));
}

const FitPatch* patch_of(const std::vector<FitPatch>& patches, std::size_t number) {
  const auto found = std::ranges::find(patches, number, &FitPatch::patch);
  return found == patches.end() || !found->used ? nullptr : &*found;
}

/// What all numbers of the second are to be multiplied by to be as bright as the first.
double exposure_between(const ChartView& one, const ChartView& two) {
  std::vector<double> ratios;
  for (const FitPatch& patch : one.patches) {
    const FitPatch* other = patch_of(two.patches, patch.patch);
    if (patch.used && other != nullptr) ratios.push_back(patch.rgb[1] / other->rgb[1]);
  }
  if (one.patches.empty()) return one.grey[1] / two.grey[1];
  if (ratios.empty()) return 1;
  std::ranges::sort(ratios);
  return ratios[ratios.size() / 2];
}

double apart(const ChartView& one, const ChartView& two, const CameraFit& fit, double factor) {
  const auto times = [&](Rgb rgb) {
    for (double& channel : rgb) channel *= factor;
    return rgb;
  };
  if (one.patches.empty()) {
    return colour::delta_e_2000(fit.lab(one.grey), fit.lab(times(two.grey)));
  }
  std::vector<double> differences;
  for (const FitPatch& patch : one.patches) {
    const FitPatch* other = patch_of(two.patches, patch.patch);
    if (!patch.used || other == nullptr) continue;
    differences.push_back(colour::delta_e_2000(fit.lab(patch.rgb), fit.lab(times(other->rgb))));
  }
  if (differences.empty()) return 2 * kOneLight;
  std::ranges::sort(differences);
  return differences[differences.size() / 2];
}

/// Both charts as one: means of the patches that both show.
std::vector<FitPatch> together(const ChartView& one, const ChartView& two, double factor) {
  std::vector<FitPatch> patches;
  for (const FitPatch& patch : one.patches) {
    const FitPatch* other = patch_of(two.patches, patch.patch);
    if (!patch.used || other == nullptr) continue;
    FitPatch both = patch;
    for (std::size_t c = 0; c < 3; ++c) both.rgb[c] = (patch.rgb[c] + factor * other->rgb[c]) / 2;
    patches.push_back(both);
  }
  return patches;
}

ZoneChange change_of(const ZoneRead& before, const ZoneRead& after, bool one_light) {
  constexpr double kTogether = 30;  // Lab: errors of a fit at colours nearer than this go together
  constexpr double kSamePlace = 0.8;  // correlation of how the two strands are lit and shine; guess
  ZoneChange change;
  change.from_share = before.zone.from_share;
  change.to_share = before.zone.to_share;
  change.from_cm = before.zone.from_cm;
  change.to_cm = before.zone.to_cm;
  change.before = before.zone.lab;
  change.after = after.zone.lab;
  const auto& one = before.zone.lab;
  const auto& two = after.zone.lab;
  change.change = {two.l - one.l, two.a - one.a, two.b - one.b};
  change.de00 = colour::delta_e_2000(one, two);
  const double far = std::hypot(change.change[0], change.change[1], change.change[2]);
  const double shared = one_light ? std::exp(-far / kTogether) : 0;
  const double place = one_light ? kSamePlace : 0;
  for (std::size_t c = 0; c < 3; ++c) {
    const double fit = before.error.fit[4 * c] + after.error.fit[4 * c] -
                       2 * shared * std::sqrt(before.error.fit[4 * c] * after.error.fit[4 * c]);
    const double a = before.error.light[c];
    const double b = after.error.light[c];
    const double light = a * a + b * b - 2 * place * a * b;
    const double c1 = before.error.shine[c];
    const double c2 = after.error.shine[c];
    const double shine = c1 * c1 + c2 * c2 - 2 * place * c1 * c2;
    const double own =
        before.error.own[c] * before.error.own[c] + after.error.own[c] * after.error.own[c];
    change.sd[c] = std::sqrt(std::max(0.0, fit + light + shine + own));
    change.shine[c] = std::sqrt(shine);
    change.apart_sd[c] = std::sqrt(before.zone.covariance[4 * c] + after.zone.covariance[4 * c]);
  }
  return change;
}

/// The borders of both strands, as shares of the line.
std::set<double> borders_of(const StrandRead& strand) {
  std::set<double> borders;
  for (const std::size_t cut : stretches(plain(strand.stations))) {
    borders.insert(static_cast<double>(cut) / static_cast<double>(strand.stations.size()));
  }
  return borders;
}

std::size_t station_at(const StrandRead& strand, double share) {
  return static_cast<std::size_t>(std::lround(share * static_cast<double>(strand.stations.size())));
}

void fill(const StrandRead& strand, const CameraFit& fit, PhotoReading& reading) {
  reading.stations = strand.stations;
  reading.length_cm = strand.length_cm;
  reading.length_by_chart = strand.length_by_chart;
  const auto cuts = stretches(plain(strand.stations));
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    const std::size_t end = i + 1 < cuts.size() ? cuts[i + 1] : strand.stations.size();
    reading.zones.push_back(read_zone(strand, fit, cuts[i], end).zone);
  }
}

}  // namespace

Result<PhotoChange> compare_photos(std::string_view before, std::string_view after,
                                   const ReadWish& wish_before, const ReadWish& wish_after) {
  const auto one = open_scene(before, wish_before);
  if (!one) return of("before", one.error());
  const auto two = open_scene(after, wish_after);
  if (!two) return of("after", two.error());
  PhotoChange result;
  for (const auto& [scene, name, wish] :
       {std::tuple{&*one, "before", &wish_before}, std::tuple{&*two, "after", &wish_after}}) {
    if (!(*scene)->chart) {
      return fail(ErrorCode::missing, "no sheet is in the photo, so no difference can be read",
                  name, "print the sheet and hold it beside the strand in both photos");
    }
    if (wish->line.empty()) {
      return fail(ErrorCode::missing, "no line is drawn on the strand", name,
                  "draw one from scalp to tip");
    }
  }
  ChartView& chart_one = *(*one)->chart;
  ChartView& chart_two = *(*two)->chart;
  auto fit_one = fit_scene(chart_one, (*one)->profile);
  if (!fit_one) return of("before", fit_one.error());
  auto fit_two = fit_scene(chart_two, (*two)->profile);
  if (!fit_two) return of("after", fit_two.error());
  double factor = 1;
  const bool one_kind = chart_one.found.sheet.kind == chart_two.found.sheet.kind;
  if (one_kind) {
    factor = exposure_between(chart_one, chart_two);
    result.light_apart = apart(chart_one, chart_two, *fit_one, factor);
    result.one_light = result.light_apart < kOneLight;
  }
  if (result.one_light && !chart_one.patches.empty()) {
    auto patches = together(chart_one, chart_two, factor);
    if (auto joint = fit_camera(patches)) {
      fit_one = *joint;
      fit_two = *std::move(joint);
      describe_fit(*fit_one, chart_one.facts);
      describe_fit(*fit_two, chart_two.facts);
    } else {
      result.one_light = false;
    }
  }
  if (chart_one.patches.empty() && result.one_light) fit_two = *fit_one;
  if (!result.one_light) {
    factor = 1;
    result.cautions.emplace_back(
        "The two photos are not of one light and camera, so their errors add up. Take both in one "
        "place with one telephone.");
  }
  const auto strand_one = read_strand(**one, *fit_one, 1, wish_before);
  if (!strand_one) return of("before", strand_one.error());
  const auto strand_two = read_strand(**two, *fit_two, factor, wish_after);
  if (!strand_two) return of("after", strand_two.error());
  result.before.file = (*one)->facts;
  result.before.chart = chart_one.facts;
  result.before.cautions = cautions_of(**one, wish_before);
  fill(*strand_one, *fit_one, result.before);
  result.after.file = (*two)->facts;
  result.after.chart = chart_two.facts;
  result.after.cautions = cautions_of(**two, wish_after);
  fill(*strand_two, *fit_two, result.after);
  std::set<double> borders = borders_of(*strand_one);
  borders.merge(borders_of(*strand_two));
  borders.insert(1);
  constexpr double kNear = 0.04;  // share of the line: two borders this near are one
  double start = 0;
  for (const double border : borders) {
    if (border - start < kNear && border < 1) continue;
    const double end = 1 - border < kNear ? 1 : border;
    const auto a = read_zone(*strand_one, *fit_one, station_at(*strand_one, start),
                             station_at(*strand_one, end));
    const auto b = read_zone(*strand_two, *fit_two, station_at(*strand_two, start),
                             station_at(*strand_two, end));
    result.zones.push_back(change_of(a, b, result.one_light));
    start = end;
    if (end == 1) break;
  }
  return result;
}

}  // namespace hw::photo
