#pragma once
// The fade chart as a picture: the strand chart with weeks across, washes counted along its top.
#include <string>

#include "huewright/base/result.h"
#include "huewright/plan/fade_chart.h"
#include "huewright/sheets/strand_chart_png.h"

namespace hw::sheets {

/// The picture as the bytes of a PNG file, as strand_chart_png(). Errors: likewise.
[[nodiscard]] Result<std::string> fade_chart_png(const plan::FadeChart& chart,
                                                 const ChartPicture& picture);

/// Writes that picture to a file, over what stood there.
/// Errors: as fade_chart_png(); io when the file cannot be written (where: the path).
[[nodiscard]] Result<void> write_fade_chart_png(const plan::FadeChart& chart,
                                                const ChartPicture& picture,
                                                const std::string& path);

}  // namespace hw::sheets
