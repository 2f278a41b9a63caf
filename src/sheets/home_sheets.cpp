// The record card and the sheet that goes home.
#include <fmt/format.h>

#include <algorithm>

#include "huewright/hair/words.h"
#include "huewright/wire/calendar.h"
#include "sheet_parts.h"

namespace hw::sheets {
namespace {

std::string level_words(const VisitPapers& papers, const std::optional<double>& level,
                        const std::string& tone, const std::optional<std::array<double, 3>>& lab) {
  std::string text;
  if (level) text = say(papers, "level {0}", {figure(papers, *level, 2)});
  if (!tone.empty()) text += (text.empty() ? "" : ", ") + retold(papers, tone);
  if (lab) {
    text += (text.empty() ? "" : ", ") +
            say(papers, "measured {0} {1} {2}",
                {figure(papers, (*lab)[0], 1), figure(papers, (*lab)[1], 1),
                 figure(papers, (*lab)[2], 1)});
  }
  return text.empty() ? "–" : text;
}

std::string clock(const std::string& at) {
  return at.size() >= 16 ? at.substr(11, 5) : at;
}

void put_readings(Document& made, const VisitPapers& papers) {
  const book::VisitState& visit = papers.visit;
  if (visit.readings.empty()) return;
  made.blocks.emplace_back(Heading{say(papers, "What was seen")});
  Rows rows{all_of(papers, {"at", "zone", "seen", "read", "by"}), {}, {0.7, 1, 0.8, 2, 1}};
  for (const auto& reading : visit.readings) {
    rows.rows.push_back(
        {clock(reading.at), retold(papers, reading.body.zone), say(papers, reading.body.seen),
         level_words(papers, reading.body.level, reading.body.tone, reading.body.lab),
         reading.body.reader.empty() ? reading.by : reading.body.reader});
  }
  made.blocks.emplace_back(std::move(rows));
}

void put_bowls(Document& made, const VisitPapers& papers) {
  if (papers.visit.bowls.empty()) return;
  made.blocks.emplace_back(Heading{say(papers, "What was poured")});
  Rows rows{
      all_of(papers, {"bowl", "product", "grams", "on", "left over"}), {}, {0.6, 2, 0.8, 1.4, 0.8}};
  for (const book::BowlState& bowl : papers.visit.bowls) {
    std::string zones;
    for (const std::string& zone : bowl.zones) {
      zones += (zones.empty() ? "" : ", ") + retold(papers, zone);
    }
    bool first = true;
    for (const auto& [product, poured] : bowl.grams) {
      rows.rows.push_back({first ? bowl.name : "", words_of(papers, product), grams(papers, poured),
                           first ? zones : "", first ? grams(papers, bowl.left_over_g) : ""});
      first = false;
    }
  }
  made.blocks.emplace_back(std::move(rows));
}

void put_outcomes(Document& made, const VisitPapers& papers) {
  if (papers.visit.outcomes.empty()) return;
  made.blocks.emplace_back(Heading{say(papers, "How it came out")});
  Rows rows{all_of(papers, {"zone", "read", "in words"}), {}, {1, 2, 2}};
  Swatches found;
  const hair::Ladder& ladder = papers.plan ? papers.plan->head.ladder : hair::default_ladder();
  for (const auto& [zone, outcome] : papers.visit.outcomes) {
    std::string words = outcome.words;
    if (outcome.lab) {
      const colour::HairLab lab{(*outcome.lab)[0], (*outcome.lab)[1], (*outcome.lab)[2]};
      if (words.empty()) words = colour_words(papers, hair::describe(lab, ladder));
      found.swatches.push_back({lab, retold(papers, zone)});
    }
    rows.rows.push_back({retold(papers, zone),
                         level_words(papers, outcome.level, outcome.tone, outcome.lab), words});
  }
  if (!found.swatches.empty()) made.blocks.emplace_back(std::move(found));
  made.blocks.emplace_back(std::move(rows));
}

void put_follows_for_ever(Document& made, const VisitPapers& papers) {
  const book::ClientState& client = papers.client;
  if (client.allergies.empty()) return;
  Bullets list;
  for (const auto& allergy : client.allergies) {
    list.texts.push_back(say(papers, "Reacted to {0} {1}: {2}",
                             {retold(papers, allergy.body.to), allergy.body.substance,
                              retold(papers, allergy.body.happened)}));
  }
  made.blocks.emplace_back(Heading{say(papers, "Follows this client")});
  made.blocks.emplace_back(std::move(list));
}

void put_mishaps(Document& made, const VisitPapers& papers) {
  const book::VisitState& visit = papers.visit;
  Bullets list;
  for (const auto& pain : visit.pains) {
    list.texts.push_back(
        say(papers, "{0} pain, {1}: {2}", {clock(pain.at), pain.body.place, pain.body.done}));
  }
  for (const auto& reaction : visit.reactions) {
    list.texts.push_back(say(papers, "{0} reaction, {1}: {2}. {3}",
                             {reaction.at.substr(0, 10), reaction.body.place, reaction.body.seen,
                              reaction.body.advice}));
  }
  for (const auto& change : visit.changes) {
    list.texts.push_back(
        say(papers, "{0} changed: {1}, for {2}; agreed by {3}",
            {clock(change.at), change.body.change, change.body.why, change.body.agreed_by}));
  }
  if (list.texts.empty()) return;
  made.blocks.emplace_back(Heading{say(papers, "Changes, pain, reactions")});
  made.blocks.emplace_back(std::move(list));
}

/// The date to come again as a calendar entry that a telephone reads off the paper.
Code code_for(const VisitPapers& papers, const std::string& date) {
  wire::CalendarEntry entry;
  entry.uid = papers.visit.id + "-refresh@huewright";
  entry.day = *process::date_from_iso(date);
  entry.summary = say(papers, "Colour refresh due");
  return {
      wire::write_calendar({&entry, 1}, std::chrono::sys_days(papers.today)),
      say(papers, "Colour refresh due {0}. A telephone's camera reads the date into a calendar.",
          {day(papers, *entry.day)})};
}

void put_fade(Document& made, const VisitPapers& papers, const plan::Course& course) {
  if (!papers.weeks_png.empty()) {
    made.blocks.emplace_back(
        Picture{papers.weeks_png,
                say(papers, "Your hair in the weeks to come: weeks across, scalp at the top.")});
  }
  const hair::Ladder& ladder = papers.plan->head.ladder;
  for (const plan::CourseZone& zone : course.zones) {
    Swatches swatches;
    const auto put = [&](std::size_t wash, const colour::HairLab& lab) {
      swatches.swatches.push_back({lab, say(papers, "{0}, wash {1}: {2}",
                                            {retold(papers, zone.zone), std::to_string(wash),
                                             colour_words(papers, hair::describe(lab, ladder))})});
    };
    put(0, zone.result.lab);
    for (const plan::FadedZone& faded : course.fade) {
      if (faded.zone == zone.zone && faded.wash <= 20) put(faded.wash, faded.lab);
    }
    if (swatches.swatches.size() > 1) made.blocks.emplace_back(std::move(swatches));
  }
}

}  // namespace

Result<Document> card_sheet(const VisitPapers& papers) {
  Document made = empty_sheet(papers, "Record card");
  put_follows_for_ever(made, papers);
  if (papers.plan && papers.course < papers.plan->plan.courses.size()) {
    made.blocks.emplace_back(Heading{say(papers, "What was planned")});
    made.blocks.emplace_back(Words{retold(papers, papers.plan->plan.courses[papers.course].name)});
  }
  put_readings(made, papers);
  put_bowls(made, papers);
  put_outcomes(made, papers);
  put_mishaps(made, papers);
  if (papers.visit.price) {
    made.blocks.emplace_back(Heading{say(papers, "Money")});
    made.blocks.emplace_back(
        Words{say(papers, "Price {0}, paid {1}, owed {2}.",
                  {money(papers, *papers.visit.price), money(papers, papers.visit.paid),
                   money(papers, papers.visit.owed())})});
  }
  if (papers.visit.aftercare) {
    made.blocks.emplace_back(Heading{say(papers, "Advice given")});
    made.blocks.emplace_back(Words{papers.visit.aftercare->words});
  }
  return made;
}

Result<Document> aftercare_sheet(const VisitPapers& papers) {
  if (!papers.plan || papers.course >= papers.plan->plan.courses.size()) {
    return fail(ErrorCode::missing, "no course was chosen for this visit", "visit",
                "plan it: huewright visit plan");
  }
  const plan::Course& course = papers.plan->plan.courses[papers.course];
  Document made = empty_sheet(papers, "Your colour at home");
  put_fade(made, papers, course);
  made.blocks.emplace_back(Words{say(
      papers,
      "Colours on paper are near, not exact. How fast yours fades depends on how you wash it.")});
  made.blocks.emplace_back(Heading{say(papers, "Washing")});
  // Common practice, no source, as data/process/care.csv has it, but where a figure stands.
  made.blocks.emplace_back(Bullets{all_of(
      papers,
      {
          "First wash after one to three days. Then about once a week; red fades fastest, so three "
          "times a week at most.",
          "Lukewarm water, cool at the end. A mild shampoo that is not alkaline.",
          "Swimming: wet it with plain water and conditioner first, wear a cap, rinse at once.",
          "At night a satin cover; twist again where it has come loose.",
          "Sun takes colour out: a hat does more than a spray.",
          "A colour gloss or mask at home every four to six weeks brings it back between visits.",
      })});
  if (papers.visit.aftercare) {
    made.blocks.emplace_back(Heading{say(papers, "For you")});
    made.blocks.emplace_back(Words{papers.visit.aftercare->words});
    for (const auto& [date, what] :
         {std::pair(papers.visit.aftercare->refresh_on, "Colour refresh: {0}"),
          std::pair(papers.visit.aftercare->regrowth_on, "Regrowth: {0}")}) {
      if (!date.empty()) {
        made.blocks.emplace_back(
            Words{say(papers, what, {day(papers, *process::date_from_iso(date))}), true});
      }
    }
    if (!papers.visit.aftercare->refresh_on.empty()) {
      made.blocks.emplace_back(code_for(papers, papers.visit.aftercare->refresh_on));
    }
  }
  if (course.year_cost.high > 0) {
    made.blocks.emplace_back(
        Words{say(papers, "Keeping it for a year: about {0} to {1}.",
                  {about(papers, course.year_cost.low), about(papers, course.year_cost.high)})});
  }
  made.blocks.emplace_back(Heading{say(papers, "If something is wrong")});
  Bullets wrong{all_of(
      papers,
      {"Itching, redness, swelling or blisters: rinse with cool water, call us, see a doctor.",
       "Hair that snaps or feels gummy when wet: leave it alone and call us."})};
  wrong.texts.insert(wrong.texts.begin() + 1,
                     say(papers, "A swollen face or hard breathing: dial {0} first.",
                         {papers.salon.emergency_number}));
  made.blocks.emplace_back(std::move(wrong));
  return made;
}

}  // namespace hw::sheets
