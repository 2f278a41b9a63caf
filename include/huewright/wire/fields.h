#pragma once
// One description per message, read three ways. A message has one function
//   void describe(Object& object, Message& message);
// that names each key with its meaning, unit and range. The decoder walks it to fill the message,
// the encoder to write it, the schema maker to print its JSON Schema, so the three cannot disagree.
#include <array>
#include <cstdint>
#include <functional>
#include <initializer_list>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/base/units.h"

namespace hw::wire {

/// What a number may be. The default takes any finite number.
struct NumberRule {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  std::string_view unit = {};  ///< as a person reads it: "g", "min", "%"; empty for a bare number
  bool above_low = false;      ///< low itself is not allowed
};

/// How many entries a list may have.
struct CountRule {
  std::size_t least = 0;
  std::size_t most = 1000;
};

/// Longest text of a form [bytes]; house rule, no source: more than any date or number of ours.
inline constexpr std::size_t kMostForm = 100;

class Object;
using Words = std::span<const std::string_view>;
using Describe = std::function<void(Object&)>;
using Accept = std::function<Result<void>(std::string_view)>;

/// One JSON value at one place. Each call says what stands there.
class Value {
 public:
  Value() = default;
  Value(const Value&) = delete;
  Value& operator=(const Value&) = delete;
  virtual ~Value() = default;
  virtual void number(double& value, const NumberRule& rule) = 0;
  virtual void whole(std::uint64_t& value, std::uint64_t low, std::uint64_t high) = 0;
  virtual void flag(bool& value) = 0;
  /// Free text without control characters other than tabs and line ends. most: bytes.
  virtual void text(std::string& value, std::size_t most) = 0;
  /// Text of a form. pattern: its regular expression, for the schema; accept: reads a given text
  /// into the message, or says what is wrong with it (where: left empty). most: bytes.
  virtual void formatted(const std::string& value, std::string_view pattern, const Accept& accept,
                         std::size_t most = kMostForm) = 0;
  /// One of some words; index says which.
  virtual void word(std::size_t& index, Words words) = 0;
  /// A list of `size` entries; resize and item work on the message.
  virtual void list(const CountRule& rule, std::size_t size,
                    const std::function<void(std::size_t)>& resize,
                    const std::function<void(std::size_t, Value&)>& item) = 0;
  virtual void object(const Describe& fields) = 0;
  /// A word or an object in its place; is_object says which.
  virtual void word_or_object(bool& is_object, std::size_t& index, Words words,
                              const Describe& fields) = 0;
  /// Whether an optional value is to be visited. has: the message holds one now.
  virtual bool wanted(bool has) = 0;
};

/// The keys of one JSON object, in the order in which they are written.
class Object {
 public:
  Object() = default;
  Object(const Object&) = delete;
  Object& operator=(const Object&) = delete;
  virtual ~Object() = default;
  /// The value of a key. what: its meaning, a few words, for the schema. The result is good until
  /// the next call on this object.
  virtual Value& required(std::string_view key, std::string_view what) = 0;
  /// A key that may be left out; the message then keeps the value it was made with.
  virtual Value& optional(std::string_view key, std::string_view what) = 0;
  /// Says that exactly one of some optional keys is given. Called after they were visited.
  virtual void exactly_one(std::initializer_list<std::string_view> keys) = 0;
  /// A required word that decides which other keys there are; index says which.
  virtual void cases(std::string_view key, std::string_view what, Words words, std::size_t& index,
                     const std::function<void(std::size_t, Object&)>& fields) = 0;
};

inline void number(Value& value, double& into, const NumberRule& rule = {}) {
  value.number(into, rule);
}

template <class Tag>
void number(Value& value, Quantity<Tag>& into, const NumberRule& rule = {}) {
  double plain = into.value();
  value.number(plain, rule);
  into = Quantity<Tag>(plain);
}

template <class Number>
void number(Value& value, std::optional<Number>& into, const NumberRule& rule = {}) {
  if (!value.wanted(into.has_value())) return;
  Number plain = into.value_or(Number{});
  number(value, plain, rule);
  into = plain;
}

/// A word that names a value of an enum; values and words stand in the same order.
template <class Enum, std::size_t N>
void word(Value& value, Enum& into, const std::array<Enum, N>& values,
          const std::array<std::string_view, N>& words) {
  std::size_t index = 0;
  while (index < N - 1 && values[index] != into) ++index;
  value.word(index, words);
  into = values[index];
}

/// A list of objects, each with its own describe().
template <class Item>
void objects(Value& value, std::vector<Item>& into, const CountRule& rule) {
  value.list(
      rule, into.size(), [&](std::size_t size) { into.resize(size); },
      [&](std::size_t i, Value& entry) {
        entry.object([&](Object& object) { describe(object, into[i]); });
      });
}

/// A list of numbers under one rule.
inline void numbers(Value& value, std::vector<double>& into, const CountRule& count,
                    const NumberRule& rule = {}) {
  value.list(
      count, into.size(), [&](std::size_t size) { into.resize(size); },
      [&](std::size_t i, Value& entry) { entry.number(into[i], rule); });
}

/// A list of texts of one's own.
inline void texts(Value& value, std::vector<std::string>& into, const CountRule& count,
                  std::size_t most) {
  value.list(
      count, into.size(), [&](std::size_t size) { into.resize(size); },
      [&](std::size_t i, Value& entry) { entry.text(into[i], most); });
}

/// A small count kept as some whole number type.
template <class Whole>
void count(Value& value, Whole& into, std::uint64_t low, std::uint64_t high) {
  auto plain = static_cast<std::uint64_t>(into);
  value.whole(plain, low, high);
  into = static_cast<Whole>(plain);
}

/// Three numbers, such as a colour.
using Triple = std::array<double, 3>;
inline void triple(Value& value, Triple& into, const NumberRule& first = {},
                   const NumberRule& others = {}) {
  value.list(
      {3, 3}, 3, [](std::size_t) {},
      [&](std::size_t i, Value& entry) { entry.number(into[i], i == 0 ? first : others); });
}

}  // namespace hw::wire
