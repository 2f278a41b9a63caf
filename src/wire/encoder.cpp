// Writes a message as one line of JSON.
#include <charconv>

#include "huewright/base/check.h"
#include "huewright/wire/json.h"

namespace hw::wire {
namespace {

void append_text(std::string& out, std::string_view text) {
  constexpr std::string_view kHex = "0123456789abcdef";
  out += '"';
  std::size_t copied = 0;  // of text
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte >= 0x20 && byte != '"' && byte != '\\') continue;
    out += text.substr(copied, i - copied);
    copied = i + 1;
    out += '\\';
    if (byte >= 0x20) {
      out += text[i];
    } else {
      out += "u00";
      out += kHex[byte >> 4];
      out += kHex[byte & 15];
    }
  }
  out += text.substr(copied);
  out += '"';
}

class EncodeValue final : public Value {
 public:
  explicit EncodeValue(std::string& out) : out_(out) {}
  /// The key to be written before the next value, if that value is written at all.
  void set_key(std::string_view key, bool first) {
    key_ = key;
    first_ = first;
  }
  [[nodiscard]] bool took_key() const { return key_.empty(); }

  void number(double& value, const NumberRule&) override {
    HW_CHECK(value - value == 0);         // finite
    constexpr std::size_t kLongest = 32;  // a double needs 24 characters at most
    char digits[kLongest];
    const double plain = value == 0 ? 0 : value;  // no "-0"
    const auto end = std::to_chars(digits, digits + kLongest, plain).ptr;
    start().append(digits, end);
  }
  void whole(std::uint64_t& value, std::uint64_t, std::uint64_t) override {
    start() += std::to_string(value);
  }
  void flag(bool& value) override { start() += value ? "true" : "false"; }
  void text(std::string& value, std::size_t) override { append_text(start(), value); }
  void formatted(const std::string& value, std::string_view, const Accept&, std::size_t) override {
    append_text(start(), value);
  }
  void word(std::size_t& index, Words words) override { append_text(start(), words[index]); }
  void list(const CountRule&, std::size_t size, const std::function<void(std::size_t)>&,
            const std::function<void(std::size_t, Value&)>& item) override {
    start() += '[';
    for (std::size_t i = 0; i < size; ++i) {
      if (i > 0) out_ += ',';
      EncodeValue entry(out_);
      item(i, entry);
    }
    out_ += ']';
  }
  void object(const Describe& fields) override;
  void word_or_object(bool& is_object, std::size_t& index, Words words,
                      const Describe& fields) override {
    if (is_object) {
      object(fields);
    } else {
      word(index, words);
    }
  }
  bool wanted(bool has) override { return has; }

 private:
  std::string& start() {
    if (!key_.empty()) {
      if (!first_) out_ += ',';
      append_text(out_, key_);
      out_ += ':';
      key_ = {};
    }
    return out_;
  }
  std::string& out_;
  std::string_view key_;
  bool first_ = true;
};

class EncodeObject final : public Object {
 public:
  explicit EncodeObject(std::string& out) : value_(out) {}
  Value& required(std::string_view key, std::string_view) override {
    first_ = first_ && !(visited_ && value_.took_key());
    visited_ = true;
    value_.set_key(key, first_);
    return value_;
  }
  Value& optional(std::string_view key, std::string_view what) override {
    return required(key, what);
  }
  void exactly_one(std::initializer_list<std::string_view>) override {}
  void cases(std::string_view key, std::string_view what, Words words, std::size_t& index,
             const std::function<void(std::size_t, Object&)>& fields) override {
    required(key, what).word(index, words);
    fields(index, *this);
  }

 private:
  EncodeValue value_;
  bool first_ = true;
  bool visited_ = false;
};

void EncodeValue::object(const Describe& fields) {
  start() += '{';
  EncodeObject inner(out_);
  fields(inner);
  out_ += '}';
}

}  // namespace

std::string encode_fields(const Describe& fields) {
  std::string out;
  EncodeValue(out).object(fields);
  return out;
}

}  // namespace hw::wire
