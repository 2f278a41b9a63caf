#pragma once
// What several sheets of a visit share.
#include <string>

#include "huewright/process/moment.h"
#include "huewright/sheets/visit_sheets.h"

namespace hw::sheets {

/// Title, client, day and foot.
[[nodiscard]] Document empty_sheet(const VisitPapers& papers, const std::string& title);
/// The words printed on a product of the shelf; else its id.
[[nodiscard]] std::string words_of(const VisitPapers& papers, const std::string& product);
/// "45 g", "1:05", "3.5" (hours by halves), "240 EUR", "14 May 2025, 10:00".
[[nodiscard]] std::string grams(double grams);
[[nodiscard]] std::string minutes(double minutes);
[[nodiscard]] std::string hours(double minutes);
[[nodiscard]] std::string money(const VisitPapers& papers, double money);
/// Money to the nearest ten: what is not known better is not told better.
[[nodiscard]] std::string about(const VisitPapers& papers, double money);
[[nodiscard]] std::string when(const process::Moment& at);
[[nodiscard]] std::string day(std::chrono::year_month_day date);
/// Darker end, likeliest, lighter end, zone by zone.
[[nodiscard]] std::vector<Swatches> result_swatches(const VisitPapers& papers, const plan::Course& course);

[[nodiscard]] Result<Document> card_sheet(const VisitPapers& papers);
[[nodiscard]] Result<Document> aftercare_sheet(const VisitPapers& papers);

}  // namespace hw::sheets
