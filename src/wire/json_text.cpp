#include "json_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "huewright/base/control.h"
#include "huewright/wire/json.h"
#include "long_texts.h"

namespace hw::wire {
namespace {

using nlohmann::json;

/// Length in bytes of the UTF-8 character at the start of the text, 0 when it is none. Shortest
/// forms only, no surrogates, up to U+10FFFF (RFC 3629).
std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(0);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
  if (first < 0xc2 || first > 0xf4 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xc0) != 0x80) return 0;
  }
  const unsigned char second = byte(1);
  const bool too_long = (first == 0xe0 && second < 0xa0) || (first == 0xf0 && second < 0x90);
  const bool no_character = (first == 0xed && second > 0x9f) || (first == 0xf4 && second > 0x8f);
  return too_long || no_character ? 0 : length;
}

/// How many bytes are one character each, as far as whole groups of eight go.
std::size_t plain_start(std::string_view text) {
  constexpr std::uint64_t kAnyHigh = 0x8080808080808080ULL;
  std::size_t at = 0;
  for (std::uint64_t group = 0; at + sizeof group <= text.size(); at += sizeof group) {
    std::memcpy(&group, text.data() + at, sizeof group);
    if ((group & kAnyHigh) != 0) break;
  }
  return at;
}

/// "line 3, column 7" of a byte, counted from 1, columns in characters.
std::string line_and_column(std::string_view text, std::size_t byte) {
  const std::string_view before = text.substr(0, std::min(byte, text.size()));
  const auto line = std::count(before.begin(), before.end(), '\n') + 1;
  const std::size_t last = before.rfind('\n');
  const std::string_view rest = last == before.npos ? before : before.substr(last + 1);
  const auto column = std::count_if(rest.begin(), rest.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xc0) != 0x80;
  });
  return fmt::format("line {}, column {}", line, column + 1);
}

Result<void> check_bytes(std::string_view text) {
  if (text.size() > kMostBytes) {
    return fail(ErrorCode::out_of_range,
                fmt::format("the input has more than {} bytes", kMostBytes), "",
                "give one request at a time");
  }
  if (text.find_first_not_of(" \t\r\n") == text.npos) {
    return fail(ErrorCode::malformed, "the input is empty", "", "give one JSON object");
  }
  if (text.starts_with("\xef\xbb\xbf")) {
    return fail(ErrorCode::malformed, "the input starts with a byte-order mark", "line 1, column 1",
                "save it as UTF-8 without that mark");
  }
  for (std::size_t at = 0; at < text.size();) {
    at += plain_start(text.substr(at));
    if (at == text.size()) break;
    const std::size_t length = utf8_length(text.substr(at));
    if (length == 0) {
      return fail(ErrorCode::malformed,
                  fmt::format("byte 0x{:02x} is not UTF-8", static_cast<unsigned char>(text[at])),
                  line_and_column(text, at), "save the input as UTF-8");
    }
    at += length;
  }
  return {};
}

/// The parser's own reason without its preamble and without the text it read.
std::string reason_of(std::string_view what) {
  const std::size_t dash = what.find(" - ");
  if (dash != what.npos) what.remove_prefix(dash + 3);
  what = what.substr(0, what.find("; last read"));
  return std::string(what);
}

/// Builds the tree from the parser's events; stops at the first fault.
class TreeBuilder final : public json::json_sax_t {
 public:
  /// long_texts: of this text, which has "" where they stood.
  explicit TreeBuilder(std::string_view text, std::vector<LongText> long_texts = {})
      : text_(text), long_texts_(std::move(long_texts)) {}
  json take() { return std::move(root_); }
  [[nodiscard]] const std::optional<Error>& fault() const { return fault_; }

  bool null() override { return put(nullptr); }
  bool boolean(bool value) override { return put(value); }
  bool number_integer(number_integer_t value) override { return put(value); }
  bool number_unsigned(number_unsigned_t value) override { return put(value); }
  bool number_float(number_float_t value, const string_t&) override { return put(value); }
  bool string(string_t& value) override {
    put_back(value);
    return put(std::move(value));
  }
  bool binary(binary_t&) override { return false; }
  bool start_object(std::size_t) override { return open(json::object()); }
  bool start_array(std::size_t) override { return open(json::array()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& value) override {
    put_back(value);
    if (open_.back()->contains(value)) {
      fault_ = Error{ErrorCode::conflict, shown(value) + " stands here twice", path(),
                     "keep one of the two"};
      return false;
    }
    key_ = std::move(value);
    return true;
  }

  bool parse_error(std::size_t position, const std::string&,
                   const nlohmann::detail::exception& problem) override {
    const std::size_t byte = position == 0 ? 0 : position - 1;
    constexpr int kNumberOverflow = 406;  // the parser's own number for it
    if (problem.id == kNumberOverflow) {
      fault_ = Error{ErrorCode::out_of_range, "the number is too large",
                     line_and_column(text_, byte), "give a number a scale or clock could show"};
    } else {
      fault_ =
          Error{ErrorCode::malformed, "not JSON: " + reason_of(problem.what()),
                line_and_column(text_, byte), "look for a comma, quote or bracket just before"};
    }
    return false;
  }

 private:
  /// Each text in quotes passes here once, in order.
  void put_back(std::string& value) {
    if (next_long_ < long_texts_.size() && long_texts_[next_long_].place == quoted_) {
      value = std::move(long_texts_[next_long_].text);
      ++next_long_;
    }
    ++quoted_;
  }
  template <class T>
  json* place(T&& value) {
    if (open_.empty()) {
      root_ = std::forward<T>(value);
      return &root_;
    }
    json& top = *open_.back();
    if (top.is_array()) {
      top.emplace_back(std::forward<T>(value));
      return &top.back();
    }
    return &(top[key_] = std::forward<T>(value));
  }
  template <class T>
  bool put(T&& value) {
    place(std::forward<T>(value));
    return true;
  }
  bool open(json&& container) {
    if (open_.size() >= kMostDepth) {
      fault_ = Error{ErrorCode::out_of_range,
                     fmt::format("lists and objects are nested more than {} deep", kMostDepth), "",
                     "no request needs that"};
      return false;
    }
    const bool named = !open_.empty() && open_.back()->is_object();
    names_.push_back(named ? key_ : std::string());
    open_.push_back(place(std::move(container)));
    return true;
  }
  bool close() {
    open_.pop_back();
    names_.pop_back();
    return true;
  }
  /// Path of the innermost open list or object.
  [[nodiscard]] std::string path() const {
    std::string text;
    constexpr std::size_t kMostShown = 200;  // bytes; keys may be long and many
    for (std::size_t i = 1; i < open_.size(); ++i) {
      if (text.size() > kMostShown) return text + "…";
      if (open_[i - 1]->is_array()) {
        text += fmt::format("[{}]", open_[i - 1]->size() - 1);
      } else {
        if (!text.empty()) text += '.';
        text += clean(names_[i]);
      }
    }
    return text;
  }
  static std::string clean(std::string_view name) {
    const std::string in_quotes = shown(name);
    return in_quotes.substr(1, in_quotes.size() - 2);
  }

  std::string_view text_;
  std::vector<LongText> long_texts_;
  std::size_t next_long_ = 0;
  std::size_t quoted_ = 0;  // texts in quotes so far
  json root_;
  std::vector<json*> open_;
  std::vector<std::string> names_;  // key of each of them; empty inside a list
  std::string key_;
  std::optional<Error> fault_;
};

}  // namespace

std::string shown(std::string_view text) {
  constexpr std::size_t kMostShown = 40;  // bytes; keeps the error one readable line
  std::string out = "\"";
  while (!text.empty()) {
    const std::size_t length = std::max<std::size_t>(1, utf8_length(text));
    if (out.size() + length > kMostShown) {
      out += "…";
      break;
    }
    const bool stray = length == 1 && static_cast<unsigned char>(text[0]) >= 0x80;
    // U+2028 and U+2029 break lines too.
    const bool separator = text.starts_with("\xe2\x80\xa8") || text.starts_with("\xe2\x80\xa9");
    const bool hidden = stray || control_at(text, 0) > 0 || separator;
    out += hidden ? std::string_view("?") : text.substr(0, length);
    text.remove_prefix(length);
  }
  return out + "\"";
}

bool has_control(std::string_view text) {
  constexpr std::string_view kStay = "\t\n\r";
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (control_at(text, at) > 0 && kStay.find(text[at]) == text.npos) return true;
  }
  return false;
}

std::string Path::text() const {
  std::string before = up == nullptr ? std::string() : up->text();
  if (index != kNoIndex) return before + fmt::format("[{}]", index);
  if (key.empty()) return before;
  if (!before.empty()) before += '.';
  return before + std::string(key);
}

Result<json> parse_json(std::string_view text) {
  const auto bytes = check_bytes(text);
  if (!bytes) return tl::unexpected(bytes.error());
  if (auto shortened = without_long_texts(text)) {
    TreeBuilder quick(shortened->json, std::move(shortened->texts));
    if (json::sax_parse(shortened->json, &quick)) return quick.take();
    // The plain way names the place of the fault.
  }
  TreeBuilder builder(text);
  if (!json::sax_parse(text.begin(), text.end(), &builder)) {
    return tl::unexpected(builder.fault().value_or(
        Error{ErrorCode::malformed, "not JSON", "", "give one JSON object"}));
  }
  return builder.take();
}

}  // namespace hw::wire
