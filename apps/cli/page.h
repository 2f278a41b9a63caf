#pragma once
// Pieces that every readable report is made of. Plain text, 80 columns.
#include <string>
#include <string_view>

#include "huewright/base/language.h"
#include "huewright/wire/bowl.h"

namespace hw::apps {

/// The language of every report from now on; English until then. Called once, by main.
void speak(Language language);
[[nodiscard]] Language spoken();
/// A report's text in that language: cells of a line (two spaces or more between them) each for
/// themselves, columns moved where they must. What wrapped() has told already stays.
[[nodiscard]] std::string told_by_line(const std::string& text);

/// Text in the language of the reports, broken at spaces to 80 columns and indented; the label
/// stands in the first line's indent.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t indent = 0,
                                  std::string_view label = {});
/// The same of somebody's own words, which no language changes.
[[nodiscard]] std::string as_it_is(std::string_view text, std::size_t indent = 0,
                                   std::string_view label = {});
/// A line that is in the language of the reports already, for a table.
[[nodiscard]] std::string told_line(const std::string& line);
/// A number with up to `decimals` decimals and no trailing zeros.
[[nodiscard]] std::string plain(double value, int decimals);
/// Refusals and cautions with their kind in words, then an empty line; nothing when there are none.
[[nodiscard]] std::string findings_text(const wire::Findings& found);
/// What every report ends with.
[[nodiscard]] std::string closing_text();
/// 3 when a refusal stands, else 0.
[[nodiscard]] int exit_code_of(const wire::Findings& found);
/// "90 g, 4 % peroxide (13.3 volume), 33.3 % lightener", in the language of the reports.
[[nodiscard]] std::string bowl_text(const wire::BowlAnswer& bowl);

}  // namespace hw::apps
