#pragma once
// The strand chart as a picture: neutral grey all round, one typeface, nothing chromatic but hair
// and the mark of the hard stop, which also has a word and a shape.
#include <string>

#include "huewright/base/language.h"
#include "huewright/base/result.h"
#include "huewright/plan/strand_chart.h"

namespace hw::sheets {

/// How the picture is to be made.
struct ChartPicture {
  std::string title;    ///< UTF-8; on two lines, then cut with an ellipsis, where it is long
  double width = 1280;  ///< [units of 1/96 inch], 900 to 4000
  double height = 640;  ///< likewise, 540 to 3000
  double scale = 2;     ///< pixels per unit, 1 to 4; the picture has width × scale of them
  bool shadows_lifted = false;  ///< dark levels drawn lighter than they are, and said so
  Language language = Language::en;  ///< of its words; the title comes as it is
};

/// The lightness at which the 'shadows lifted' view draws a colour [L*].
/// lstar: any. 14.2, the darkest that hair can be (hair/tress.h), stays; 26 is drawn at 40; 70 and
/// above stay. Straight between, so it rises strictly and never darkens: black and darkest brown,
/// 0.9 apart on the default ladder, come to stand 2.0 apart. Source: choice of picture.
[[nodiscard]] double lifted_shadow(double lstar);

/// The picture as the bytes of a PNG file, sRGB, 8 bits. Each point in the chart's colour, mapped
/// to the screen last; said so where the screen cannot show it. Deterministic for one version of
/// the font and of the drawing library. Errors: a size or scale outside its range; a title or label
/// that is not UTF-8; no memory.
[[nodiscard]] Result<std::string> strand_chart_png(const plan::StrandChart& chart,
                                                   const ChartPicture& picture);

/// Writes that picture to a file, over what stood there.
/// Errors: as strand_chart_png(); io when the file cannot be written (where: the path).
[[nodiscard]] Result<void> write_strand_chart_png(const plan::StrandChart& chart,
                                                  const ChartPicture& picture,
                                                  const std::string& path);

}  // namespace hw::sheets
