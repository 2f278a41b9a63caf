#pragma once
// From JSON text to a message and back, by the message's own describe() (fields.h).
#include <string>
#include <string_view>

#include "huewright/base/result.h"
#include "huewright/wire/fields.h"

namespace hw::wire {

/// Longest text that is read [bytes]; house rule, no source: a thousand times a long case file.
inline constexpr std::size_t kMostBytes = std::size_t{4} << 20;
/// Deepest nesting of lists and objects that is read [1]; house rule, no source.
inline constexpr std::size_t kMostDepth = 64;

/// Fills a message from JSON text. Errors name the place as a path such as
/// "applications[0].minutes", or line and column when the text is no JSON: more than kMostBytes or
/// kMostDepth, bytes that are not UTF-8, a byte-order mark, a key twice, an unknown key (with the
/// nearest known one), a missing key, a value of another type or outside its range.
[[nodiscard]] Result<void> decode_into(std::string_view json, const Describe& fields);

template <class Message>
[[nodiscard]] Result<Message> decode(std::string_view json) {
  Message message;
  const auto done = decode_into(json, [&](Object& object) { describe(object, message); });
  if (!done) return tl::unexpected(done.error());
  return message;
}

/// A message as one line of JSON, keys in the order of describe(). Numbers are the shortest text
/// that reads back as the same double. Every number must be finite.
[[nodiscard]] std::string encode_fields(const Describe& fields);

template <class Message>
[[nodiscard]] std::string encode(Message message) {
  return encode_fields([&](Object& object) { describe(object, message); });
}

/// The JSON Schema (draft 2020-12) of a described message, indented, with a final line break.
[[nodiscard]] std::string schema_of(std::string_view name, std::string_view title,
                                    const Describe& fields);

/// One input file: the command that reads it and what its schema is called.
struct SchemaEntry {
  std::string_view name;   ///< "bowl": schemas/bowl.schema.json
  std::string_view title;  ///< one sentence
};
/// Every input the program reads.
[[nodiscard]] std::span<const SchemaEntry> schemas();
/// The text of a schema file. Error: unknown_name (lists the names).
[[nodiscard]] Result<std::string> schema_text(std::string_view name);

}  // namespace hw::wire
