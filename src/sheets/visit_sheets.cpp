#include "huewright/sheets/visit_sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "huewright/hair/words.h"
#include "huewright/process/rules.h"
#include "sheet_parts.h"

namespace hw::sheets {
namespace {

constexpr std::array<std::string_view, 6> kKinds{"bowls", "card",    "aftercare",
                                                 "quote", "consent", "before"};

Result<const plan::Course*> course_of(const VisitPapers& papers) {
  if (papers.plan && papers.course < papers.plan->plan.courses.size()) {
    return &papers.plan->plan.courses[papers.course];
  }
  return fail(ErrorCode::missing, "no course was chosen for this visit", "visit",
              "plan it: huewright visit plan");
}

/// What still stands against pouring; empty: nothing.
std::string what_stands_against(const VisitPapers& papers, const plan::Course& course) {
  for (const auto* found : {&papers.plan->plan.refusals, &course.refusals}) {
    for (const process::Refusal& refusal : *found) {
      if (refusal.kind != process::RefusalKind::caution) return refusal.text;
    }
  }
  return {};
}

Bullets cautions_of(const VisitPapers& papers, const plan::Course& course) {
  Bullets list;
  for (const auto* found : {&papers.plan->plan.cautions, &course.cautions}) {
    for (const process::Refusal& caution : *found) list.texts.push_back(caution.text);
  }
  return list;
}

Result<Document> bowls(const VisitPapers& papers) {
  const auto found = course_of(papers);
  if (!found) return tl::unexpected(found.error());
  const plan::Course& course = **found;
  if (const std::string against = what_stands_against(papers, course); !against.empty()) {
    return fail(ErrorCode::conflict, "no bowl sheet is made while this stands: " + against, "visit",
                "meet it, then plan again");
  }
  Document made = empty_sheet(papers, "Bowls");
  const plan::Case& head = papers.plan->head;
  made.blocks.emplace_back(Words{course.name, true});
  if (!papers.day_png.empty()) {
    made.blocks.emplace_back(Picture{papers.day_png, "The strand through the visit."});
  }
  int number = 0;
  for (const plan::CourseBowl& bowl : course.bowls) {
    made.blocks.emplace_back(Heading{fmt::format(
        "Bowl {}{}: {}", ++number, course.visits > 1 ? fmt::format(", visit {}", bowl.visit) : "",
        name_of(bowl.purpose))});
    Rows pours{{"pour", "grams"}, {}, {3, 1}};
    for (const plan::BowlPart& part : bowl.parts) {
      pours.rows.push_back({words_of(papers, part.id), grams(bowl.poured.grams_of(part.id))});
    }
    pours.rows.push_back(
        {bowl.mixes > 1 ? fmt::format("together, mixed fresh {} times", bowl.mixes) : "together",
         grams(bowl.poured.grams)});
    made.blocks.emplace_back(std::move(pours));
    Rows zones{{"zone", "on at", "look at", "off at", "never after"}, {}, {2, 1, 2, 1, 1}};
    for (const plan::BowlZone& zone : bowl.zones) {
      std::string looks;
      for (const double minute : zone.times.checks_at) {
        looks += (looks.empty() ? "" : ", ") + minutes(minute);
      }
      zones.rows.push_back({head.zones[zone.zone].name, minutes(zone.times.apply_at),
                            looks.empty() ? "–" : looks, minutes(zone.times.stop_at),
                            minutes(zone.times.hard_stop_at)});
    }
    made.blocks.emplace_back(std::move(zones));
    made.blocks.emplace_back(
        Words{fmt::format("Peroxide of the mix {:.1f} %. Minutes count from the first strand.",
                          bowl.peroxide_percent)});
  }
  made.blocks.emplace_back(Heading{"Before and while"});
  made.blocks.emplace_back(cautions_of(papers, course));
  return made;
}

Result<Document> quote(const VisitPapers& papers) {
  const auto found = course_of(papers);
  if (!found) return tl::unexpected(found.error());
  const plan::Course& course = **found;
  Document made = empty_sheet(papers, "Quote");
  made.blocks.emplace_back(Words{course.name, true});
  if (!course.sentence.empty()) made.blocks.emplace_back(Words{course.sentence});
  Rows rows{{"", "from", "to"}, {}, {3, 1, 1}};
  rows.rows.push_back(
      {course.visits == 1 ? "hours in the chair" : fmt::format("hours, {} visits", course.visits),
       hours(course.minutes.low), hours(course.minutes.high)});
  rows.rows.push_back({"price", money(papers, course.quote.low), money(papers, course.quote.high)});
  rows.rows.push_back({"keeping it for a year", about(papers, course.year_cost.low),
                       about(papers, course.year_cost.high)});
  made.blocks.emplace_back(std::move(rows));
  if (course.quote.deposit > 0) {
    made.blocks.emplace_back(
        Words{fmt::format("Deposit to hold the day: {}.", money(papers, course.quote.deposit))});
  }
  made.blocks.emplace_back(Heading{"How likely, and how it fades"});
  for (Swatches& three : result_swatches(papers, course)) {
    made.blocks.emplace_back(std::move(three));
  }
  made.blocks.emplace_back(Words{
      "Each zone: the darker end of what is likely, the likeliest, the lighter end. Paper and "
      "screens do not show colours as hair does: compare with a strand in daylight."});
  Bullets terms;
  terms.texts.push_back(
      "What is found on the day may change price and hours; it is said before "
      "anything goes on.");
  if (course.draft) {
    terms.texts.push_back("This is a draft: something must be tested or agreed first.");
  }
  made.blocks.emplace_back(Heading{"Terms"});
  made.blocks.emplace_back(std::move(terms));
  return made;
}

Result<Document> before(const VisitPapers& papers) {
  Document made = empty_sheet(papers, "Before you come");
  if (papers.plan && !papers.plan->plan.tests_to_make.empty()) {
    made.blocks.emplace_back(Heading{"Tests"});
    Rows rows{{"skin test of", "put on by", "read from"}, {}, {2, 1.4, 1.4}};
    for (const process::TestToMake& test : papers.plan->plan.tests_to_make) {
      rows.rows.push_back(
          {words_of(papers, test.colour.shade), when(test.apply_by), when(test.read_from)});
    }
    made.blocks.emplace_back(std::move(rows));
    made.blocks.emplace_back(
        Words{"A test that stays clear still misses some people who are allergic. Say at once if "
              "anything itches, burns or swells."});
  }
  made.blocks.emplace_back(Heading{"Hair"});
  // Common practice, no source, as data/process/care.csv has it.
  made.blocks.emplace_back(Bullets{{
      "Come with dry, detangled hair that was not washed today: its own oil shields the scalp.",
      "Take braids and twists down some days before, so that the scalp can rest.",
      "No relaxer or smoothing service in the two weeks before.",
      "Tell us of every colour, henna, relaxer and lightener of the last years, also at home.",
      "Tell us of any reaction to hair dye or to a black temporary tattoo, of medicines, and if "
      "you are pregnant.",
  }});
  made.blocks.emplace_back(Heading{"The day"});
  if (const auto course = course_of(papers)) {
    made.blocks.emplace_back(
        Words{fmt::format("Plan {} to {} hours. Bring food, water, and a "
                          "photo of the colour you like in daylight.",
                          hours((*course)->minutes.low), hours((*course)->minutes.high))});
  }
  made.blocks.emplace_back(
      Words{fmt::format("If your face swells or breathing is hard after a test, dial {} first.",
                        papers.salon.emergency_number)});
  return made;
}

Result<Document> consent(const VisitPapers& papers) {
  Document made = empty_sheet(papers, "Consent");
  made.blocks.emplace_back(Words{
      "I have been told, in words that I understand, what will be done to my hair today, what it "
      "may cost the fibre, what it costs, and what else could be done, leaving it alone "
      "included."});
  if (const auto course = course_of(papers)) {
    made.blocks.emplace_back(Words{(*course)->name, true});
    made.blocks.emplace_back(cautions_of(papers, **course));
  }
  made.blocks.emplace_back(Heading{"I say"});
  made.blocks.emplace_back(Bullets{{
      "that I told of every allergy, reaction, medicine and service that I know of;",
      "that I may stop at any time, and that I will say at once if anything burns or itches;",
      "that a clear skin test does not rule an allergy out;",
      "yes / no: the service as written above;",
      "yes / no: photos of my hair are kept with my record;",
      "yes / no: photos may be shown to others (my face: yes / no);",
      "yes / no: notes on my health are kept with my record, for as long as I am a client.",
  }});
  made.blocks.emplace_back(
      Words{"I can take each of these back at any time. This paper is no substitute for what the "
            "law asks where the salon is."});
  made.blocks.emplace_back(Blank{"name and signature, date"});
  made.blocks.emplace_back(Blank{"for the salon"});
  return made;
}

}  // namespace

Result<SheetKind> sheet_named(std::string_view word) {
  const auto at = std::ranges::find(kKinds, word);
  if (at != kKinds.end()) return static_cast<SheetKind>(at - kKinds.begin());
  std::string known;
  for (const std::string_view kind : kKinds)
    known += (known.empty() ? "" : ", ") + std::string(kind);
  return fail(ErrorCode::unknown_name, "\"" + std::string(word) + "\" is no sheet", "sheet",
              "give one of " + known);
}

Result<Document> sheet_of(SheetKind kind, const VisitPapers& papers) {
  Result<Document> made;
  switch (kind) {
    case SheetKind::bowls:
      made = bowls(papers);
      break;
    case SheetKind::card:
      made = card_sheet(papers);
      break;
    case SheetKind::aftercare:
      made = aftercare_sheet(papers);
      break;
    case SheetKind::quote:
      made = quote(papers);
      break;
    case SheetKind::consent:
      made = consent(papers);
      break;
    case SheetKind::before:
      made = before(papers);
      break;
  }
  if (made) made->blocks.emplace_back(Words{process::closing_advice()});
  return made;
}

}  // namespace hw::sheets
