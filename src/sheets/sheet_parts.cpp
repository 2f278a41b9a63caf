#include "sheet_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/hair/words.h"

namespace hw::sheets {

std::string day(std::chrono::year_month_day date) {
  constexpr std::array<std::string_view, 12> kMonths{
      "January", "February", "March",     "April",   "May",      "June",
      "July",    "August",   "September", "October", "November", "December"};
  return fmt::format("{} {} {}", static_cast<unsigned>(date.day()),
                     kMonths.at(static_cast<unsigned>(date.month()) - 1),
                     static_cast<int>(date.year()));
}

std::string when(const process::Moment& at) {
  const std::string text = process::iso_text(at);
  return day(process::local_date(at)) + ", " + text.substr(11, 5);
}

std::string grams(double grams) {
  return fmt::format("{:g} g", std::round(grams * 10) / 10);
}

std::string minutes(double minutes) {
  const int whole = static_cast<int>(std::lround(minutes));
  return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

std::string hours(double minutes) {
  return fmt::format("{:g}", std::round(minutes / 30) / 2);
}

std::string money(const VisitPapers& papers, double money) {
  return fmt::format("{:g} {}", std::round(money * 100) / 100, papers.salon.currency);
}

std::string about(const VisitPapers& papers, double amount) {
  constexpr double kTen = 10;
  return money(papers, std::round(amount / kTen) * kTen);
}

std::string words_of(const VisitPapers& papers, const std::string& product) {
  const auto at = std::ranges::find_if(
      papers.shelf, [&](const book::OnShelf& on) { return on.product.product.id == product; });
  const bool worded = at != papers.shelf.end() && !at->product.product.words.empty();
  return worded ? at->product.product.words : product;
}

Document empty_sheet(const VisitPapers& papers, const std::string& title) {
  Document made;
  made.title = title;
  const std::string name = papers.client.erased ? "(erased)" : papers.client.person.name;
  const auto starts = process::moment_from_iso(papers.visit.booked.starts_at);
  made.under = name + (starts ? ", " + when(*starts) : "");
  made.made_on = process::iso_text(papers.today);
  made.foot =
      papers.salon.name.empty() ? day(papers.today) : papers.salon.name + ", " + day(papers.today);
  return made;
}

std::vector<Swatches> result_swatches(const VisitPapers& papers, const plan::Course& course) {
  const hair::Ladder& ladder = papers.plan->head.ladder;
  std::vector<Swatches> all;
  for (const plan::CourseZone& zone : course.zones) {
    const plan::ColourBand& band = zone.result;
    Swatches three;
    for (const auto& [lab, which] :
         {std::pair(band.lab_low, "darker"), std::pair(band.lab, "likely"),
          std::pair(band.lab_high, "lighter")}) {
      const auto words = hair::describe(lab, ladder);
      three.swatches.push_back({lab, fmt::format("{}, {}: level {:.1f}, {}", zone.zone, which,
                                                 words.level, words.tone)});
    }
    all.push_back(std::move(three));
  }
  return all;
}

}  // namespace hw::sheets
