#pragma once
// What several sheets of a visit share.
#include <chrono>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/hair/words.h"
#include "huewright/process/moment.h"
#include "huewright/sheets/visit_sheets.h"

namespace hw::sheets {

/// A sentence in the language of the papers; with texts for {0}, {1}, …
[[nodiscard]] std::string say(const VisitPapers& papers, std::string_view english);
[[nodiscard]] std::string say(const VisitPapers& papers, std::string_view english,
                              std::initializer_list<std::string_view> texts);
[[nodiscard]] std::vector<std::string> all_of(const VisitPapers& papers,
                                              std::initializer_list<std::string_view> english);
/// What the plan or the book says, in the language of the papers.
[[nodiscard]] std::string retold(const VisitPapers& papers, std::string_view english);

/// Title, client, day and foot.
[[nodiscard]] Document empty_sheet(const VisitPapers& papers, std::string_view title);
/// The words printed on a product of the shelf; else its id.
[[nodiscard]] std::string words_of(const VisitPapers& papers, const std::string& product);
/// "45 g", "1:05", "3.5" (hours by halves), "240 EUR", "14 May 2025, 10:00".
[[nodiscard]] std::string grams(const VisitPapers& papers, double grams);
[[nodiscard]] std::string minutes(double minutes);
[[nodiscard]] std::string hours(const VisitPapers& papers, double minutes);
[[nodiscard]] std::string money(const VisitPapers& papers, double money);
/// Money to the nearest ten: what is not known better is not told better.
[[nodiscard]] std::string about(const VisitPapers& papers, double money);
[[nodiscard]] std::string when(const VisitPapers& papers, const process::Moment& at);
[[nodiscard]] std::string day(const VisitPapers& papers, std::chrono::year_month_day date);
/// A number to some decimals, zeros at its end left out.
[[nodiscard]] std::string figure(const VisitPapers& papers, double value, int places);
/// "level 5.8, copper".
[[nodiscard]] std::string colour_words(const VisitPapers& papers, const hair::ColourWords& words);
/// Darker end, likeliest, lighter end, zone by zone.
[[nodiscard]] std::vector<Swatches> result_swatches(const VisitPapers& papers,
                                                    const plan::Course& course);

[[nodiscard]] Result<Document> card_sheet(const VisitPapers& papers);
[[nodiscard]] Result<Document> aftercare_sheet(const VisitPapers& papers);

}  // namespace hw::sheets
