#pragma once
// The sentences of data/base/messages_*.csv, and the forms that made a text.
#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/language.h"

namespace hw {

using Translated = std::array<std::string, kLanguages.size()>;
/// By the English sentence.
using Messages = std::map<std::string, Translated, std::less<>>;

[[nodiscard]] constexpr std::size_t index_of(Language language) {
  return static_cast<std::size_t>(language);
}

/// Adds the rows of a table with columns en, es, fr, pt. name: of the file, for a failed check.
void read_messages(std::string_view text, const char* name, Messages& into);

/// A sentence with places, in pieces: "Bowl {0}: {1}" is "Bowl ", "{0}", ": ", "{1}", "".
struct Form {
  std::string_view english;
  std::vector<std::string_view> pieces;  ///< between the places, one more than there are places
  std::vector<std::string_view> places;  ///< with their braces
  std::size_t fixed = 0;                 ///< bytes of all pieces
};

[[nodiscard]] Form form_of(std::string_view english);

/// Sentences with places, those first that say most: they fit the fewest texts.
[[nodiscard]] std::vector<Form> forms_of(const Messages& messages);

/// What stands in the places of a form that made a text; none where it did not make it.
[[nodiscard]] std::optional<std::vector<std::string_view>> taken_apart(const Form& form,
                                                                       std::string_view text);

/// A translation with texts in the places of the form: texts in the order of form.places.
[[nodiscard]] std::string put_together(std::string translation, const Form& form,
                                       const std::vector<std::string>& texts);

}  // namespace hw
