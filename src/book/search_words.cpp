// Words of a name as search knows them: compared without accents and case (Unicode's own
// decomposition and case folding), phones by their digits.
#include <utf8proc.h>

#include <algorithm>
#include <cstdlib>
#include <memory>

#include "huewright/book/store.h"

namespace hw::book {
namespace {

constexpr std::size_t kMostWords = 40;    // of one client; house rule
constexpr std::size_t kMostLetters = 60;  // bytes of a word that count; house rule

std::string folded(std::string_view text) {
  utf8proc_uint8_t* made = nullptr;
  const auto option =
      static_cast<utf8proc_option_t>(UTF8PROC_COMPAT | UTF8PROC_DECOMPOSE | UTF8PROC_STRIPMARK |
                                     UTF8PROC_CASEFOLD | UTF8PROC_STRIPCC);
  const auto length = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                   static_cast<utf8proc_ssize_t>(text.size()), &made, option);
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owned(made, &std::free);
  if (length < 0) return {};
  return {reinterpret_cast<const char*>(made), static_cast<std::size_t>(length)};
}

bool in_word(unsigned char byte) {
  return byte >= 0x80 || std::isalnum(byte) != 0;
}

/// A phone number's signs between digits, which search leaves out.
bool between_digits(char c) {
  return c == ' ' || c == '-' || c == '/' || c == '(' || c == ')' || c == '.';
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

}  // namespace

std::vector<std::string> search_words(std::string_view text) {
  std::vector<std::string> words;
  const std::string plain = folded(text);
  std::string word;
  const auto end_word = [&] {
    if (!word.empty() && words.size() < kMostWords) words.push_back(word.substr(0, kMostLetters));
    word.clear();
  };
  for (std::size_t i = 0; i < plain.size(); ++i) {
    if (in_word(static_cast<unsigned char>(plain[i]))) {
      word += plain[i];
      continue;
    }
    // "0151 23-45" is one number; "Ana 2" stays two words.
    const bool number = !word.empty() && std::ranges::all_of(word, is_digit);
    std::size_t next = i;
    while (next < plain.size() && between_digits(plain[next])) ++next;
    if (number && next > i && next < plain.size() && is_digit(plain[next])) {
      i = next - 1;
      continue;
    }
    end_word();
  }
  end_word();
  return words;
}

}  // namespace hw::book
