#include "huewright/base/language.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base_tables.h"
#include "huewright/base/check.h"
#include "huewright/base/csv.h"

namespace hw {
namespace {

using Translated = std::array<std::string, kLanguages.size()>;

std::size_t index_of(Language language) {
  return static_cast<std::size_t>(language);
}

using Messages = std::map<std::string, Translated, std::less<>>;

void read(std::string_view text, const char* name, Messages& into) {
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

const Messages& messages() {
  static const Messages kAll = [] {
    Messages all;
    read(base::tables::messages_bench, "base/messages_bench.csv", all);
    read(base::tables::messages_photo, "base/messages_photo.csv", all);
    read(base::tables::messages_reports, "base/messages_reports.csv", all);
    read(base::tables::messages_rules, "base/messages_rules.csv", all);
    read(base::tables::messages_sheets, "base/messages_sheets.csv", all);
    read(base::tables::messages_words, "base/messages_words.csv", all);
    return all;
  }();
  return kAll;
}

constexpr std::array<std::string_view, 12> kMonths{"January",   "February", "March",    "April",
                                                   "May",       "June",     "July",     "August",
                                                   "September", "October",  "November", "December"};

/// A form with so many fixed bytes fits little that it did not make.
constexpr std::size_t kTelling = 9;

/// A sentence with places, in pieces: "Bowl {0}: {1}" is "Bowl ", "{0}", ": ", "{1}", "".
struct Form {
  std::string_view english;
  std::vector<std::string_view> pieces;  ///< between the places, one more than there are places
  std::vector<std::string_view> places;  ///< with their braces
  std::size_t fixed = 0;                 ///< bytes of all pieces
};

Form form_of(std::string_view english) {
  Form form{english, {}, {}, 0};
  std::size_t from = 0;
  for (;;) {
    const std::size_t open = english.find('{', from);
    const std::size_t close = open == std::string_view::npos ? open : english.find('}', open);
    form.pieces.push_back(
        english.substr(from, open == std::string_view::npos ? open : open - from));
    form.fixed += form.pieces.back().size();
    if (close == std::string_view::npos) return form;
    form.places.push_back(english.substr(open, close + 1 - open));
    from = close + 1;
  }
}

/// Sentences with places, those first that say most: they fit the fewest texts.
const std::vector<Form>& forms() {
  static const std::vector<Form> kAll = [] {
    std::vector<Form> all;
    for (const auto& [english, others] : messages()) {
      Form form = form_of(english);
      const bool tells = form.fixed > 2 || form.pieces.size() == 2;
      if (!form.places.empty() && tells) all.push_back(std::move(form));
    }
    std::ranges::stable_sort(all, std::ranges::greater{}, &Form::fixed);
    return all;
  }();
  return kAll;
}

/// "Caution: {0}", "- {0}": what stands behind it is told for itself.
bool opens(const Form& form) {
  const std::string_view front = form.pieces.front();
  return form.places.size() == 1 && form.pieces.back().empty() &&
         (front.ends_with(": ") || front == "- ");
}

/// What would be a list or a whole sentence is no word that was put into a form of few words.
bool may_be_put_in(const Form& form, std::string_view text) {
  if (opens(form) || text.ends_with('.')) return true;
  const auto has = [&](std::string_view mark) { return text.find(mark) != std::string_view::npos; };
  if (has(", then ") || has("; visit ")) return false;
  return form.places.size() == 1 || form.fixed >= kTelling ||
         (!has(", ") && !has(": ") && !has("; "));
}

/// What stands in the places of a form that made a text; none where it did not make it.
std::optional<std::vector<std::string_view>> taken_apart(const Form& form, std::string_view text) {
  if (!text.starts_with(form.pieces.front()) || !text.ends_with(form.pieces.back())) return {};
  std::vector<std::string_view> found;
  std::size_t from = form.pieces.front().size();
  for (std::size_t i = 1; i < form.pieces.size(); ++i) {
    const bool last = i + 1 == form.pieces.size();
    const std::string_view piece = form.pieces[i];
    const std::size_t at = last ? text.size() - piece.size() : text.find(piece, from);
    if (at == std::string_view::npos || at <= from) return {};
    found.push_back(text.substr(from, at - from));
    if (!may_be_put_in(form, found.back())) return {};
    from = at + piece.size();
  }
  return found;
}

std::string put_together(Language language, const Form& form,
                         const std::vector<std::string_view>& found) {
  std::string made(messages().find(form.english)->second[index_of(language)]);
  std::size_t from = 0;
  for (;;) {
    const std::size_t open = made.find('{', from);
    if (open == std::string::npos) return made;
    const std::string_view place(made.data() + open, made.find('}', open) + 1 - open);
    const auto at = std::ranges::find(form.places, place);
    HW_CHECK(at != form.places.end());
    const std::string text =
        retold(language, found[static_cast<std::size_t>(at - form.places.begin())]);
    made.replace(open, place.size(), text);
    from = open + text.size();
  }
}

bool is_figure(std::string_view text) {
  return text.find_first_not_of("0123456789.:–-+ %") == std::string_view::npos;
}

/// "12.5 %" as "12,5 %".
std::string with_comma(std::string_view figure) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  std::string made(figure);
  for (std::size_t i = 1; i + 1 < made.size(); ++i) {
    if (made[i] == '.' && digit(made[i - 1]) && digit(made[i + 1])) made[i] = ',';
  }
  return made;
}

/// A list with one mark between its parts, where at least one part is known.
std::optional<std::string> part_by_part(Language language, std::string_view text,
                                        std::string_view mark) {
  if (text.find(mark) == std::string_view::npos) return {};
  std::string made;
  bool known = false;
  for (std::size_t from = 0;;) {
    // What stands behind a colon may hold another.
    const bool again = from == 0 || mark != ": ";
    const std::size_t at = again ? text.find(mark, from) : std::string_view::npos;
    const std::string_view part = text.substr(from, at == std::string_view::npos ? at : at - from);
    const std::string told = retold(language, part);
    known = known || told != part;
    made += told;
    if (at == std::string_view::npos) break;
    made += said(language, mark);
    from = at + mark.size();
  }
  if (!known) return {};
  return made;
}

/// By the first form, of the telling ones or the others, that could have made it.
std::optional<std::string> by_form(Language language, std::string_view text, bool telling) {
  for (const Form& form : forms()) {
    if ((form.fixed >= kTelling || opens(form)) != telling) continue;
    if (const auto found = taken_apart(form, text)) return put_together(language, form, *found);
  }
  return {};
}

/// "roots, lengths: a sentence", where the sentence is known as a whole.
std::optional<std::string> behind_colon(Language language, std::string_view text) {
  std::size_t at = text.find(": ");
  while (at != std::string_view::npos && at > 0 && text[at - 1] == ' ') {  // of "1 : 2"
    at = text.find(": ", at + 1);
  }
  if (at == std::string_view::npos) return {};
  const std::string_view tail = text.substr(at + 2);
  const auto known = messages().find(tail);
  std::optional<std::string> told;
  if (known != messages().end()) {
    told = known->second[index_of(language)];
  } else {
    told = by_form(language, tail, true);
  }
  if (!told) return {};
  return retold(language, text.substr(0, at)) + std::string(said(language, ": ")) + *told;
}

std::optional<std::string> by_parts(Language language, std::string_view text,
                                    std::initializer_list<std::string_view> marks) {
  for (const std::string_view mark : marks) {
    if (auto parts = part_by_part(language, text, mark)) return parts;
  }
  return {};
}

}  // namespace

std::string_view tag_of(Language language) {
  constexpr std::array<std::string_view, kLanguages.size()> kTags{"en", "es", "fr", "pt"};
  return kTags.at(index_of(language));
}

std::optional<Language> language_of(std::string_view tag) {
  constexpr std::size_t kTag = 2;
  if (tag.size() < kTag || (tag.size() > kTag && tag[kTag] != '-' && tag[kTag] != '_')) return {};
  const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
  const std::array<char, kTag> first{small(tag[0]), small(tag[1])};
  for (const Language language : kLanguages) {
    if (std::ranges::equal(first, tag_of(language))) return language;
  }
  return {};
}

Result<Language> language_named(std::string_view tag, std::string_view where) {
  if (const auto language = language_of(tag)) return *language;
  return fail(ErrorCode::unknown_name, fmt::format("\"{}\" is no language of this program", tag),
              std::string(where), "give one of en, es, fr, pt");
}

std::string_view said(Language language, std::string_view english) {
  const auto at = messages().find(english);
  return at == messages().end() ? english : std::string_view(at->second[index_of(language)]);
}

std::string said(Language language, std::string_view english,
                 std::initializer_list<std::string_view> texts) {
  const std::string_view form = said(language, english);
  std::string made;
  for (std::size_t i = 0; i < form.size(); ++i) {
    const bool is_place = form[i] == '{' && i + 2 < form.size() && form[i + 2] == '}' &&
                          form[i + 1] >= '0' && form[i + 1] <= '9';
    const auto place = is_place ? static_cast<std::size_t>(form[i + 1] - '0') : texts.size();
    if (place >= texts.size()) {
      made += form[i];
      continue;
    }
    made += *(texts.begin() + static_cast<std::ptrdiff_t>(place));
    i += 2;
  }
  return made;
}

std::string retold(Language language, std::string_view english) {
  if (language == Language::en || english.empty()) return std::string(english);
  if (const auto at = messages().find(english); at != messages().end()) {
    return at->second[index_of(language)];
  }
  if (is_figure(english)) return with_comma(english);
  if (auto made = by_form(language, english, true)) return *std::move(made);
  if (auto made = behind_colon(language, english)) return *std::move(made);
  // A form of few words comes behind what is surely a list.
  if (auto made = by_parts(language, english, {"; ", ". ", ", then "})) return *std::move(made);
  if (auto made = by_form(language, english, false)) return *std::move(made);
  if (auto made = by_parts(language, english, {": ", ", ", " and "})) return *std::move(made);
  return std::string(english);
}

std::vector<std::string_view> all_said() {
  std::vector<std::string_view> all;
  for (const auto& [english, others] : messages()) all.emplace_back(english);
  return all;
}

std::string fixed(Language language, double value, int places) {
  std::string text = fmt::format("{:.{}f}", value, places);
  if (text.starts_with('-') && text.find_first_of("123456789") == std::string::npos) {
    text.erase(0, 1);
  }
  if (language != Language::en) std::ranges::replace(text, '.', ',');
  return text;
}

std::string decimal(Language language, double value, int places) {
  std::string text = fixed(language, value, places);
  if (places > 0) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.') || text.ends_with(',')) text.pop_back();
  }
  return text;
}

std::string day(Language language, std::chrono::year_month_day date) {
  const std::string_view month =
      said(language, kMonths.at(static_cast<unsigned>(date.month()) - 1));
  return said(language, "{0} {1} {2}",
              {std::to_string(static_cast<unsigned>(date.day())), month,
               std::to_string(static_cast<int>(date.year()))});
}

std::string money(Language language, double value, std::string_view currency) {
  constexpr double kHundred = 100;
  const double cents = std::round(value * kHundred);
  const bool whole = std::fmod(cents, kHundred) == 0;
  std::string text = fmt::format("{:.{}f}", cents / kHundred, whole ? 0 : 2);
  if (language != Language::en) std::ranges::replace(text, '.', ',');
  return fmt::format("{} {}", text, currency);
}

}  // namespace hw
