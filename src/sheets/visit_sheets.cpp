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

/// What still stands against pouring this course; empty: nothing, whatever stands against others.
std::string what_stands_against(const VisitPapers& papers, const plan::Course& course) {
  if (!course.draft) return {};
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
    for (const process::Refusal& caution : *found)
      list.texts.push_back(retold(papers, caution.text));
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
  made.blocks.emplace_back(Words{retold(papers, course.name), true});
  if (!papers.day_png.empty()) {
    made.blocks.emplace_back(Picture{papers.day_png, say(papers, "The strand through the visit.")});
  }
  int number = 0;
  for (const plan::CourseBowl& bowl : course.bowls) {
    const std::string which = std::to_string(++number);
    const std::string what = say(papers, name_of(bowl.purpose));
    made.blocks.emplace_back(Heading{
        course.visits > 1
            ? say(papers, "Bowl {0}, visit {1}: {2}", {which, std::to_string(bowl.visit), what})
            : say(papers, "Bowl {0}: {1}", {which, what})});
    Rows pours{all_of(papers, {"pour", "grams"}), {}, {3, 1}};
    for (const plan::BowlPart& part : bowl.parts) {
      pours.rows.push_back(
          {words_of(papers, part.id), grams(papers, bowl.poured.grams_of(part.id))});
    }
    pours.rows.push_back({bowl.mixes > 1 ? say(papers, "together, mixed fresh {0} times",
                                               {std::to_string(bowl.mixes)})
                                         : say(papers, "together"),
                          grams(papers, bowl.poured.grams)});
    made.blocks.emplace_back(std::move(pours));
    Rows zones{
        all_of(papers, {"zone", "on at", "look at", "off at", "never after"}), {}, {2, 1, 2, 1, 1}};
    for (const plan::BowlZone& zone : bowl.zones) {
      std::string looks;
      for (const double minute : zone.times.checks_at) {
        looks += (looks.empty() ? "" : ", ") + minutes(minute);
      }
      zones.rows.push_back({retold(papers, head.zones[zone.zone].name),
                            minutes(zone.times.apply_at), looks.empty() ? "–" : looks,
                            minutes(zone.times.stop_at), minutes(zone.times.hard_stop_at)});
    }
    made.blocks.emplace_back(std::move(zones));
    made.blocks.emplace_back(
        Words{say(papers, "Peroxide of the mix {0} %. Minutes count from the first strand.",
                  {figure(papers, bowl.peroxide_percent, 1)})});
  }
  made.blocks.emplace_back(Heading{say(papers, "Before and while")});
  made.blocks.emplace_back(cautions_of(papers, course));
  return made;
}

Result<Document> quote(const VisitPapers& papers) {
  const auto found = course_of(papers);
  if (!found) return tl::unexpected(found.error());
  const plan::Course& course = **found;
  Document made = empty_sheet(papers, "Quote");
  made.blocks.emplace_back(Words{retold(papers, course.name), true});
  if (!course.sentence.empty()) made.blocks.emplace_back(Words{retold(papers, course.sentence)});
  Rows rows{all_of(papers, {"", "from", "to"}), {}, {3, 1, 1}};
  rows.rows.push_back({course.visits == 1
                           ? say(papers, "hours in the chair")
                           : say(papers, "hours, {0} visits", {std::to_string(course.visits)}),
                       hours(papers, course.minutes.low), hours(papers, course.minutes.high)});
  rows.rows.push_back(
      {say(papers, "price"), money(papers, course.quote.low), money(papers, course.quote.high)});
  rows.rows.push_back({say(papers, "keeping it for a year"), about(papers, course.year_cost.low),
                       about(papers, course.year_cost.high)});
  made.blocks.emplace_back(std::move(rows));
  if (course.quote.deposit > 0) {
    made.blocks.emplace_back(
        Words{say(papers, "Deposit to hold the day: {0}.", {money(papers, course.quote.deposit)})});
  }
  made.blocks.emplace_back(Heading{say(papers, "How likely, and how it fades")});
  for (Swatches& three : result_swatches(papers, course)) {
    made.blocks.emplace_back(std::move(three));
  }
  made.blocks.emplace_back(Words{
      say(papers,
          "Each zone: the darker end of what is likely, the likeliest, the lighter end. Paper and "
          "screens do not show colours as hair does: compare with a strand in daylight.")});
  Bullets terms;
  terms.texts.push_back(
      say(papers,
          "What is found on the day may change price and hours; it is said before "
          "anything goes on."));
  if (course.draft) {
    terms.texts.push_back(
        say(papers, "This is a draft: something must be tested or agreed first."));
  }
  made.blocks.emplace_back(Heading{say(papers, "Terms")});
  made.blocks.emplace_back(std::move(terms));
  return made;
}

/// Tests that the course needs; all that were named, while none is chosen.
std::vector<process::TestToMake> tests_of(const VisitPapers& papers) {
  if (!papers.plan) return {};
  std::vector<process::TestToMake> tests = papers.plan->plan.tests_to_make;
  const auto course = course_of(papers);
  if (!course) return tests;
  std::erase_if(tests, [&](const process::TestToMake& test) {
    return std::ranges::none_of((*course)->bowls, [&](const plan::CourseBowl& bowl) {
      return std::ranges::any_of(
          bowl.parts, [&](const plan::BowlPart& part) { return part.id == test.colour.shade; });
    });
  });
  return tests;
}

void put_tests(Document& made, const VisitPapers& papers) {
  const auto tests = tests_of(papers);
  if (tests.empty()) return;
  made.blocks.emplace_back(Heading{say(papers, "Tests")});
  Rows rows{all_of(papers, {"skin test of", "put on by", "read from"}), {}, {2, 1.4, 1.4}};
  const auto visit = process::moment_from_iso(papers.visit.booked.starts_at);
  bool waits = false;
  for (const process::TestToMake& test : tests) {
    std::string on = when(papers, test.apply_by);
    std::string read = when(papers, test.read_from);
    if (test.only_read) {
      on = "–";
    } else if (test.too_late) {
      on = say(papers, "now");
    } else if (visit) {
      // Whenever it is put on: as long after as the last moment lies before the visit.
      const double hours = process::hours_between(test.apply_by, *visit);
      read = say(papers, "{0} hours later", {figure(papers, hours, 0)});
    }
    waits = waits || test.too_late;
    rows.rows.push_back({words_of(papers, test.colour.shade), on, read});
  }
  made.blocks.emplace_back(std::move(rows));
  if (waits) {
    made.blocks.emplace_back(
        Words{say(papers, "The visit waits until a test may be read, and is booked anew."), true});
  }
  made.blocks.emplace_back(
      Words{say(papers,
                "A test that stays clear still misses some people who are allergic. Say at once if "
                "anything itches, burns or swells.")});
}

Result<Document> before(const VisitPapers& papers) {
  Document made = empty_sheet(papers, "Before you come");
  put_tests(made, papers);
  made.blocks.emplace_back(Heading{say(papers, "Hair")});
  // Common practice, no source, as data/process/care.csv has it.
  made.blocks.emplace_back(Bullets{all_of(
      papers,
      {
          "Come with dry, detangled hair that was not washed today: its own oil shields the scalp.",
          "Take braids and twists down some days before, so that the scalp can rest.",
          "No relaxer or smoothing service in the two weeks before.",
          "Tell us of every colour, henna, relaxer and lightener of the last years, also at home.",
          "Tell us of any reaction to hair dye or to a black temporary tattoo, of medicines, and "
          "if "
          "you are pregnant.",
      })});
  made.blocks.emplace_back(Heading{say(papers, "The day")});
  if (const auto course = course_of(papers)) {
    made.blocks.emplace_back(Words{
        say(papers,
            "Plan {0} to {1} hours. Bring food, water, and a photo of the colour you like "
            "in daylight.",
            {hours(papers, (*course)->minutes.low), hours(papers, (*course)->minutes.high)})});
  }
  made.blocks.emplace_back(
      Words{say(papers, "If your face swells or breathing is hard after a test, dial {0} first.",
                {papers.salon.emergency_number})});
  return made;
}

Result<Document> consent(const VisitPapers& papers) {
  Document made = empty_sheet(papers, "Consent");
  made.blocks.emplace_back(Words{say(
      papers,
      "I have been told, in words that I understand, what will be done to my hair today, what it "
      "may cost the fibre, what it costs, and what else could be done, leaving it alone "
      "included.")});
  if (const auto course = course_of(papers)) {
    made.blocks.emplace_back(Words{retold(papers, (*course)->name), true});
    made.blocks.emplace_back(cautions_of(papers, **course));
  }
  made.blocks.emplace_back(Heading{say(papers, "I say")});
  made.blocks.emplace_back(Bullets{all_of(
      papers,
      {
          "that I told of every allergy, reaction, medicine and service that I know of;",
          "that I may stop at any time, and that I will say at once if anything burns or itches;",
          "that a clear skin test does not rule an allergy out;",
          "yes / no: the service as written above;",
          "yes / no: photos of my hair are kept with my record;",
          "yes / no: photos may be shown to others (my face: yes / no);",
          "yes / no: notes on my health are kept with my record, for as long as I am a client.",
      })});
  made.blocks.emplace_back(Words{
      say(papers,
          "I can take each of these back at any time. This paper is no substitute for what the "
          "law asks where the salon is.")});
  made.blocks.emplace_back(Blank{say(papers, "name and signature, date")});
  made.blocks.emplace_back(Blank{say(papers, "for the salon")});
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
  if (made) made->blocks.emplace_back(Words{say(papers, process::closing_advice())});
  return made;
}

}  // namespace hw::sheets
