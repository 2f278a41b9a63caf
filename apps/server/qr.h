#pragma once
// QR codes (ISO/IEC 18004) of short texts.
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"

namespace hw::server {

/// Rows of "0" and "1", 1 is dark, without the quiet zone. text: up to 500 bytes. Error:
/// out_of_range.
[[nodiscard]] Result<std::vector<std::string>> qr_rows(std::string_view text);
/// Rows as lines of half blocks for a terminal with light text on dark, quiet zone included.
[[nodiscard]] std::string qr_text(const std::vector<std::string>& rows);

}  // namespace hw::server
