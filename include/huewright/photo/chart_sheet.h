#pragma once
// The printed sheet round a chart: a window, cut out, that shows the patches and nothing else, and
// four tags outside its corners. The tags say which sheet it is, so that nobody is asked twice.
//
// Lengths are millimetres from the window's upper left corner, x right, y down. Tag family 36h11
// (olson_2011, wang_2016). With the tags numbered 0 to 3 clockwise from the upper left, tag k has
// the id 4·code + k; the codes are: width − 30, height − 20, kind, and a sum that guards the
// others.
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"

namespace hw::photo {

/// What lies in the window.
enum class ChartKind {
  patches_before,  ///< 24 patches, chart made before November 2014
  patches_after,   ///< 24 patches, chart made from November 2014 on
  grey_card,       ///< a grey card of 18 % reflectance
};
/// "before-2014", "after-2014", "grey". Error: unknown_name (lists them).
[[nodiscard]] Result<ChartKind> chart_kind_named(std::string_view word);
[[nodiscard]] std::string_view name_of(ChartKind kind);

struct ChartSheet {
  ChartKind kind = ChartKind::patches_after;
  int width_mm = 90;   ///< of the window, along the rows of six patches
  int height_mm = 60;  ///< of the window
};

/// The window of a sheet from its words, such as "90x60", whole millimetres across and down; kept
/// within its limits by whoever makes the sheet. Error: malformed, without a place.
[[nodiscard]] Result<void> read_window(std::string_view text, ChartSheet& sheet);

inline constexpr double kTagMm = 20;      ///< side of a tag's black square
inline constexpr double kTagGapMm = 8;    ///< between window and tags, on both sides
inline constexpr int kLeastWidthMm = 30;  ///< of a window
inline constexpr int kMostWidthMm = 160;
inline constexpr int kLeastHeightMm = 20;
inline constexpr int kMostHeightMm = 130;

/// Error: out_of_range, where a window cannot be made or its patches would be higher than wide by
/// half or wider than high by half.
[[nodiscard]] Result<void> check_sheet(const ChartSheet& sheet);

/// The ids of the four tags, clockwise from the upper left. sheet: as check_sheet wants it.
[[nodiscard]] std::array<int, 4> tag_ids(const ChartSheet& sheet);
/// The sheet of four ids in that order; empty when they are not of one sheet.
[[nodiscard]] std::optional<ChartSheet> sheet_of_ids(const std::array<int, 4>& ids);

struct PointMm {
  double x = 0;
  double y = 0;
};
/// The upper left corner of tag k's black square [mm].
[[nodiscard]] PointMm tag_corner(const ChartSheet& sheet, std::size_t k);

inline constexpr std::size_t kTagCells = 10;  ///< of a tag's side, its white border among them
/// A tag's cells, row by row: true is black. id: 0 to 586. Print it kTagMm / 8 a cell.
[[nodiscard]] std::vector<bool> tag_cells(int id);

}  // namespace hw::photo
