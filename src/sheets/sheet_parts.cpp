#include "sheet_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/hair/words.h"

namespace hw::sheets {

std::string say(const VisitPapers& papers, std::string_view english) {
  return std::string(said(papers.language, english));
}

std::string say(const VisitPapers& papers, std::string_view english,
                std::initializer_list<std::string_view> texts) {
  return said(papers.language, english, texts);
}

std::string retold(const VisitPapers& papers, std::string_view english) {
  return hw::retold(papers.language, english);
}

std::vector<std::string> all_of(const VisitPapers& papers,
                                std::initializer_list<std::string_view> english) {
  std::vector<std::string> all;
  for (const std::string_view one : english) all.push_back(say(papers, one));
  return all;
}

std::string figure(const VisitPapers& papers, double value, int places) {
  return decimal(papers.language, value, places);
}

std::string day(const VisitPapers& papers, std::chrono::year_month_day date) {
  return hw::day(papers.language, date);
}

std::string when(const VisitPapers& papers, const process::Moment& at) {
  const std::string text = process::iso_text(at);
  return day(papers, process::local_date(at)) + ", " + text.substr(11, 5);
}

std::string grams(const VisitPapers& papers, double grams) {
  return figure(papers, grams, 1) + " g";
}

std::string minutes(double minutes) {
  const int whole = static_cast<int>(std::lround(minutes));
  return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

std::string hours(const VisitPapers& papers, double minutes) {
  return figure(papers, std::round(minutes / 30) / 2, 1);
}

std::string money(const VisitPapers& papers, double money) {
  return hw::money(papers.language, money, papers.salon.currency);
}

std::string about(const VisitPapers& papers, double amount) {
  constexpr double kTen = 10;
  return money(papers, std::round(amount / kTen) * kTen);
}

std::string colour_words(const VisitPapers& papers, const hair::ColourWords& words) {
  return say(papers, "level {0}, {1}",
             {fixed(papers.language, words.level, 1), say(papers, words.tone)});
}

std::string words_of(const VisitPapers& papers, const std::string& product) {
  const auto at = std::ranges::find_if(
      papers.shelf, [&](const book::OnShelf& on) { return on.product.product.id == product; });
  const bool worded = at != papers.shelf.end() && !at->product.product.words.empty();
  return worded ? at->product.product.words : retold(papers, product);  // "water"
}

Document empty_sheet(const VisitPapers& papers, std::string_view title) {
  Document made;
  made.title = say(papers, title);
  made.language = tag_of(papers.language);
  const std::string name =
      papers.client.erased ? say(papers, "(erased)") : papers.client.person.name;
  const auto starts = process::moment_from_iso(papers.visit.booked.starts_at);
  made.under = name + (starts ? ", " + when(papers, *starts) : "");
  made.made_on = process::iso_text(papers.today);
  made.foot = papers.salon.name.empty() ? day(papers, papers.today)
                                        : papers.salon.name + ", " + day(papers, papers.today);
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
      const std::string in_words = say(papers, which);
      three.swatches.push_back(
          {lab, fmt::format("{}, {}{}{}", retold(papers, zone.zone), in_words, say(papers, ": "),
                            colour_words(papers, hair::describe(lab, ladder)))});
    }
    all.push_back(std::move(three));
  }
  return all;
}

}  // namespace hw::sheets
