#include "text.h"

#include <cstdint>

namespace hw::server {
namespace {

/// Bytes of the character that starts at `at`; 0: none does.
std::size_t length_at(std::string_view bytes, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i]); };
  const unsigned char first = byte(at);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || at + length > bytes.size()) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(at + i) & 0xC0) != 0x80) return 0;
  }
  const unsigned char second = byte(at + 1);
  if (first == 0xE0 && second < 0xA0) return 0;   // overlong
  if (first == 0xED && second >= 0xA0) return 0;  // surrogate
  if (first == 0xF0 && second < 0x90) return 0;   // overlong
  if (first == 0xF4 && second >= 0x90) return 0;  // beyond U+10FFFF
  return length;
}

}  // namespace

bool is_utf8(std::string_view bytes) {
  for (std::size_t at = 0; at < bytes.size();) {
    const std::size_t length = length_at(bytes, at);
    if (length == 0) return false;
    at += length;
  }
  return true;
}

std::string printable(std::string_view bytes) {
  std::string out;
  out.reserve(bytes.size());
  for (std::size_t at = 0; at < bytes.size();) {
    const std::size_t length = length_at(bytes, at);
    if (length == 0) {
      out += '?';
      ++at;
      continue;
    }
    const auto first = static_cast<unsigned char>(bytes[at]);
    if (first < 0x20 || first == 0x7F) {
      out += ' ';
    } else {
      out.append(bytes, at, length);
    }
    at += length;
  }
  return out;
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t";
  const std::size_t first = text.find_first_not_of(kBlank);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

}  // namespace hw::server
