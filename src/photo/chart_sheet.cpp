#include "huewright/photo/chart_sheet.h"

#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
#include <fmt/format.h>

#include <charconv>
#include <memory>

#include "huewright/base/check.h"

namespace hw::photo {
namespace {

constexpr int kCodes = 146;  // ids of the family, 587, over four tags
constexpr std::array<std::string_view, 3> kWords{"before-2014", "after-2014", "grey"};

int guard_code(int width, int height, int kind) {
  return (width + 3 * height + 7 * kind + 11) % kCodes;
}

struct DestroyFamily {
  void operator()(apriltag_family_t* family) const { tag36h11_destroy(family); }
};
struct DestroyImage {
  void operator()(image_u8_t* image) const { image_u8_destroy(image); }
};

}  // namespace

Result<ChartKind> chart_kind_named(std::string_view word) {
  for (std::size_t i = 0; i < kWords.size(); ++i) {
    if (word == kWords[i]) return static_cast<ChartKind>(i);
  }
  return fail(ErrorCode::unknown_name, fmt::format("\"{}\" is no kind of chart", word), "chart",
              "give before-2014, after-2014 (24 patches, by when the chart was made) or grey");
}

Result<void> read_window(std::string_view text, ChartSheet& sheet) {
  const auto whole = [](std::string_view part, int& into) {
    const auto [stop, problem] = std::from_chars(part.data(), part.data() + part.size(), into);
    return problem == std::errc() && stop == part.data() + part.size();
  };
  const std::size_t cross = text.find('x');
  if (cross == std::string_view::npos || !whole(text.substr(0, cross), sheet.width_mm) ||
      !whole(text.substr(cross + 1), sheet.height_mm)) {
    return fail(ErrorCode::malformed, fmt::format("\"{}\" is no window", text), {},
                "give whole millimetres, such as 90x60");
  }
  return {};
}

std::string_view name_of(ChartKind kind) {
  return kWords[static_cast<std::size_t>(kind)];
}

Result<void> check_sheet(const ChartSheet& sheet) {
  const auto bad = [&](std::string message, std::string hint) {
    return fail(ErrorCode::out_of_range, std::move(message), "window", std::move(hint));
  };
  if (sheet.width_mm < kLeastWidthMm || sheet.width_mm > kMostWidthMm ||
      sheet.height_mm < kLeastHeightMm || sheet.height_mm > kMostHeightMm) {
    return bad(
        fmt::format("{} × {} mm is no window that can be made", sheet.width_mm, sheet.height_mm),
        fmt::format("give {} to {} mm by {} to {} mm", kLeastWidthMm, kMostWidthMm, kLeastHeightMm,
                    kMostHeightMm));
  }
  // Six patches by four: width over height is 1.5 where they are square.
  const double shape = sheet.width_mm / 1.5 / sheet.height_mm;
  if (sheet.kind != ChartKind::grey_card && (shape < 1 / 1.5 || shape > 1.5)) {
    return bad(
        fmt::format("six patches by four do not fill {} × {} mm", sheet.width_mm, sheet.height_mm),
        "measure the field of patches alone, along the rows of six first");
  }
  return {};
}

std::array<int, 4> tag_ids(const ChartSheet& sheet) {
  const int width = sheet.width_mm - kLeastWidthMm;
  const int height = sheet.height_mm - kLeastHeightMm;
  const int kind = static_cast<int>(sheet.kind);
  return {4 * width, 4 * height + 1, 4 * kind + 2, 4 * guard_code(width, height, kind) + 3};
}

std::optional<ChartSheet> sheet_of_ids(const std::array<int, 4>& ids) {
  for (int k = 0; k < 4; ++k) {
    const int id = ids[static_cast<std::size_t>(k)];
    if (id < 0 || id % 4 != k) return std::nullopt;
  }
  ChartSheet sheet;
  const int kind = ids[2] / 4;
  if (kind >= static_cast<int>(kWords.size())) return std::nullopt;
  sheet.width_mm = ids[0] / 4 + kLeastWidthMm;
  sheet.height_mm = ids[1] / 4 + kLeastHeightMm;
  sheet.kind = static_cast<ChartKind>(kind);
  if (ids[3] / 4 != guard_code(ids[0] / 4, ids[1] / 4, kind)) return std::nullopt;
  if (!check_sheet(sheet)) return std::nullopt;
  return sheet;
}

PointMm tag_corner(const ChartSheet& sheet, std::size_t k) {
  const bool right = k == 1 || k == 2;
  const bool below = k >= 2;
  return {right ? sheet.width_mm + kTagGapMm : -kTagGapMm - kTagMm,
          below ? sheet.height_mm + kTagGapMm : -kTagGapMm - kTagMm};
}

std::vector<bool> tag_cells(int id) {
  const std::unique_ptr<apriltag_family_t, DestroyFamily> family(tag36h11_create());
  HW_CHECK(family && id >= 0 && id < static_cast<int>(family->ncodes));
  const std::unique_ptr<image_u8_t, DestroyImage> image(apriltag_to_image(family.get(), id));
  HW_CHECK(image && image->width == kTagCells && image->height == kTagCells);
  std::vector<bool> cells;
  for (std::size_t y = 0; y < kTagCells; ++y) {
    for (std::size_t x = 0; x < kTagCells; ++x) {
      cells.push_back(image->buf[y * static_cast<std::size_t>(image->stride) + x] < 128);
    }
  }
  return cells;
}

}  // namespace hw::photo
