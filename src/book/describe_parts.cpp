#include "describe_parts.h"

#include "huewright/process/moment.h"

namespace hw::book {
namespace {

constexpr std::string_view kSome = ".";  // any text that is not empty
constexpr std::string_view kMoment =
    "^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}(:[0-9]{2})?(Z|[+-][0-9]{2}:[0-9]{2})$";
constexpr std::string_view kDate = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$";

/// A value of an optional key, unless the message has none to write.
bool wanted(wire::Value& value, const std::string& text) {
  return value.wanted(!text.empty());
}

void word(wire::Value& at, std::string& value, wire::Words words) {
  std::size_t index = 0;
  while (index + 1 < words.size() && words[index] != value) ++index;
  at.word(index, words);
  value = std::string(words[index]);
}

void moment(wire::Value& at, std::string& value) {
  at.formatted(value, kMoment, [&](std::string_view given) -> Result<void> {
    const auto read = process::moment_from_iso(given);
    if (!read) return tl::unexpected(read.error());
    value = process::iso_text(*read);
    return {};
  });
}

}  // namespace

void must_text(wire::Object& object, std::string_view key, std::string_view what,
               std::string& value, std::size_t most) {
  object.required(key, what).formatted(
      value, kSome,
      [&](std::string_view given) -> Result<void> {
        if (given.empty()) return fail(ErrorCode::missing, "is empty", {}, "say it");
        value = std::string(given);
        return {};
      },
      most);
}

void may_text(wire::Object& object, std::string_view key, std::string_view what, std::string& value,
              std::size_t most) {
  wire::Value& at = object.optional(key, what);
  if (wanted(at, value)) at.text(value, most);
}

void must_word(wire::Object& object, std::string_view key, std::string_view what,
               std::string& value, wire::Words words) {
  word(object.required(key, what), value, words);
}

void may_word(wire::Object& object, std::string_view key, std::string_view what, std::string& value,
              wire::Words words) {
  wire::Value& at = object.optional(key, what);
  if (wanted(at, value)) word(at, value, words);
}

void must_moment(wire::Object& object, std::string_view key, std::string_view what,
                 std::string& value) {
  moment(object.required(key, what), value);
}

void may_moment(wire::Object& object, std::string_view key, std::string_view what,
                std::string& value) {
  wire::Value& at = object.optional(key, what);
  if (wanted(at, value)) moment(at, value);
}

void may_date(wire::Object& object, std::string_view key, std::string_view what,
              std::string& value) {
  wire::Value& at = object.optional(key, what);
  if (!wanted(at, value)) return;
  at.formatted(value, kDate, [&](std::string_view given) -> Result<void> {
    const auto read = process::date_from_iso(given);
    if (!read) return tl::unexpected(read.error());
    value = process::iso_text(*read);
    return {};
  });
}

void may_lab(wire::Object& object, std::optional<std::array<double, 3>>& value) {
  wire::Value& at = object.optional("lab", "[L, a, b] by an instrument, D65 and 10°");
  if (!at.wanted(value.has_value())) return;
  auto plain = value.value_or(std::array<double, 3>{});
  wire::triple(at, plain, {.low = 0, .high = 100}, {.low = -128, .high = 128});
  value = plain;
}

void may_level(wire::Object& object, std::optional<double>& value) {
  wire::number(object.optional("level", "depth, 1 black to 10 lightest blond"), value,
               {.low = 1, .high = 10});
}

}  // namespace hw::book
