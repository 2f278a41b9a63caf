#pragma once
// Tables as text: comma-separated values. Source: RFC 4180 (2005), section 2; erratum 5714.
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"

namespace hw::wire {

/// One row of a table that was read.
struct CsvRow {
  std::size_t line = 1;  ///< of the text, where the row begins
  std::vector<std::string> cells;
};

/// Longest table taken [bytes]; house rule.
inline constexpr std::size_t kMostCsvBytes = 64U << 20U;

/// Rows of a table. Lines end with CRLF or LF, the last may end with nothing; a cell in quotes may
/// hold separators, line ends and doubled quotes. The separator is whichever of comma, semicolon
/// and tab the first row holds most of: spreadsheets of some countries write semicolons. A byte
/// order mark is passed over; so is a row without any text. Rows keep the number of cells they
/// have. Errors, by line: a quote that is never closed; text right behind a closing quote; text
/// that is not UTF-8; a table that is too long.
[[nodiscard]] Result<std::vector<CsvRow>> read_csv(std::string_view text);

/// A cell as it is written: quoted where it holds a separator, quote or line end. A text that a
/// spreadsheet would take for a formula (it begins with = + - @, a tab or a carriage return) gets
/// an apostrophe before it; common practice, no source.
[[nodiscard]] std::string csv_text(std::string_view cell);
/// A text without the apostrophe that csv_text puts before what looks like a formula.
[[nodiscard]] std::string plain_text(std::string_view cell);
/// Cells, each already as it is written (a number, or csv_text), as one line with CRLF.
[[nodiscard]] std::string csv_line(const std::vector<std::string>& written);

}  // namespace hw::wire
