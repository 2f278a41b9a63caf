#include "messages.h"

#include <algorithm>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"

namespace hw {

void read_messages(std::string_view text, const char* name, Messages& into) {
  const auto table = parse_table(text, name);
  HW_CHECK(table.has_value());
  for (std::size_t row = 0; row < table->rows(); ++row) {
    Translated one;
    for (const Language language : kLanguages) {
      const auto field = table->text(row, tag_of(language));
      HW_CHECK(field.has_value());
      one[index_of(language)] = *field;
    }
    into.emplace(one.front(), one);
  }
}

Form form_of(std::string_view english) {
  Form form{english, {}, {}, 0};
  std::size_t from = 0;
  for (;;) {
    std::size_t open = english.find('{', from);
    // "an object in { }" has no place.
    while (open != std::string_view::npos &&
           english.substr(open + 1, 1).find_first_of(" }\"") == 0) {
      open = english.find('{', open + 1);
    }
    const std::size_t close = open == std::string_view::npos ? open : english.find('}', open);
    form.pieces.push_back(
        english.substr(from, open == std::string_view::npos ? open : open - from));
    form.fixed += form.pieces.back().size();
    if (close == std::string_view::npos) return form;
    form.places.push_back(english.substr(open, close + 1 - open));
    from = close + 1;
  }
}

std::vector<Form> forms_of(const Messages& messages) {
  std::vector<Form> all;
  for (const auto& [english, others] : messages) {
    Form form = form_of(english);
    if (!form.places.empty()) all.push_back(std::move(form));
  }
  std::ranges::stable_sort(all, std::ranges::greater{}, &Form::fixed);
  return all;
}

std::optional<std::vector<std::string_view>> taken_apart(const Form& form, std::string_view text) {
  if (!text.starts_with(form.pieces.front()) || !text.ends_with(form.pieces.back())) return {};
  std::vector<std::string_view> found;
  std::size_t from = form.pieces.front().size();
  for (std::size_t i = 1; i < form.pieces.size(); ++i) {
    const bool last = i + 1 == form.pieces.size();
    const std::string_view piece = form.pieces[i];
    if (last && text.size() < piece.size()) return {};
    const std::size_t at = last ? text.size() - piece.size() : text.find(piece, from);
    if (at == std::string_view::npos || at <= from) return {};
    found.push_back(text.substr(from, at - from));
    from = at + piece.size();
  }
  return found;
}

std::string put_together(std::string translation, const Form& form,
                         const std::vector<std::string>& texts) {
  std::size_t from = 0;
  for (;;) {
    std::size_t first = std::string::npos;
    std::size_t which = 0;
    for (std::size_t i = 0; i < form.places.size(); ++i) {
      const std::size_t at = translation.find(form.places[i], from);
      if (at >= first) continue;
      first = at;
      which = i;
    }
    if (first == std::string::npos) return translation;
    translation.replace(first, form.places[which].size(), texts[which]);
    from = first + texts[which].size();
  }
}

}  // namespace hw
