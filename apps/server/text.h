#pragma once
// Bytes from outside as text that may be shown.
#include <string>
#include <string_view>

namespace hw::server {

/// Whether the bytes are UTF-8 (RFC 3629: no overlong forms, no surrogates, up to U+10FFFF).
[[nodiscard]] bool is_utf8(std::string_view bytes);
/// One line of UTF-8: control characters become spaces, bytes that are no UTF-8 question marks.
[[nodiscard]] std::string printable(std::string_view bytes);
/// ASCII letters made small.
[[nodiscard]] std::string lower(std::string_view text);
/// Without spaces and tabs at both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

}  // namespace hw::server
