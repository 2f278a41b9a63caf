#include "long_texts.h"

#include <utility>

namespace hw::wire {
namespace {

constexpr std::size_t kLong = 512;  // bytes; shorter ones gain little

/// The sign that a backslash and a letter stand for; 0: a closer look is needed.
char escaped(char letter) {
  switch (letter) {
    case '"':
    case '\\':
    case '/':
      return letter;
    case 'b':
      return '\b';
    case 'f':
      return '\f';
    case 'n':
      return '\n';
    case 'r':
      return '\r';
    case 't':
      return '\t';
    default:
      return '\0';
  }
}

/// Whether a byte of a text stands for itself.
bool is_plain(char sign) {
  constexpr unsigned char kFirstSign = 0x20;  // below it are the control characters
  return static_cast<unsigned char>(sign) >= kFirstSign && sign != '"' && sign != '\\';
}

/// Reads what stands from `at`, behind the first quote, to the next one into `text`. Gives the
/// place behind that quote; npos: a closer look is needed.
std::size_t read(std::string_view json, std::size_t at, std::string& text) {
  text.clear();
  for (std::size_t copied = at; at < json.size();) {
    if (is_plain(json[at])) {
      ++at;
      continue;
    }
    text += json.substr(copied, at - copied);
    if (json[at] == '"') return at + 1;
    const char sign = json[at] == '\\' && at + 1 < json.size() ? escaped(json[at + 1]) : '\0';
    if (sign == '\0') return json.npos;
    text += sign;
    at += 2;
    copied = at;
  }
  return json.npos;
}

}  // namespace

std::optional<Shortened> without_long_texts(std::string_view json) {
  if (json.size() < kLong) return {};
  Shortened made;
  std::string text;
  std::size_t copied = 0;  // of json
  std::size_t place = 0;
  for (std::size_t at = json.find('"'); at != json.npos; at = json.find('"', at), ++place) {
    const std::size_t end = read(json, at + 1, text);
    if (end == json.npos) return {};
    if (text.size() >= kLong) {
      made.texts.push_back({place, std::exchange(text, {})});
      made.json += json.substr(copied, at - copied);
      made.json += "\"\"";
      copied = end;
    }
    at = end;
  }
  if (made.texts.empty()) return {};
  made.json += json.substr(copied);
  return made;
}

}  // namespace hw::wire
