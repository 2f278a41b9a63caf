#pragma once
// The sheet that is laid round a chart before a photo is taken.
#include <string>

#include "huewright/base/language.h"
#include "huewright/base/result.h"
#include "huewright/photo/chart_sheet.h"
#include "huewright/sheets/paper.h"

namespace hw::sheets {

/// The sheet as the bytes of a PDF file, in true size: four tags, the window to be cut out, a line
/// of 100 mm to measure the print by, and how it is used. Lies along the longer side of the paper
/// where it must. language: of the words on it. Errors: those of photo::check_sheet; out_of_range,
/// where the paper is too small.
[[nodiscard]] Result<std::string> chart_paper(const photo::ChartSheet& sheet, Paper paper,
                                              Language language = Language::en);

}  // namespace hw::sheets
