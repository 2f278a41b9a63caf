#pragma once
// A strand chart as numbers that a page paints.
#include "huewright/plan/strand_chart.h"
#include "paint.h"

namespace hw::server {

[[nodiscard]] double two_decimals(double value);

/// What every strand chart has: the field of colours as bytes in two colour spaces, its axes,
/// bands, lines of equal level, what is done and when. lifted: shadows lifted, as in the picture
/// for print.
[[nodiscard]] Json chart_json(const plan::StrandChart& chart, bool lifted);

}  // namespace hw::server
