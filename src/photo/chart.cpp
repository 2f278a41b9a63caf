#include "chart.h"

#include <algorithm>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "photo_tables.h"

namespace hw::photo {
namespace {

using Edition = std::array<PatchColour, kPatches>;

Edition read_edition(const std::string& edition) {
  const auto table = parse_table(tables::chart, "photo/chart.csv");
  HW_CHECK(table.has_value() && table->rows() == kPatches);
  Edition patches;
  for (std::size_t i = 0; i < kPatches; ++i) {
    const auto number = [&](const std::string& column) {
      const auto value = table->number(i, column);
      HW_CHECK(value.has_value());
      return *value;
    };
    const auto part = [&](const std::string& letter) {
      return number(letter + "_average_d65") + number(letter + "_" + edition) -
             number(letter + "_average");
    };
    patches[i] = {*table->text(i, "name"), {part("l"), part("a"), part("b")}};
  }
  return patches;
}

constexpr std::uint8_t kTop = 252;   // stored numbers from here on are cut off, or nearly
constexpr std::uint8_t kBottom = 1;  // stored numbers to here may be anything below, too

}  // namespace

const std::array<PatchColour, kPatches>& chart_colours(ChartKind edition) {
  static const Edition before = read_edition("before");
  static const Edition after = read_edition("after");
  return edition == ChartKind::patches_before ? before : after;
}

Sample look_at(const Frame& frame, const Profile& profile, const Plane& plane, PointMm at,
               double half_mm) {
  constexpr std::size_t kSide = 32;  // points looked at along each side
  constexpr std::size_t kParts = 4;  // parts along each side, for unlikeness
  Sample sample{.at = at, .px = plane.to_pixels(at)};
  std::vector<const std::uint8_t*> seen;
  seen.reserve(kSide * kSide);
  std::array<double, kParts * kParts> parts{};
  std::array<double, kParts * kParts> counts{};
  for (std::size_t j = 0; j < kSide; ++j) {
    for (std::size_t i = 0; i < kSide; ++i) {
      const auto place = [&](std::size_t k) {
        return half_mm * ((2.0 * static_cast<double>(k) + 1) / kSide - 1);
      };
      const PointPx p = plane.to_pixels({at.x + place(i), at.y + place(j)});
      const std::uint8_t* pixel = frame.at_point(p.x, p.y);
      if (pixel == nullptr) continue;
      seen.push_back(pixel);
      const std::size_t part = j * kParts / kSide * kParts + i * kParts / kSide;
      parts[part] += profile.light[1][pixel[1]];
      counts[part] += 1;
    }
  }
  sample.pixels = seen.size();
  if (seen.size() < kSide * kSide / 2) return sample;
  const auto count = static_cast<double>(seen.size());
  for (const std::uint8_t* pixel : seen) {
    sample.clipped += std::max({pixel[0], pixel[1], pixel[2]}) >= kTop ? 1 / count : 0;
    sample.floored += std::min({pixel[0], pixel[1], pixel[2]}) <= kBottom ? 1 / count : 0;
  }
  std::ranges::sort(seen, {}, [](const std::uint8_t* p) { return p[0] + 2 * p[1] + p[2]; });
  const std::size_t tenth = seen.size() / 10;
  double square = 0;
  for (std::size_t i = tenth; i < seen.size() - tenth; ++i) {
    for (std::size_t c = 0; c < 3; ++c) sample.rgb[c] += profile.light[c][seen[i][c]];
    square += profile.light[1][seen[i][1]] * profile.light[1][seen[i][1]];
  }
  const auto kept = static_cast<double>(seen.size() - 2 * tenth);
  for (double& channel : sample.rgb) channel /= kept;
  const double mean = std::max(sample.rgb[1], 1e-6);
  sample.scatter = std::sqrt(std::max(0.0, square / kept - mean * mean)) / mean;
  double darkest = 1;
  double brightest = 0;
  for (std::size_t k = 0; k < parts.size(); ++k) {
    if (counts[k] == 0) continue;
    darkest = std::min(darkest, parts[k] / counts[k]);
    brightest = std::max(brightest, parts[k] / counts[k]);
  }
  constexpr double kVeil = 0.01;  // of the full scale: what noise does to black does not count
  sample.unlike = (brightest + kVeil) / (darkest + kVeil);
  return sample;
}

PointMm patch_middle(const ChartSheet& sheet, std::size_t patch, bool turned) {
  const std::size_t place = turned ? kPatches - 1 - patch : patch;
  const auto column = static_cast<double>(place % kColumns);
  const auto row = static_cast<double>(place / kColumns);
  return {sheet.width_mm * (column + 0.5) / kColumns, sheet.height_mm * (row + 0.5) / kRows};
}

}  // namespace hw::photo
