#pragma once
// Pieces that every readable report is made of. Plain text, 80 columns.
#include <string>
#include <string_view>

#include "huewright/wire/bowl.h"

namespace hw::apps {

/// Text broken at spaces to 80 columns and indented; the label stands in the first line's indent.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t indent = 0,
                                  std::string_view label = {});
/// A number with up to `decimals` decimals and no trailing zeros.
[[nodiscard]] std::string plain(double value, int decimals);
/// Refusals and cautions with their kind in words, then an empty line; nothing when there are none.
[[nodiscard]] std::string findings_text(const wire::Findings& found);
/// What every report ends with.
[[nodiscard]] std::string closing_text();
/// 3 when a refusal stands, else 0.
[[nodiscard]] int exit_code_of(const wire::Findings& found);
/// "90 g, 4 % peroxide (13.3 volume), 33.3 % lightener".
[[nodiscard]] std::string bowl_text(const wire::BowlAnswer& bowl);

}  // namespace hw::apps
