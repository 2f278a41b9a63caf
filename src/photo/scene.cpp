#include "scene.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/colour/difference.h"

namespace hw::photo {
namespace {

constexpr double kPatchShare = 0.22;     // half of what is looked at, of a patch's side
constexpr double kMostClipped = 0.02;    // share of a piece's pixels
constexpr double kMostFloored = 0.2;     // likewise
constexpr double kMostUnlike = 1.35;     // brightest over darkest part of a patch; guess
constexpr std::size_t kMostShining = 3;  // patches
constexpr double kLeastWhite = 0.12;     // linear, of the white patch; guess
constexpr double kLeastPixels = 6;       // across what is looked at of a patch
constexpr double kMostUneven = 2.5;      // brightest over darkest light over the sheet; guess
constexpr double kMostResidual = 0.08;   // what paper may differ by from a smooth light; guess

tl::unexpected<Error> no_chart(ErrorCode code, std::string what, std::string mend) {
  return fail(code, std::move(what), "chart", std::move(mend));
}

/// Reflectance of the patches against what is seen, turned or not: the sum of squares of ln.
double unlike(const std::vector<Sample>& seen, ChartKind kind, bool turned) {
  const auto& colours = chart_colours(kind);
  double sum = 0;
  double square = 0;
  for (std::size_t i = 0; i < kPatches; ++i) {
    const Sample& sample = seen[turned ? kPatches - 1 - i : i];
    const double light = std::max(1e-3, (sample.rgb[0] + 2 * sample.rgb[1] + sample.rgb[2]) / 4);
    const double wanted = colour::lab_to_xyz(colours[i].lab).y / 100;
    const double apart = std::log(light / wanted);
    sum += apart;
    square += apart * apart;
  }
  return square - sum * sum / kPatches;
}

Result<void> look_at_patches(const Scene& scene, const Frame& frame, ChartView& chart) {
  const ChartSheet& sheet = chart.found.sheet;
  const double cell = std::min(sheet.width_mm / static_cast<double>(kColumns),
                               sheet.height_mm / static_cast<double>(kRows));
  std::vector<Sample> seen;
  for (std::size_t i = 0; i < kPatches; ++i) {
    seen.push_back(look_at(frame, scene.profile, chart.found.plane, patch_middle(sheet, i, false),
                           cell * kPatchShare));
  }
  chart.facts.turned = unlike(seen, sheet.kind, true) < unlike(seen, sheet.kind, false);
  if (chart.facts.turned) std::ranges::reverse(seen);
  const auto& colours = chart_colours(sheet.kind);
  std::size_t shining = 0;
  std::string shines;
  for (std::size_t i = 0; i < kPatches; ++i) {
    const Sample& sample = seen[i];
    if (sample.clipped > kMostClipped) {
      if (i >= kWhitePatch) {
        return no_chart(
            ErrorCode::out_of_range,
            fmt::format("the patch \"{}\" is clipped: the photo is too bright", colours[i].name),
            "take it again a little darker, and keep lamps off the chart");
      }
      chart.facts.left_out.push_back(colours[i].name + ": brighter than the file can hold");
      continue;
    }
    if (sample.floored > kMostFloored) {
      chart.facts.left_out.push_back(colours[i].name + ": stronger than the file can hold");
      continue;
    }
    if (sample.unlike > kMostUnlike) {
      ++shining;
      shines += (shines.empty() ? "" : ", ") + colours[i].name;
      chart.facts.left_out.push_back(colours[i].name + ": shines, or lies half in shadow");
      continue;
    }
    FitPatch patch{i, sample.rgb, colours[i].lab};
    const double light = chart.light.at(sample.px);
    for (double& channel : patch.rgb) channel /= light;
    chart.patches.push_back(patch);
    if (i == kWhitePatch && patch.rgb[1] < kLeastWhite) {
      return no_chart(ErrorCode::out_of_range, "the photo is too dark: its white is dark grey",
                      "take it again in more light");
    }
  }
  if (shining > kMostShining) {
    return no_chart(ErrorCode::out_of_range, "a lamp shines on the chart: " + shines,
                    "tilt chart and strand together until nothing glares, and take it again");
  }
  return {};
}

Result<void> look_at_grey(const Scene& scene, const Frame& frame, ChartView& chart) {
  const ChartSheet& sheet = chart.found.sheet;
  const double half = 0.25 * std::min(sheet.width_mm, sheet.height_mm);
  const Sample sample = look_at(frame, scene.profile, chart.found.plane,
                                {sheet.width_mm / 2.0, sheet.height_mm / 2.0}, half);
  if (sample.clipped > kMostClipped) {
    return no_chart(ErrorCode::out_of_range, "the grey card is clipped: the photo is too bright",
                    "take it again a little darker, and keep lamps off the card");
  }
  if (sample.unlike > kMostUnlike) {
    return no_chart(ErrorCode::out_of_range,
                    "a lamp shines on the grey card, or a shadow lies on it",
                    "tilt it until nothing glares, and take it again");
  }
  constexpr double kLeastGrey = 0.02;  // linear; guess
  if (std::ranges::min(sample.rgb) < kLeastGrey) {
    return no_chart(ErrorCode::out_of_range, "the photo is too dark: the grey card is nearly black",
                    "take it again in more light");
  }
  chart.grey = sample.rgb;
  return {};
}

Result<void> look_at_light(const Scene& scene, const Frame& frame, ChartView& chart) {
  const ChartSheet& sheet = chart.found.sheet;
  std::vector<Sample> paper = look_at_paper(frame, scene.profile, chart.found);
  const std::size_t all = paper.size();
  std::erase_if(paper, [](const Sample& sample) { return sample.clipped > kMostClipped; });
  if (2 * paper.size() < all) {
    return no_chart(ErrorCode::out_of_range,
                    "the sheet's paper is clipped: the photo is too bright",
                    "take it again a little darker");
  }
  const PointPx middle = chart.found.plane.to_pixels({sheet.width_mm / 2.0, sheet.height_mm / 2.0});
  const auto light = fit_light(frame, paper, middle);
  if (!light || light->residual() > kMostResidual) {
    return no_chart(ErrorCode::out_of_range, "a shadow or a fold lies across the sheet",
                    "lay it flat in even light, and keep hands and heads out of the light");
  }
  double darkest = 1;
  double brightest = 1;
  for (std::size_t k = 0; k < 4; ++k) {
    const PointMm corner = tag_corner(sheet, k);
    const double here =
        light->at(chart.found.plane.to_pixels({corner.x + kTagMm / 2, corner.y + kTagMm / 2}));
    darkest = std::min(darkest, here);
    brightest = std::max(brightest, here);
  }
  chart.facts.uneven = brightest / darkest;
  if (chart.facts.uneven > kMostUneven) {
    return no_chart(
        ErrorCode::out_of_range,
        fmt::format("the light is {:.1f} times as strong on one side of the sheet as on "
                    "the other",
                    chart.facts.uneven),
        "turn towards the light, or away from the lamp");
  }
  chart.light = *light;
  return {};
}

Result<void> look_at_chart(const Scene& scene, const Frame& frame, ChartView& chart) {
  const ChartSheet& sheet = chart.found.sheet;
  const PointMm middle{sheet.width_mm / 2.0, sheet.height_mm / 2.0};
  const PointPx one = chart.found.plane.to_pixels(middle);
  const PointPx two = chart.found.plane.to_pixels({middle.x + 1, middle.y});
  const double scale = std::hypot(one.x - two.x, one.y - two.y);  // pixels per mm
  const double across = 2 * kPatchShare * scale * sheet.width_mm / kColumns;
  if (!(across >= kLeastPixels)) {
    return no_chart(ErrorCode::out_of_range, "the chart is too small in the picture",
                    "come nearer: chart and strand together should fill it");
  }
  if (auto lit = look_at_light(scene, frame, chart); !lit) return lit;
  return sheet.kind == ChartKind::grey_card ? look_at_grey(scene, frame, chart)
                                            : look_at_patches(scene, frame, chart);
}

}  // namespace

Result<void> check_wish(const ReadWish& wish) {
  constexpr double kMostCm = 200;
  constexpr double kLeastWidth = 0.002;
  constexpr double kMostWidth = 0.2;
  constexpr std::size_t kMostPoints = 100;
  if (wish.line.size() == 1 || wish.line.size() > kMostPoints) {
    return fail(ErrorCode::out_of_range, fmt::format("{} points make no line", wish.line.size()),
                "line", fmt::format("give 2 to {}, from scalp to tip", kMostPoints));
  }
  for (const PointShare& point : wish.line) {
    if (!(point.x >= 0 && point.x <= 1 && point.y >= 0 && point.y <= 1)) {
      return fail(ErrorCode::out_of_range,
                  fmt::format("{}, {} lies outside the picture", point.x, point.y), "line",
                  "give shares of its width and height, 0 to 1");
    }
  }
  if (wish.length_cm && !(*wish.length_cm >= 1 && *wish.length_cm <= kMostCm)) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{} cm is no strand's length", *wish.length_cm), "length",
                "give 1 to 200 cm, stretched");
  }
  if (!(wish.width_share >= kLeastWidth && wish.width_share <= kMostWidth)) {
    return fail(ErrorCode::out_of_range, fmt::format("{} is no width of a strip", wish.width_share),
                "width", "give 0.002 to 0.2 of the picture's long side");
  }
  return {};
}

Result<std::unique_ptr<Scene>> open_scene(std::string_view bytes, const ReadWish& wish) {
  if (auto good = check_wish(wish); !good) return tl::unexpected(good.error());
  auto picture = decode_jpeg(bytes, {}, Chroma::nearest);
  if (!picture) return tl::unexpected(picture.error());
  if (picture->grey) {
    return fail(ErrorCode::malformed, "the photo is black and white", "photo",
                "send it in colour, as the camera wrote it");
  }
  auto profile = profile_of(*picture);
  if (!profile) return tl::unexpected(profile.error());
  auto scene = std::make_unique<Scene>();
  scene->picture = *std::move(picture);
  scene->profile = *std::move(profile);
  const Frame frame(scene->picture);
  const Exif& exif = scene->picture.exif;
  scene->facts = {frame.width(),          frame.height(),  exif.orientation, scene->profile.name,
                  scene->profile.assumed, exif.exposure_s, exif.iso,         exif.flash};
  const auto found = find_sheet(frame);
  if (!found) return tl::unexpected(found.error());
  if (!*found) return scene;
  ChartView chart;
  chart.found = **found;
  if (wish.chart) {
    if ((*wish.chart == ChartKind::grey_card) != (chart.found.sheet.kind == ChartKind::grey_card)) {
      return fail(ErrorCode::conflict, "the sheet in the photo is made for another kind of chart",
                  "chart", "name no chart, or print a sheet for the chart you have");
    }
    chart.found.sheet.kind = *wish.chart;
  }
  chart.facts.sheet = chart.found.sheet;
  if (auto seen = look_at_chart(*scene, frame, chart); !seen) return tl::unexpected(seen.error());
  scene->chart = std::move(chart);
  return scene;
}

void describe_fit(const CameraFit& fit, ChartFacts& facts) {
  facts.patches.clear();
  const auto& colours = chart_colours(facts.sheet.kind);
  std::vector<double> errors;
  for (const LeftOut& one : fit.left_out()) {
    facts.patches.push_back({colours[one.patch].name, one.de00});
    errors.push_back(one.de00);
  }
  if (errors.empty()) {
    facts.model = "white balance and exposure";
    return;
  }
  std::ranges::sort(errors);
  facts.median_de00 = errors[errors.size() / 2];
  facts.most_de00 = errors.back();
  facts.model = fit.has_roots() ? "matrix with roots" : "matrix";
  if (fit.has_constant()) facts.model += ", stray light";
  if (fit.gamma() != 1) facts.model += fmt::format(", tones bent by {:.2f}", fit.gamma());
}

Result<CameraFit> fit_scene(ChartView& chart, const Profile& profile) {
  if (chart.found.sheet.kind == ChartKind::grey_card) {
    const CameraFit fit = fit_grey(chart.grey, profile);
    describe_fit(fit, chart.facts);
    return fit;
  }
  auto fit = fit_camera(chart.patches);
  if (!fit) return fit;
  const auto& colours = chart_colours(chart.found.sheet.kind);
  for (const FitPatch& patch : chart.patches) {
    if (patch.used) continue;
    chart.facts.left_out.push_back(colours[patch.patch].name +
                                   ": not its colour; covered, shining, or another chart");
  }
  describe_fit(*fit, chart.facts);
  return fit;
}

std::vector<std::string> cautions_of(const Scene& scene, const ReadWish& wish) {
  std::vector<std::string> list;
  if (scene.facts.colour_space_assumed) {
    list.emplace_back("The file names no colour space; it is taken as sRGB.");
  }
  if (scene.facts.flash == true) {
    list.emplace_back("The flash fired: hair shines where it looks back at it. Better without.");
  }
  if (scene.chart && wish.line.empty()) {
    list.emplace_back("No line is drawn: one from scalp to tip gives colour along it.");
  }
  return list;
}

}  // namespace hw::photo
