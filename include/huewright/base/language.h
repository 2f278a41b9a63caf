#pragma once
// What is said to people, in four languages. The English sentence is the key: it stands in the
// code where it is said, and data/base/messages_*.csv has it in the others. A sentence may hold
// {0}, {1}, … or {a name} for what is put in, in any order. Tests hold the code, and every plan of
// the example heads, against the files. Numbers, dates and money are written as the Unicode CLDR
// has them for en, es, fr, pt.
#include <array>
#include <chrono>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"

namespace hw {

enum class Language { en, es, fr, pt };
inline constexpr std::array kLanguages{Language::en, Language::es, Language::fr, Language::pt};

/// BCP 47: "en", "es", "fr", "pt".
[[nodiscard]] std::string_view tag_of(Language language);
/// Of a tag by its first part, in any case: "pt-BR", "FR_ca". None: a language that is not here.
[[nodiscard]] std::optional<Language> language_of(std::string_view tag);

/// The same of what somebody asked for. where: of the error, unknown_name, which lists the tags.
[[nodiscard]] Result<Language> language_named(std::string_view tag, std::string_view where);

/// A sentence in a language; itself where the files do not have it.
[[nodiscard]] std::string_view said(Language language, std::string_view english);
/// The same with texts put in for {0}, {1}, …; a number without a text stays as it is.
[[nodiscard]] std::string said(Language language, std::string_view english,
                               std::initializer_list<std::string_view> texts);

/// A sentence that the program made in English, in another language: found whole, or by the form
/// it was made from, what was put in being told again in the same way; a list part by part. What
/// the files do not know, such as a product's own words, stays as it is; its numbers too.
[[nodiscard]] std::string retold(Language language, std::string_view english);

/// The same of an error: its message and hint by data/base/messages_errors.csv. What was typed,
/// keys and words of a file, and numbers stay as a file has them; of `where` only what is no path.
/// The code stays.
[[nodiscard]] Error retold(Language language, const Error& error);

/// Every sentence that the files have, in English, sorted.
[[nodiscard]] std::vector<std::string_view> all_said();

/// A number to a few decimals, zeros at its end left out: 2.5 and 1 are "2.5" in English, "2,5" in
/// the others. No grouping; value: finite, below 1e12.
[[nodiscard]] std::string decimal(Language language, double value, int places);

/// A number to so many decimals: "5.0", "5,0".
[[nodiscard]] std::string fixed(Language language, double value, int places);

/// "14 May 2025", "14 de mayo de 2025", "14 mai 2025", "14 de maio de 2025".
[[nodiscard]] std::string day(Language language, std::chrono::year_month_day date);

/// Money to two decimals where it has cents, its currency as the salon writes it behind the number:
/// "120 EUR", "12,50 €".
[[nodiscard]] std::string money(Language language, double value, std::string_view currency);

}  // namespace hw
