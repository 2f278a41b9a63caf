#pragma once
// Short ways to say what stands under a key of a fact's body. Text that is empty is left out.
#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "huewright/wire/fields.h"

namespace hw::book {

inline constexpr std::size_t kMostWords = 2000;      // bytes of a sentence or two; house rule
inline constexpr std::size_t kMostLong = 3'000'000;  // bytes of a case or an answer; house rule
inline constexpr double kMostMoney = 1e7;            // house rule: more is a slip of the pen
inline constexpr double kMostGrams = 1e6;            // a ton; likewise
inline constexpr double kMostMinutes = 1440;         // a day; likewise

/// Free text that must be there, and not be empty.
void must_text(wire::Object& object, std::string_view key, std::string_view what,
               std::string& value, std::size_t most = kMostWords);
/// Free text that may be left out.
void may_text(wire::Object& object, std::string_view key, std::string_view what, std::string& value,
              std::size_t most = kMostWords);
/// One of some words.
void must_word(wire::Object& object, std::string_view key, std::string_view what,
               std::string& value, wire::Words words);
void may_word(wire::Object& object, std::string_view key, std::string_view what, std::string& value,
              wire::Words words);
/// A moment with its offset, or a date.
void must_moment(wire::Object& object, std::string_view key, std::string_view what,
                 std::string& value);
void may_moment(wire::Object& object, std::string_view key, std::string_view what,
                std::string& value);
void may_date(wire::Object& object, std::string_view key, std::string_view what,
              std::string& value);
/// [L, a, b], where given.
void may_lab(wire::Object& object, std::optional<std::array<double, 3>>& value);
/// A depth, where given.
void may_level(wire::Object& object, std::optional<double>& value);

}  // namespace hw::book
