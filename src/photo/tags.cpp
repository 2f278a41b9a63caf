#include "tags.h"

#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "solve.h"

namespace hw::photo {
namespace {

constexpr double kMmScale = 100;   // keeps the equations of a plane near 1
constexpr double kPxScale = 1000;  // likewise

struct DestroyFamily {
  void operator()(apriltag_family_t* family) const { tag36h11_destroy(family); }
};
struct DestroyDetector {
  void operator()(apriltag_detector_t* detector) const { apriltag_detector_destroy(detector); }
};
struct DestroyFound {
  void operator()(zarray_t* found) const { apriltag_detections_destroy(found); }
};

struct SeenTag {
  int id = 0;
  std::array<PointPx, 4> corners{};  ///< lower left, lower right, upper right, upper left
};

/// Green, which is nearest to light, as means of blocks; in the order in which the file stores
/// them.
std::vector<std::uint8_t> grey_of(const Frame& frame, std::size_t factor, std::size_t width,
                                  std::size_t height) {
  std::vector<std::uint8_t> grey(width * height);
  const std::size_t area = factor * factor;
  const auto fill = [&](std::size_t x, std::size_t y) {
    std::size_t sum = area / 2;
    for (std::size_t j = 0; j < factor; ++j) {
      for (std::size_t i = 0; i < factor; ++i) sum += frame.at(factor * x + i, factor * y + j)[1];
    }
    grey[y * width + x] = static_cast<std::uint8_t>(sum / area);
  };
  if (frame.is_sideways()) {
    for (std::size_t x = 0; x < width; ++x) {
      for (std::size_t y = 0; y < height; ++y) fill(x, y);
    }
  } else {
    for (std::size_t y = 0; y < height; ++y) {
      for (std::size_t x = 0; x < width; ++x) fill(x, y);
    }
  }
  return grey;
}

std::vector<SeenTag> see_tags(const Frame& frame, std::size_t factor) {
  constexpr double kSurest = 30;  // decision margin of a tag that is really there; guess
  const std::size_t width = frame.width() / factor;
  const std::size_t height = frame.height() / factor;
  constexpr std::size_t kLeastSide = 64;
  if (width < kLeastSide || height < kLeastSide) return {};
  std::vector<std::uint8_t> grey = grey_of(frame, factor, width, height);
  const std::unique_ptr<apriltag_family_t, DestroyFamily> family(tag36h11_create());
  const std::unique_ptr<apriltag_detector_t, DestroyDetector> detector(apriltag_detector_create());
  if (!family || !detector) return {};
  apriltag_detector_add_family_bits(detector.get(), family.get(), 1);
  detector->quad_decimate = 1;
  detector->nthreads = 1;
  image_u8_t image{static_cast<std::int32_t>(width), static_cast<std::int32_t>(height),
                   static_cast<std::int32_t>(width), grey.data()};
  const std::unique_ptr<zarray_t, DestroyFound> found(
      apriltag_detector_detect(detector.get(), &image));
  std::vector<SeenTag> tags;
  for (int i = 0; found && i < zarray_size(found.get()); ++i) {
    apriltag_detection_t* one = nullptr;
    zarray_get(found.get(), i, static_cast<void*>(&one));
    if (one->decision_margin < kSurest) continue;
    SeenTag tag{one->id, {}};
    for (std::size_t k = 0; k < 4; ++k) {
      // The library, too, puts the centre of the first pixel at one half.
      tag.corners[k] = {one->p[k][0] * static_cast<double>(factor),
                        one->p[k][1] * static_cast<double>(factor)};
    }
    tags.push_back(tag);
  }
  return tags;
}

/// Four tags, one of each corner; -1 where it is not seen, -2 where two are.
std::array<int, 4> ids_of(const std::vector<SeenTag>& tags) {
  std::array<int, 4> ids{-1, -1, -1, -1};
  for (const SeenTag& tag : tags) {
    int& id = ids[static_cast<std::size_t>(tag.id % 4)];
    id = id == -1 ? tag.id : -2;
  }
  return ids;
}

std::optional<FoundSheet> located(const std::vector<SeenTag>& tags, const ChartSheet& sheet) {
  std::vector<std::pair<PointMm, PointPx>> pairs;
  for (const SeenTag& tag : tags) {
    const PointMm corner = tag_corner(sheet, static_cast<std::size_t>(tag.id % 4));
    const std::array<PointMm, 4> at{PointMm{corner.x, corner.y + kTagMm},
                                    PointMm{corner.x + kTagMm, corner.y + kTagMm},
                                    PointMm{corner.x + kTagMm, corner.y}, corner};
    for (std::size_t k = 0; k < 4; ++k) pairs.emplace_back(at[k], tag.corners[k]);
  }
  const auto plane = fit_plane(pairs);
  if (!plane) return std::nullopt;
  return FoundSheet{sheet, *plane};
}

std::string missing_corners(const std::array<int, 4>& ids) {
  constexpr std::array<std::string_view, 4> kCorners{"upper left", "upper right", "lower right",
                                                     "lower left"};
  std::string list;
  for (std::size_t k = 0; k < 4; ++k) {
    if (ids[k] != -1) continue;
    if (!list.empty()) list += ", ";
    list += kCorners[k];
  }
  return list;
}

PointPx project(const std::array<double, 9>& h, double x, double y) {
  const double w = h[6] * x + h[7] * y + h[8];
  return {(h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w};
}

}  // namespace

PointPx Plane::to_pixels(PointMm at) const {
  const PointPx p = project(there_, at.x / kMmScale, at.y / kMmScale);
  return {p.x * kPxScale, p.y * kPxScale};
}

PointMm Plane::to_mm(PointPx at) const {
  const PointPx p = project(back_, at.x / kPxScale, at.y / kPxScale);
  return {p.x * kMmScale, p.y * kMmScale};
}

std::optional<Plane> fit_plane(const std::vector<std::pair<PointMm, PointPx>>& pairs) {
  constexpr std::size_t kUnknown = 8;
  std::vector<double> a(kUnknown * kUnknown, 0.0);
  std::vector<double> b(kUnknown, 0.0);
  const auto add = [&](const std::array<double, kUnknown>& row, double value) {
    for (std::size_t i = 0; i < kUnknown; ++i) {
      for (std::size_t j = 0; j < kUnknown; ++j) a[i * kUnknown + j] += row[i] * row[j];
      b[i] += row[i] * value;
    }
  };
  for (const auto& [mm, px] : pairs) {
    const double x = mm.x / kMmScale;
    const double y = mm.y / kMmScale;
    const double u = px.x / kPxScale;
    const double v = px.y / kPxScale;
    add({x, y, 1, 0, 0, 0, -u * x, -u * y}, u);
    add({0, 0, 0, x, y, 1, -v * x, -v * y}, v);
  }
  const auto solved = solve_positive(a, b);
  if (!solved) return std::nullopt;
  Plane plane;
  std::copy(solved->begin(), solved->end(), plane.there_.begin());
  plane.there_[8] = 1;
  const auto& h = plane.there_;
  const auto back = colour::inverse({{{h[0], h[1], h[2]}, {h[3], h[4], h[5]}, {h[6], h[7], h[8]}}});
  if (!back) return std::nullopt;
  for (std::size_t i = 0; i < 9; ++i) plane.back_[i] = (*back)[i / 3][i % 3];
  return plane;
}

Result<std::optional<FoundSheet>> find_sheet(const Frame& frame) {
  // Coarse first: a sheet held for the purpose is large in the picture.
  constexpr double kCoarse = 1000;  // pixels of the long side; a tag needs about 25 of them
  const auto coarse =
      static_cast<std::size_t>(std::max(1.0, std::round(frame.long_side() / kCoarse)));
  std::array<int, 4> ids{-1, -1, -1, -1};
  std::vector<SeenTag> tags;
  for (std::size_t factor = coarse;; factor = (factor + 1) / 2) {
    const std::vector<SeenTag> seen = see_tags(frame, factor);
    if (seen.size() >= tags.size()) tags = seen;
    ids = ids_of(tags);
    if (const auto sheet = sheet_of_ids(ids)) {
      if (const auto found = located(tags, *sheet)) return std::optional(*found);
    }
    // Full size costs too much; half of it is looked at once more where tags are small.
    if (factor <= 2) break;
  }
  if (tags.empty()) return std::optional<FoundSheet>();
  if (std::ranges::find(ids, -2) != ids.end()) {
    return fail(ErrorCode::conflict, "tags of more than one chart sheet are in the picture",
                "chart", "leave one sheet in the picture");
  }
  const std::string list = missing_corners(ids);
  if (list.empty()) {
    return fail(ErrorCode::conflict, "the four tags are not of one chart sheet", "chart",
                "use a sheet as `huewright sheet chart` prints it");
  }
  return fail(ErrorCode::missing, fmt::format("of the sheet's four tags not seen: {}", list),
              "chart", "show the whole sheet, flat, sharp and without shadow on a tag");
}

}  // namespace hw::photo
