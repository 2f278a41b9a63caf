#include "huewright/base/language.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base_tables.h"
#include "messages.h"

namespace hw {
namespace {

const Messages& messages() {
  static const Messages kAll = [] {
    Messages all;
    read_messages(base::tables::messages_bench, "base/messages_bench.csv", all);
    read_messages(base::tables::messages_photo, "base/messages_photo.csv", all);
    read_messages(base::tables::messages_reports, "base/messages_reports.csv", all);
    read_messages(base::tables::messages_rules, "base/messages_rules.csv", all);
    read_messages(base::tables::messages_sheets, "base/messages_sheets.csv", all);
    read_messages(base::tables::messages_words, "base/messages_words.csv", all);
    return all;
  }();
  return kAll;
}

constexpr std::array<std::string_view, 12> kMonths{"January",   "February", "March",    "April",
                                                   "May",       "June",     "July",     "August",
                                                   "September", "October",  "November", "December"};

/// A form with so many fixed bytes fits little that it did not make.
constexpr std::size_t kTelling = 9;

/// Sentences with places, those first that say most.
const std::vector<Form>& forms() {
  static const std::vector<Form> kAll = [] {
    std::vector<Form> all = forms_of(messages());
    std::erase_if(all, [](const Form& form) { return form.fixed <= 2 && form.pieces.size() != 2; });
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
  if (has(", then ") || has("; visit ") || has(") and ")) return false;
  if (has(") (")) return false;
  if (form.english == "{0} min" && has(", ")) return false;  // a list of minutes
  return form.places.size() == 1 || form.fixed >= kTelling ||
         (!has(", ") && !has(": ") && !has("; "));
}

/// What stands in the places of a form that made a text; none where it did not make it.
std::optional<std::vector<std::string_view>> may_have_made(const Form& form,
                                                           std::string_view text) {
  auto found = taken_apart(form, text);
  const bool cites = form.pieces[form.pieces.size() - 2].ends_with("source: ");
  const bool all = found && std::ranges::all_of(*found, [&](const std::string_view& one) {
                     return (cites && &one == &found->back()) || may_be_put_in(form, one);
                   });
  if (!all) return {};
  return found;
}

std::string put_in(Language language, const Form& form,
                   const std::vector<std::string_view>& found) {
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < found.size(); ++i) {
    // Where something was published is written as it was published.
    const bool cited = form.pieces[i].ends_with("source: ");
    texts.push_back(cited ? std::string(found[i]) : retold(language, found[i]));
  }
  return put_together(messages().find(form.english)->second[index_of(language)], form, texts);
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

/// "2025-06-18" and "2025-06-18 09:30" with the date in words; none: another figure.
std::optional<std::string> told_date(Language language, std::string_view figure) {
  constexpr std::string_view kDate = "dddd-dd-dd dd:dd";
  constexpr std::size_t kDay = 10;
  if (figure.size() != kDay && figure.size() != kDate.size()) return {};
  for (std::size_t i = 0; i < figure.size(); ++i) {
    const bool digit = figure[i] >= '0' && figure[i] <= '9';
    if (kDate[i] == 'd' ? !digit : figure[i] != kDate[i]) return {};
  }
  const auto number = [&](std::size_t from, std::size_t digits) {
    int value = 0;
    for (const char c : figure.substr(from, digits)) value = 10 * value + (c - '0');
    return value;
  };
  const std::chrono::year_month_day date(std::chrono::year(number(0, 4)),
                                         std::chrono::month(static_cast<unsigned>(number(5, 2))),
                                         std::chrono::day(static_cast<unsigned>(number(8, 2))));
  if (!date.ok()) return {};
  const std::string_view time = figure.substr(std::min(figure.size(), kDay + 1));
  return day(language, date) + (time.empty() ? "" : ", ") + std::string(time);
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
    std::size_t at = again ? text.find(mark, from) : std::string_view::npos;
    while (mark == ": " && at != std::string_view::npos && at > 0 && text[at - 1] == ' ') {
      at = text.find(mark, at + 1);  // of "1 : 2"
    }
    if (from == 0 && at == std::string_view::npos) return {};
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
    if (const auto found = may_have_made(form, text)) return put_in(language, form, *found);
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
  if (language == Language::en) return english;
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
  if (is_figure(english)) return told_date(language, english).value_or(with_comma(english));
  if (auto made = by_form(language, english, true)) return *std::move(made);
  if (auto made = behind_colon(language, english)) return *std::move(made);
  if (english.find(") and ") != std::string_view::npos) {  // "… (cream) and …"
    if (auto made = by_parts(language, english, {" and "})) return *std::move(made);
  }
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
