#include "text_lines.h"

#include <algorithm>
#include <cctype>

namespace hw::wire {
namespace {

char upper(char c) {
  return static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
}

bool continues(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

/// Length of the UTF-8 character that begins a text; 0: there is none.
std::size_t character_at(std::string_view text) {
  const auto first = static_cast<unsigned char>(text.front());
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if (!continues(text[i])) return 0;
  }
  // Forms that are longer than need be, surrogates, and what lies past U+10FFFF.
  const auto second = static_cast<unsigned char>(text[1]);
  const bool wrong = (first == 0xE0 && second < 0xA0) || (first == 0xED && second > 0x9F) ||
                     (first == 0xF0 && second < 0x90) || (first == 0xF4 && second > 0x8F);
  return wrong ? 0 : length;
}

ContentLine content_line(const std::string& line, std::size_t number) {
  ContentLine read;
  read.line = number;
  bool quoted = false;
  std::size_t colon = 0;
  for (; colon < line.size(); ++colon) {
    if (line[colon] == '"') quoted = !quoted;
    if (line[colon] == ':' && !quoted) break;
  }
  if (colon == line.size()) return read;
  const std::string left = line.substr(0, colon);
  const std::size_t semicolon = left.find(';');
  read.name = left.substr(0, semicolon);
  if (const std::size_t group = read.name.find('.'); group != std::string::npos) {
    read.name.erase(0, group + 1);
  }
  if (semicolon != std::string::npos) read.parameters = left.substr(semicolon + 1);
  std::ranges::transform(read.name, read.name.begin(), upper);
  std::ranges::transform(read.parameters, read.parameters.begin(), upper);
  read.value = line.substr(colon + 1);
  return read;
}

}  // namespace

std::string line_name(std::size_t line) {
  return "line " + std::to_string(line);
}

std::string_view without_mark(std::string_view text) {
  constexpr std::string_view kMark = "\xEF\xBB\xBF";
  return text.starts_with(kMark) ? text.substr(kMark.size()) : text;
}

Result<void> check_text(std::string_view text, std::size_t most, const char* how) {
  if (text.size() > most) {
    return fail(ErrorCode::out_of_range, "is longer than " + std::to_string(most >> 20U) + " MiB",
                {}, "cut it into several files");
  }
  std::size_t line = 1;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = text[at] == '\0' ? 0 : character_at(text.substr(at));
    if (length == 0) {
      return fail(ErrorCode::malformed, "is not text in UTF-8", line_name(line), how);
    }
    if (text[at] == '\n') ++line;
    at += length;
  }
  return {};
}

std::vector<ContentLine> content_lines(std::string_view text) {
  std::vector<ContentLine> lines;
  std::string whole;
  std::size_t began = 1;
  const auto finish = [&] {
    ContentLine read = content_line(whole, began);
    if (!read.name.empty()) lines.push_back(std::move(read));
  };
  std::size_t number = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    std::string_view line = text.substr(at, end - at);
    if (line.ends_with('\r')) line.remove_suffix(1);
    at = end + 1;
    ++number;
    if (!line.empty() && (line.front() == ' ' || line.front() == '\t')) {
      whole += line.substr(1);
      continue;
    }
    finish();
    whole = line;
    began = number;
  }
  finish();
  return lines;
}

std::string unescaped(std::string_view value) {
  std::string text;
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (value[i] != '\\' || i + 1 == value.size()) {
      text += value[i];
      continue;
    }
    const char next = value[++i];
    text += next == 'n' || next == 'N' ? '\n' : next;
  }
  return text;
}

std::vector<std::string> parts_of(std::string_view value, char separator) {
  std::vector<std::string> parts(1);
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (value[i] == separator) {
      parts.emplace_back();
      continue;
    }
    parts.back() += value[i];
    if (value[i] == '\\' && i + 1 < value.size()) parts.back() += value[++i];
  }
  return parts;
}

std::string escaped(std::string_view text) {
  std::string value;
  for (const char c : text) {
    if (c == '\n') {
      value += "\\n";
    } else if (c != '\r') {
      if (c == '\\' || c == ';' || c == ',') value += '\\';
      value += c;
    }
  }
  return value;
}

std::string folded(std::string_view line) {
  constexpr std::size_t kOctets = 75;  // RFC 5545 3.1, without the line end
  std::string text;
  std::size_t used = 0;
  for (std::size_t at = 0; at < line.size();) {
    std::size_t length = 1;
    while (at + length < line.size() && continues(line[at + length])) ++length;
    if (used + length > kOctets) {
      text += "\r\n ";
      used = 1;
    }
    text += line.substr(at, length);
    used += length;
    at += length;
  }
  return text + "\r\n";
}

}  // namespace hw::wire
