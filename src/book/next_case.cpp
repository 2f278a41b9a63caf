#include "huewright/book/next_case.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/hair/words.h"
#include "huewright/process/shade.h"
#include "huewright/wire/json.h"

namespace hw::book {
namespace {

constexpr double kCmPerMicrometre = 1e-4;
constexpr double kDaysPerMonth = 365.25 / 12;  // mean Gregorian month, to 0.001 d
constexpr double kDaysPerWeek = 7;

using process::DyeClass;
using process::PartKind;

const process::Product* product_of(std::span<const OnShelf> shelf, const std::string& id) {
  const auto at =
      std::ranges::find_if(shelf, [&](const OnShelf& on) { return on.product.product.id == id; });
  return at == shelf.end() ? nullptr : &at->product.product;
}

bool oxidative(const process::Product& product) {
  return product.kind == PartKind::colour &&
         (product.dye_class == DyeClass::demi || product.dye_class == DyeClass::permanent);
}

/// What the bowls of a visit did to a zone.
struct Done {
  bool lightened = false, permanent = false, demi = false, direct = false;
};

Done done_to(const VisitState& visit, const std::string& zone, std::span<const OnShelf> shelf) {
  Done done;
  for (const BowlState& bowl : visit.bowls) {
    if (std::ranges::find(bowl.zones, zone) == bowl.zones.end()) continue;
    for (const auto& [id, grams] : bowl.grams) {
      const process::Product* product = product_of(shelf, id);
      if (product == nullptr || grams <= 0) continue;
      done.lightened = done.lightened || product->kind == PartKind::lightener;
      if (product->kind != PartKind::colour || product->tone == "clear") continue;
      done.permanent = done.permanent || product->dye_class == DyeClass::permanent;
      done.demi = done.demi || product->dye_class == DyeClass::demi;
      done.direct = done.direct || product->dye_class == DyeClass::direct ||
                    product->dye_class == DyeClass::cationic;
    }
  }
  return done;
}

/// The tone words a zone's old colour is kept by.
std::string old_tone(const colour::HairLab& lab) {
  std::string tone = hair::describe(lab).tone;
  for (const char* known : {"red", "copper", "ash"}) {
    if (tone == known) return tone;
  }
  return "neutral";
}

void add_past(plan::ZoneCase& zone, const Done& done) {
  zone.past.lightened += done.lightened ? 1 : 0;
  zone.past.permanent_colours += done.permanent ? 1 : 0;
  zone.past.demi_colours += done.demi ? 1 : 0;
  // A lift takes most of what was there; what was put on after it is the old colour now.
  if (!done.permanent && !done.demi && !done.direct) return;
  plan::OldColour old;
  old.kind = done.permanent || done.demi ? process::OldDye::oxidative : process::OldDye::direct;
  if (zone.readings.front().lab) old.tone = old_tone(*zone.readings.front().lab);
  zone.past.old_colour = old;
}

/// What the planned colour lost after so many washes, linear between those that were foreseen.
colour::HairLab fade_shift(const PlannedZone& planned, double washes) {
  colour::HairLab before{};
  double before_wash = 0;
  for (const FadedTo& after : planned.fade) {
    const colour::HairLab shift{after.lab[0] - planned.lab[0], after.lab[1] - planned.lab[1],
                                after.lab[2] - planned.lab[2]};
    if (washes <= after.wash) {
      const double part = (washes - before_wash) / (after.wash - before_wash);
      return {before.l + part * (shift.l - before.l), before.a + part * (shift.a - before.a),
              before.b + part * (shift.b - before.b)};
    }
    before = shift;
    before_wash = after.wash;
  }
  return before;  // beyond the last: what is left fades slowly
}

/// How a zone looks now: as it came out, or as was planned, and faded since.
plan::Reading reading_now(const VisitState& visit, const plan::ZoneCase& zone, double washes,
                          const hair::Ladder& ladder, std::vector<std::string>& told) {
  const auto found = visit.outcomes.find(zone.name);
  const auto planned = std::ranges::find(visit.plan->zones, zone.name, &PlannedZone::zone);
  const bool has_plan = planned != visit.plan->zones.end();
  const colour::HairLab shift = has_plan ? fade_shift(*planned, washes) : colour::HairLab{};
  if (found != visit.outcomes.end() && found->second.lab) {
    const auto& lab = *found->second.lab;
    told.push_back(fmt::format("{}: as it was measured, after {:.0f} washes", zone.name, washes));
    return {plan::Reader::instrument,
            hair::Moisture::dry,
            {},
            colour::HairLab{lab[0] + shift.l, lab[1] + shift.a, lab[2] + shift.b}};
  }
  if (found != visit.outcomes.end() && found->second.level) {
    const double lstar = ladder.lstar_of(*found->second.level) + shift.l;
    told.push_back(fmt::format("{}: level {:g} as it was read, after {:.0f} washes", zone.name,
                               *found->second.level, washes));
    return {plan::Reader::eye, hair::Moisture::dry, ladder.level_of(lstar), {}};
  }
  if (has_plan) {
    told.push_back(fmt::format("{}: nobody read how it came out; as planned, after {:.0f} washes",
                               zone.name, washes));
    return {plan::Reader::eye, hair::Moisture::dry, ladder.level_of(planned->lab[0] + shift.l), {}};
  }
  told.push_back(zone.name + ": as before, nothing was planned for it");
  return zone.readings.front();
}

double trimmed(const VisitState& visit, const std::string& zone) {
  const auto whole = visit.trimmed_cm.find("");
  const auto own = visit.trimmed_cm.find(zone);
  return (whole == visit.trimmed_cm.end() ? 0 : whole->second) +
         (own == visit.trimmed_cm.end() ? 0 : own->second);
}

bool untouched(const plan::ZoneCase& zone) {
  return zone.past.lightened == 0 && zone.past.permanent_colours == 0 &&
         zone.past.demi_colours == 0 && !zone.past.old_colour;
}

/// A section's hair as it has grown: what was at the scalp stands further out, with new hair before
/// it. before: the section's zones as they were planned; they tell the natural level.
void grow(std::vector<plan::ZoneCase>& zones, const plan::ZoneCase& before, double grown_cm,
          std::vector<std::string>& told) {
  if (grown_cm <= 0) return;
  for (plan::ZoneCase& zone : zones) {
    zone.from_cm += grown_cm;
    zone.to_cm += grown_cm;
  }
  const bool natural = untouched(before);
  if (grown_cm < kLeastRegrowth || !natural) {
    zones.front().from_cm = 0;
    if (grown_cm >= kLeastRegrowth) {
      told.push_back(fmt::format("{}: {:.1f} cm grew in, but no natural level is known: read it",
                                 before.name, grown_cm));
    }
    return;
  }
  plan::ZoneCase grown = before;
  grown.name = "regrowth";
  if (before.section != "whole head") grown.name += " " + before.section;
  grown.from_cm = 0;
  grown.to_cm = grown_cm;
  grown.facts.stretch = {};
  grown.facts.strand_test = process::StrandTest::none;
  told.push_back(fmt::format("{}: {:.1f} cm grown in, as {} was before it was coloured", grown.name,
                             grown_cm, before.name));
  zones.insert(zones.begin(), grown);
}

/// Cuts the ends of a section.
void cut(std::vector<plan::ZoneCase>& zones, double cm, std::vector<std::string>& told) {
  if (cm <= 0 || zones.empty()) return;
  const double end = zones.back().to_cm - cm;
  std::erase_if(zones, [&](const plan::ZoneCase& zone) { return zone.from_cm >= end; });
  if (zones.empty()) return;
  zones.back().to_cm = end;
  told.push_back(fmt::format("{}: {:g} cm were cut off the ends", zones.back().section, cm));
}

/// Facts of one day do not hold on another.
void forget_today(plan::ZoneCase& zone) {
  zone.facts.lightened_on_scalp_today = false;
  zone.facts.lightener_minutes_today = {};
  zone.facts.stretch = {};
  zone.facts.strand_test = process::StrandTest::none;
  zone.facts.braids_just_taken_down = false;
  zone.facts.wear_high_90 = {};
  zone.facts.wet_strength_ratio = {};
  zone.water_held_g_per_g = 0;
}

struct Since {
  double days = 0, washes = 0, grown_cm = 0;
};

Since since_of(const plan::Case& head, const ClientState& client, const process::Moment& then,
               const process::Moment& now) {
  Since since;
  since.days = process::days_between(process::local_date(then), process::local_date(now));
  since.washes = since.days / kDaysPerWeek * head.habits.washes_per_week;
  const double cm_per_day = client.person.growth_cm_per_month
                                ? *client.person.growth_cm_per_month / kDaysPerMonth
                                : head.habits.growth_um_per_day * kCmPerMicrometre;
  since.grown_cm = since.days * cm_per_day;
  return since;
}

/// The zones of the next visit, section by section in the order of the case.
std::vector<plan::ZoneCase> zones_now(const plan::Case& head, const VisitState& visit,
                                      const Since& since, std::span<const OnShelf> shelf,
                                      std::vector<std::string>& told) {
  std::vector<plan::ZoneCase> all;
  std::vector<std::string> sections;
  for (const plan::ZoneCase& zone : head.zones) {
    if (std::ranges::find(sections, zone.section) == sections.end()) {
      sections.push_back(zone.section);
    }
  }
  for (const std::string& section : sections) {
    std::vector<plan::ZoneCase> zones;
    for (const plan::ZoneCase& before : head.zones) {
      if (before.section != section) continue;
      plan::ZoneCase zone = before;
      zone.readings = {reading_now(visit, before, since.washes, head.ladder, told)};
      add_past(zone, done_to(visit, zone.name, shelf));
      forget_today(zone);
      zones.push_back(std::move(zone));
    }
    const auto first = std::ranges::find(head.zones, section, &plan::ZoneCase::section);
    const bool at_scalp = first->from_cm <= 0;
    const bool coloured = !untouched(zones.front());
    cut(zones, trimmed(visit, zones.back().name), told);
    if (zones.empty()) continue;
    if (at_scalp && coloured) {
      grow(zones, *first, since.grown_cm, told);
    } else {
      zones.back().to_cm += since.grown_cm;
    }
    all.insert(all.end(), zones.begin(), zones.end());
  }
  return all;
}

process::Moment moment_of(const std::string& text) {
  const auto read = process::moment_from_iso(text);
  HW_CHECK(read.has_value());  // checked() passed it
  return *read;
}

}  // namespace

Result<std::vector<OnShelf>> shelf_of(Store& store) {
  const auto stock = store.stock();
  if (!stock) return tl::unexpected(stock.error());
  std::vector<OnShelf> shelf;
  for (const StockLine& line : *stock) {
    const auto facts = store.facts_of(About::product, line.product);
    if (!facts) return tl::unexpected(facts.error());
    OnShelf on;
    for (const Fact& fact : in_force(*facts)) {
      if (fact.kind == ProductFact::kKind) on.product = body_of<ProductFact>(fact);
      if (fact.kind != OpenedFact::kKind) continue;
      on.opened_at = fact.at;
      on.lot = body_of<OpenedFact>(fact).lot;
    }
    on.product.product.id = line.product;
    on.grams = line.grams;
    on.known = line.known;
    shelf.push_back(std::move(on));
  }
  return shelf;
}

process::TestsRecord tests_of(const ClientState& client, std::span<const VisitState> visits,
                              std::span<const OnShelf> shelf) {
  process::TestsRecord record;
  for (const auto& test : client.skin_tests) {
    process::SkinTestRecord one;
    one.colour = {test.body.product, test.body.shade};
    one.applied = moment_of(test.body.applied_at);
    if (!test.body.read_at.empty() && !test.body.result.empty()) {
      one.read = moment_of(test.body.read_at);
      one.result =
          test.body.result == "clear" ? process::SkinTest::clear : process::SkinTest::positive;
    }
    record.skin_tests.push_back(one);
  }
  for (const VisitState& visit : visits) {
    if (visit.booked.starts_at.empty()) continue;
    process::ColourVisit coloured{moment_of(visit.booked.starts_at), {}};
    for (const BowlState& bowl : visit.bowls) {
      for (const auto& [id, grams] : bowl.grams) {
        const process::Product* product = product_of(shelf, id);
        if (product == nullptr || grams <= 0 || !oxidative(*product)) continue;
        coloured.colours.push_back({product->name.empty() ? id : product->name, id});
      }
    }
    if (!coloured.colours.empty()) record.visits.push_back(coloured);
  }
  for (const auto& past : client.hair_past) {
    if (past.body.when.empty() ||
        (past.body.service != "relaxer" && past.body.service != "smoothing")) {
      continue;
    }
    const auto date = process::date_from_iso(past.body.when);
    if (date && (!record.last_relaxer_or_smoothing || *record.last_relaxer_or_smoothing < *date)) {
      record.last_relaxer_or_smoothing = *date;
    }
  }
  return record;
}

void put_known(const ClientState& client, std::span<const VisitState> visits,
               std::span<const OnShelf> shelf, wire::CaseFile& file) {
  plan::Case& head = file.head;
  head.person = person_of(client, head.person);
  head.tests = tests_of(client, visits, shelf);
  head.shelf.clear();
  for (const OnShelf& on : shelf) {
    head.shelf.push_back(on.product.product);
    head.shelf.back().stock.reset();  // nobody counted: plenty
    if (on.known) head.shelf.back().stock = Grams(std::max(0.0, on.grams));
  }
  file.shelf_file.clear();
}

Result<NextCase> next_case(const ClientState& client, std::span<const VisitState> visits,
                           std::span<const OnShelf> shelf, const process::Moment& at) {
  // A visit that is only booked, this one for a start, has changed nothing yet.
  const auto last = std::ranges::find_if(visits, [&](const VisitState& visit) {
    const bool happened =
        visit.stage == VisitStage::under_way || visit.stage == VisitStage::finished;
    return visit.plan && happened &&
           (visit.booked.starts_at.empty() || moment_of(visit.booked.starts_at) < at);
  });
  if (last == visits.end()) {
    return fail(ErrorCode::missing, "no visit of this client has a plan to go on from", "client",
                "plan the first visit from a case file");
  }
  auto file = wire::decode<wire::CaseFile>(last->plan->case_json);
  if (!file) return tl::unexpected(file.error());
  const auto ready = wire::ready(*file);
  if (!ready) return tl::unexpected(ready.error());
  const process::Moment then = last->booked.starts_at.empty() ? ready->visit_at.value_or(at)
                                                              : moment_of(last->booked.starts_at);
  NextCase next{*std::move(file), {}};
  const Since since = since_of(*ready, client, then, at);
  next.told.push_back(fmt::format("last visit {}, {:.0f} days and about {:.0f} washes ago",
                                  process::iso_text(process::local_date(then)), since.days,
                                  since.washes));
  plan::Case& head = next.file.head;
  const std::vector<std::optional<wire::TargetGiven>> targets = next.file.zone_targets;
  const std::vector<plan::ZoneCase> before = head.zones;
  head.zones = zones_now(*ready, *last, since, shelf, next.told);
  next.file.zone_targets.assign(head.zones.size(), std::nullopt);
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    const auto old = std::ranges::find(before, head.zones[i].name, &plan::ZoneCase::name);
    const auto which = static_cast<std::size_t>(old - before.begin());
    if (which < targets.size()) next.file.zone_targets[i] = targets[which];
  }
  head.visit_at = at;
  head.asked_at.reset();
  put_known(client, visits, shelf, next.file);
  return next;
}

}  // namespace hw::book
