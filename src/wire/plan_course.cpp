// How `plan` writes a course.
#include <algorithm>

#include "huewright/hair/words.h"
#include "plan_writing.h"

namespace hw::wire {
namespace {

void put_items(Object& object, const plan::CourseBowl& bowl) {
  put_list<plan::BowlPart>(object, "items", "in steps of the scale, all mixes together", bowl.parts,
                           [&](Object& item, const plan::BowlPart& part) {
                             put_text(item, "product", "id on the shelf, or water", part.id);
                             put(item, "grams", "mass", bowl.poured.grams_of(part.id));
                           });
}

void put_bowl_zone(Object& object, const plan::BowlZone& zone, const plan::Case& head) {
  const plan::ZoneTimes& times = zone.times;
  put_text(object, "zone", "as in the case", head.zones[zone.zone].name);
  put(object, "apply_at_min", "first strand goes on", times.apply_at);
  put(object, "applied_by_min", "last strand goes on", times.applied_by);
  put(object, "stop_at_min", "is wiped or rinsed, its last strand", times.stop_at);
  put(object, "wipe_from_min", "its first strand is wiped; the stop where all is rinsed at once",
      times.wipe_from);
  put(object, "hard_stop_at_min", "never longer", times.hard_stop_at);
  std::vector<double> checks = times.checks_at;
  numbers(object.required("checks_at_min", "looks"), checks, kAnyCount);
  put_band(object, "minutes", "of chemistry on its middle strand", zone.stop_min);
  put(object, "slack_early_min", "could stop so much sooner and still hit", times.slack_early);
  put(object, "slack_late_min", "could stay so much longer and still hit", times.slack_late);
}

void put_bowl(Object& object, const plan::CourseBowl& bowl, const plan::Case& head) {
  put(object, "visit", "number of the visit", bowl.visit);
  put_text(object, "purpose", "what it is for", std::string(name_of(bowl.purpose)));
  put(object, "fresh_mixes", "mixed this often, in equal shares", bowl.mixes);
  put_items(object, bowl);
  put(object, "peroxide_percent", "of the ready mix", bowl.peroxide_percent);
  put(object, "powder_percent", "of the ready mix", bowl.powder_percent);
  put(object, "bowls_mixed", "so that none is older than its label allows",
      static_cast<double>(bowl.poured.bowls.size()));
  put(object, "cost", "of what is poured", bowl.cost);
  put_list<plan::BowlZone>(
      object, "zones", "in the case's order", bowl.zones,
      [&](Object& fields, const plan::BowlZone& zone) { put_bowl_zone(fields, zone, head); });
}

/// Level, colour and words.
void put_depth(Object& object, const plan::ColourBand& band, const plan::Case& head) {
  put_band(object, "level", "depth", band.level);
  put_lab(object, "lab", "the likely colour, D65 and 10°", band.lab);
  put_lab(object, "lab_low", "mean of the members nearest the 10 % of L*", band.lab_low);
  put_lab(object, "lab_high", "mean of the members nearest the 90 % of L*", band.lab_high);
  put_text(object, "words", "in words", hair::sentence(hair::describe(band.lab, head.ladder)));
}

void put_zone(Object& object, const plan::Course& course, std::size_t z, const plan::Case& head) {
  const plan::CourseZone& zone = course.zones[z];
  put_text(object, "zone", "as in the case", zone.zone);
  object.required("now", "as it is today, pigmented strands").object([&](Object& now) {
    put_depth(now, zone.now, head);
  });
  put(object, "white_percent", "white strands", head.zones[z].white_percent);
  if (zone.after_lift) {
    object.required("after_lift", "at the rinse, pigmented strands").object([&](Object& then) {
      put_depth(then, *zone.after_lift, head);
    });
    put(object, "p_within_half_level", "chance that the lift ends within half a level of its aim",
        zone.reached_half);
  }
  put_flag(object, "left_alone", "no lift goes on it", zone.left_alone);
  if (head.target) {  // a lift alone ends with after_lift
    object.required("result", "as it is in the end, as seen").object([&](Object& result) {
      put_depth(result, zone.result, head);
      put(result, "expected_de00", "CIEDE2000 to the target", zone.expected_de00);
      put(result, "p_within_3", "chance of CIEDE2000 3 or less", zone.within_3);
    });
  }
  put_band(object, "wear", "share of cystine used in the fibre's life", zone.wear);
  put(object, "strength_left_low", "wet strength left of today's, 10 % quantile",
      zone.strength_left_low);
}

void put_visit(Object& object, const plan::VisitDay& day) {
  put_band(object, "minutes", "in the chair", day.minutes);
  put(object, "price_low", "to the client", day.price.low);
  put(object, "price_high", "to the client", day.price.high);
  put_list<plan::DayPart>(object, "blocks", "of the day", day.day.parts,
                          [](Object& fields, const plan::DayPart& part) {
                            put_text(fields, "block", "its name", part.block.id);
                            put_text(fields, "words", "what it holds", part.block.words);
                            put(fields, "starts_at_min", "from the first block", part.starts_at);
                            put_band(fields, "minutes", "how long", part.block.minutes);
                          });
  put_list<process::CareStep>(object, "care", "washing and treatment, in order", day.care,
                              [](Object& fields, const process::CareStep& step) {
                                put_text(fields, "step", "its name", step.id);
                                put_text(fields, "words", "what to do", step.words);
                              });
  if (day.twists) {
    object.required("twists", "styling").object([&](Object& fields) {
      put(fields, "parting_cm", "side of a square", day.twists->parting_cm);
      put(fields, "twists", "how many", day.twists->twists);
      put_band(fields, "minutes", "how long", day.twists->minutes);
      put_text(fields, "advice", "a sentence", day.twists->advice);
    });
  }
  put_band(object, "hood_min", "under the hood", day.hood_min);
  put_sentences(object, "notes", "of the clock", day.notes);
}

void put_fade(Object& object, const plan::FadedZone& faded) {
  put(object, "wash", "how many", static_cast<double>(faded.wash));
  put_text(object, "zone", "as in the case", faded.zone);
  put_lab(object, "lab", "the likely colour", faded.lab);
  put(object, "de00", "CIEDE2000 from wash 0", faded.de00);
  put(object, "de76", "CIE76 from wash 0", faded.de76);
}

void put_border(Object& object, const plan::BorderRisk& border) {
  put_text(object, "from", "nearer the scalp", border.from);
  put_text(object, "to", "further out", border.to);
  put(object, "expected_de00", "CIEDE2000 between them", border.expected_de00);
  put(object, "wanted_de00", "the movement asked for", border.wanted_de00);
  put(object, "p_shows", "chance of more than 3 beyond that", border.risk);
}

}  // namespace

void put_course(Object& object, const plan::Course& course, const plan::Case& head) {
  put_text(object, "name", "the bowls in words", course.name);
  put_text(object, "kind", "how it differs from others", std::string(name_of(course.kind)));
  put_text(object, "sentence", "its trade-off", course.sentence);
  put_flag(object, "draft", "something must be met or done first", course.draft);
  put(object, "visits", "how many", course.visits);
  put_band(object, "minutes", "in the chair, all visits", course.minutes);
  put(object, "cost_low", "to the client, all visits", course.cost.low);
  put(object, "cost_high", "to the client, all visits", course.cost.high);
  put_text(object, "quote", "as it is said", course.quote.sentence);
  put(object, "year_cost_low", "of keeping it for a year", course.year_cost.low);
  put(object, "year_cost_high", "of keeping it for a year", course.year_cost.high);
  put(object, "wear", "share of cystine used in the fibre's life, 90 % edge", course.wear_high);
  put(object, "wear_left", "before lightening stops, at that edge",
      std::max(0.0, plan::kWearLimit - course.wear_high));
  put(object, "slack_min", "the most hurried lift may be looked at so late before it misses",
      course.slack_min);
  if (head.target) {
    put(object, "p_within_3", "chance of CIEDE2000 3 or less in the least likely zone",
        course.within_3);
  }
  Findings found{course.refusals, course.cautions};
  describe_found(object, found);
  put_sentences(object, "notes", "what to know of it", course.notes);
  put_list<plan::CourseBowl>(
      object, "bowls", "in the order of use", course.bowls,
      [&](Object& fields, const plan::CourseBowl& bowl) { put_bowl(fields, bowl, head); });
  object.required("zones", "in the case's order")
      .list(
          kAnyCount, course.zones.size(), [](std::size_t) {},
          [&](std::size_t z, Value& entry) {
            entry.object([&](Object& fields) { put_zone(fields, course, z, head); });
          });
  if (head.target) {
    put_list<plan::FadedZone>(object, "fade", "what washing leaves", course.fade, put_fade);
  }
  put_list<plan::BorderRisk>(object, "borders", "where a band could show", course.borders,
                             put_border);
  put_list<plan::VisitDay>(object, "days", "one per visit", course.days, put_visit);
}

}  // namespace hw::wire
