#pragma once
// Long texts inside JSON, such as a plan kept in a fact, taken out at once: the parser reads them
// letter by letter, a hundred times slower than memory gives them.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hw::wire {

/// One text in quotes: which of all such, keys included, from 0, and what it says.
struct LongText {
  std::size_t place = 0;
  std::string text;
};

/// A JSON text with its long texts left empty ("").
struct Shortened {
  std::string json;
  std::vector<LongText> texts;  ///< in order
};

/// Empty where the text has none, or one that wants a closer look: the plain way reads it then, and
/// finds its faults. What is no JSON stays none. json: UTF-8.
[[nodiscard]] std::optional<Shortened> without_long_texts(std::string_view json);

}  // namespace hw::wire
