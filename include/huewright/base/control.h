#pragma once
// Characters that a terminal obeys and that no text of a person needs.
#include <cstddef>
#include <string_view>

namespace hw {

/// Length of the control character at a place of a UTF-8 text [bytes]; 0 where none stands there.
/// Those are U+0000 to U+001F, U+007F, and U+0080 to U+009F, tabs and line ends among them.
[[nodiscard]] constexpr std::size_t control_at(std::string_view text, std::size_t at) {
  const auto byte = static_cast<unsigned char>(text[at]);
  if (byte < 0x20 || byte == 0x7f) return 1;
  const bool second =
      byte == 0xc2 && at + 1 < text.size() && static_cast<unsigned char>(text[at + 1]) < 0xa0;
  return second ? 2 : 0;
}

}  // namespace hw
