#pragma once
// What a course ends in as a picture: for each zone three touching tiles in each of three lights,
// on a neutral of L* 50, with words. Colours go to the screen last, and those that it cannot show
// carry a mark.
#include <span>
#include <string>

#include "huewright/base/language.h"
#include "huewright/base/result.h"
#include "huewright/hair/ladder.h"
#include "huewright/plan/result_tiles.h"

namespace hw::sheets {

/// How the picture is to be made. Its height follows from the zones.
struct TilesPicture {
  std::string title;    ///< UTF-8; on two lines, then cut with an ellipsis, where it is long
  double width = 1280;  ///< [units of 1/96 inch], 900 to 4000
  double scale = 2;     ///< pixels per unit, 1 to 4
  Language language = Language::en;  ///< of its words; the title comes as it is
};

/// The picture as the bytes of a PNG file, sRGB, 8 bits. tiles: one zone or more; ladder: reads the
/// levels. Deterministic for one version of the font and of the drawing library.
/// Errors: a size or scale outside its range; a title or name that is not UTF-8; no memory.
[[nodiscard]] Result<std::string> result_tiles_png(std::span<const plan::ZoneTiles> tiles,
                                                   const TilesPicture& picture,
                                                   const hair::Ladder& ladder);

/// Writes that picture to a file, over what stood there.
/// Errors: as result_tiles_png(); io when the file cannot be written (where: the path).
[[nodiscard]] Result<void> write_result_tiles_png(std::span<const plan::ZoneTiles> tiles,
                                                  const TilesPicture& picture,
                                                  const hair::Ladder& ladder,
                                                  const std::string& path);

}  // namespace hw::sheets
