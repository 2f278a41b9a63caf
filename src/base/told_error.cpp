// An error in another language. Its forms are told apart by their fixed words, as other sentences
// are, but what was put in mostly stays: a key that is to be given is the same in every language.
#include <algorithm>

#include "base_tables.h"
#include "messages.h"

namespace hw {
namespace {

const Messages& sentences() {
  static const Messages kAll = [] {
    Messages all;
    read_messages(base::tables::messages_errors, "base/messages_errors.csv", all);
    return all;
  }();
  return kAll;
}

const std::vector<Form>& forms() {
  static const std::vector<Form> kAll = forms_of(sentences());
  return kAll;
}

std::optional<std::string> told(Language language, std::string_view text);

/// "a, b or c" with the other language's "or"; itself where it is no such list.
std::string told_list(Language language, std::string_view text) {
  std::string made(text);
  constexpr std::string_view kOr = " or ";
  const std::size_t at = made.rfind(kOr);
  if (at == std::string::npos || made.find('"') != std::string::npos) return made;
  const auto word = sentences().find(kOr);
  if (word != sentences().end()) made.replace(at, kOr.size(), word->second[index_of(language)]);
  return made;
}

/// What stands in place i of a form. In quotes it is somebody's own; behind a colon it may be any
/// sentence of the program.
std::string told_place(Language language, const Form& form, std::size_t i, std::string_view text) {
  const std::string_view before = form.pieces[i];
  if (before.ends_with('"') || text.starts_with('"')) return std::string(text);
  if (auto made = told(language, text)) return *std::move(made);
  return before.ends_with(": ") ? retold(language, text) : told_list(language, text);
}

/// None: no sentence of the files made it.
std::optional<std::string> told(Language language, std::string_view text) {
  if (const auto at = sentences().find(text); at != sentences().end()) {
    return at->second[index_of(language)];
  }
  for (const Form& form : forms()) {
    const auto found = taken_apart(form, text);
    if (!found) continue;
    std::vector<std::string> texts;
    for (std::size_t i = 0; i < found->size(); ++i) {
      texts.push_back(told_place(language, form, i, (*found)[i]));
    }
    return put_together(sentences().find(form.english)->second[index_of(language)], form, texts);
  }
  return {};
}

/// "file.json: line 3, column 4": each part that is a sentence of the files.
std::string told_where(Language language, std::string_view where) {
  std::string made;
  for (std::size_t from = 0;;) {
    const std::size_t at = where.find(": ", from);
    const std::string_view part = where.substr(from, at == std::string_view::npos ? at : at - from);
    // One word alone is a key.
    const bool words = part.find(' ') != std::string_view::npos;
    made += words ? told(language, part).value_or(std::string(part)) : std::string(part);
    if (at == std::string_view::npos) return made;
    made += ": ";
    from = at + 2;
  }
}

}  // namespace

Error retold(Language language, const Error& error) {
  if (language == Language::en) return error;
  const auto again = [&](const std::string& text) { return told(language, text).value_or(text); };
  return {error.code, again(error.message), told_where(language, error.where), again(error.hint)};
}

}  // namespace hw
