#include "english_words.h"

#include <map>

namespace hw::test {
namespace {

std::set<std::string> all_words(Language language) {
  std::set<std::string> all;
  for (const std::string_view english : all_said()) {
    for (std::string& word : words_of(said(language, english))) all.insert(std::move(word));
  }
  return all;
}

const std::set<std::string>& of_english_alone(Language language) {
  static std::map<Language, std::set<std::string>> made;
  std::set<std::string>& alone = made[language];
  if (alone.empty()) {
    alone = all_words(Language::en);
    for (const std::string& word : all_words(language)) alone.erase(word);
  }
  return alone;
}

}  // namespace

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  bool in_place = false;
  for (const char c : text) {
    if (c == '{') in_place = true;
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool letter = (small >= 'a' && small <= 'z') || static_cast<unsigned char>(c) >= 0x80;
    if (letter && !in_place) {
      word += small;
    } else if (!word.empty()) {
      words.push_back(std::move(word));
      word.clear();
    }
    if (c == '}') in_place = false;
  }
  if (!word.empty()) words.push_back(std::move(word));
  return words;
}

std::string in_one_line(std::string_view text, const std::vector<std::string>& phrases) {
  std::string line;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n';
    if (!blank || !line.ends_with(' ')) line += blank ? ' ' : c;
  }
  for (const std::string& phrase : phrases) {
    if (phrase.empty()) continue;
    for (std::size_t at = line.find(phrase); at != std::string::npos; at = line.find(phrase, at)) {
      line.replace(at, phrase.size(), "_");
    }
  }
  return line;
}

std::vector<std::string> english_left(Language language, std::string_view text,
                                      const std::vector<std::string>& phrases) {
  const std::set<std::string>& english = of_english_alone(language);
  const std::string line = in_one_line(text, phrases);
  std::vector<std::string> words;
  std::vector<std::string> left;
  for (std::size_t from = 0; from < line.size();) {
    const std::size_t end = std::min(line.find(' ', from), line.size());
    for (const std::string& word : words_of(std::string_view(line).substr(from, end - from))) {
      if (!english.contains(word)) continue;
      constexpr std::size_t kRound = 40;  // bytes of context
      left.push_back(word + ": " + line.substr(from - std::min(from, kRound), 2 * kRound));
    }
    from = end + 1;
  }
  return left;
}

}  // namespace hw::test
