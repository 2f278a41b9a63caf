#include "page.h"

#include <fmt/format.h>

#include "command.h"
#include "huewright/process/rules.h"

namespace hw::apps {
namespace {

constexpr std::size_t kColumns = 80;

/// Characters of a text, for alignment: bytes that do not continue one.
std::size_t width_of(std::string_view text) {
  std::size_t width = 0;
  for (const char c : text) width += (static_cast<unsigned char>(c) & 0xc0) != 0x80 ? 1 : 0;
  return width;
}

std::string_view kind_text(process::RefusalKind kind) {
  switch (kind) {
    case process::RefusalKind::never:
      return "NEVER";
    case process::RefusalKind::not_until:
      return "NOT UNTIL";
    case process::RefusalKind::caution:
      return "CAUTION";
  }
  return "";
}

}  // namespace

std::string wrapped(std::string_view text, std::size_t indent, std::string_view label) {
  std::string out = fmt::format("{:<{}}", label, indent);
  std::size_t column = width_of(out);
  bool line_is_empty = true;
  while (!text.empty()) {
    const std::size_t space = text.find(' ');
    const std::string_view word = text.substr(0, space);
    text.remove_prefix(space == text.npos ? text.size() : space + 1);
    const std::size_t width = width_of(word);
    if (!line_is_empty && column + 1 + width > kColumns) {
      out += '\n' + std::string(indent, ' ');
      column = indent;
    } else if (!line_is_empty) {
      out += ' ';
      ++column;
    }
    out += word;
    column += width;
    line_is_empty = false;
  }
  return out + '\n';
}

std::string plain(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != text.npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string findings_text(const wire::Findings& found) {
  constexpr std::size_t kIndent = 11;  // the longest label and two spaces
  std::string out;
  for (const auto* list : {&found.refusals, &found.cautions}) {
    for (const auto& one : *list) {
      out += wrapped(one.text, kIndent, kind_text(one.kind));
      out += wrapped("Source: " + one.source, kIndent);
    }
  }
  return out.empty() ? out : out + '\n';
}

std::string closing_text() {
  return '\n' + wrapped(process::closing_advice());
}

int exit_code_of(const wire::Findings& found) {
  return found.refusals.empty() ? kExitDone : kExitRefused;
}

std::string bowl_text(const wire::BowlAnswer& bowl) {
  std::string text = plain(bowl.grams, 1) + " g";
  if (bowl.peroxide_percent > 0) {
    text += fmt::format(", {} % peroxide ({} volume)", plain(bowl.peroxide_percent, 1),
                        plain(bowl.volume, 1));
  } else {
    text += ", no peroxide";
  }
  if (bowl.powder_percent > 0) {
    text += fmt::format(", {} % lightener", plain(bowl.powder_percent, 1));
  } else {
    text += ", no lightener";
  }
  return text;
}

}  // namespace hw::apps
