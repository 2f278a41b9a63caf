#pragma once
// What the readers of tables, contacts and calendars share.
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"

namespace hw::wire {

/// "line 7"
[[nodiscard]] std::string line_name(std::size_t line);
/// Text without the byte order mark some programs put first.
[[nodiscard]] std::string_view without_mark(std::string_view text);
/// Errors: longer than most [bytes]; not UTF-8 (line; how: how to save it so).
[[nodiscard]] Result<void> check_text(std::string_view text, std::size_t most, const char* how);

/// One content line of RFC 5545 and RFC 6350, unfolded: NAME;PARAM=VALUE:value.
struct ContentLine {
  std::size_t line = 1;    ///< of the text, where it begins
  std::string name;        ///< upper case, without its group
  std::string parameters;  ///< as they stand, in upper case
  std::string value;       ///< still escaped
};
/// Content lines of a text; lines without a colon are passed over.
[[nodiscard]] std::vector<ContentLine> content_lines(std::string_view text);
/// A TEXT value as it is meant: \n, \, \; \\ undone.
[[nodiscard]] std::string unescaped(std::string_view value);
/// A value cut at the separators that are not escaped; the parts are still escaped.
[[nodiscard]] std::vector<std::string> parts_of(std::string_view value, char separator);
/// A TEXT value as it is written.
[[nodiscard]] std::string escaped(std::string_view text);
/// A content line, folded at 75 octets and never inside a character, with CRLF.
[[nodiscard]] std::string folded(std::string_view line);

}  // namespace hw::wire
