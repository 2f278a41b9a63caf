#include "next_zones.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/hair/words.h"

namespace hw::book {
namespace {

using process::DyeClass;
using process::PartKind;

/// What the bowls of a visit did to a zone.
struct Done {
  bool lightened = false, permanent = false, demi = false, direct = false;
};

Done done_to(const VisitState& visit, const std::string& zone, std::span<const OnShelf> shelf) {
  Done done;
  for (const BowlState& bowl : visit.bowls) {
    if (std::ranges::find(bowl.zones, zone) == bowl.zones.end()) continue;
    for (const auto& [id, grams] : bowl.grams) {
      const process::Product* product = product_on(shelf, id);
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
    if (washes <= after.wash && after.wash > before_wash) {
      const double part = (washes - before_wash) / (after.wash - before_wash);
      return {before.l + part * (shift.l - before.l), before.a + part * (shift.a - before.a),
              before.b + part * (shift.b - before.b)};
    }
    before = shift;
    before_wash = after.wash;
  }
  return before;  // beyond the last: what is left fades slowly
}

/// A colour moved, and kept where a case may say it is.
colour::HairLab shifted(const std::array<double, 3>& lab, const colour::HairLab& shift) {
  constexpr double kMost = 128;  // of a* and b*, as in describe_parts
  return {std::clamp(lab[0] + shift.l, 0.0, 100.0), std::clamp(lab[1] + shift.a, -kMost, kMost),
          std::clamp(lab[2] + shift.b, -kMost, kMost)};
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
    return {plan::Reader::instrument, hair::Moisture::dry, {}, shifted(lab, shift)};
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

std::string of_section(const char* name, const plan::ZoneCase& zone) {
  return zone.section == "whole head" ? name : std::string(name) + " " + zone.section;
}

double lstar_of(const plan::Reading& reading, const hair::Ladder& ladder) {
  return reading.lab ? reading.lab->l : ladder.lstar_of(*reading.level);
}

/// Two zones that lie side by side as one, under the name of the outer; a border that two visits
/// have coloured over is none to look at any more.
plan::ZoneCase joined(const plan::ZoneCase& inner, const plan::ZoneCase& outer,
                      const hair::Ladder& ladder) {
  const double inner_cm = inner.to_cm - inner.from_cm;
  const double share = inner_cm / (inner_cm + outer.to_cm - outer.from_cm);
  const auto mix = [&](double a, double b) { return share * a + (1 - share) * b; };
  plan::ZoneCase both = outer;
  both.from_cm = inner.from_cm;
  const plan::Reading& near = inner.readings.front();
  const plan::Reading& far = outer.readings.front();
  if (near.lab && far.lab) {
    const bool photo = near.by == plan::Reader::photo;  // its doubt is the wider one
    plan::Reading mean = photo ? near : far;
    mean.lab = colour::HairLab{mix(near.lab->l, far.lab->l), mix(near.lab->a, far.lab->a),
                               mix(near.lab->b, far.lab->b)};
    both.readings = {mean};
  } else {
    const double lstar = mix(lstar_of(near, ladder), lstar_of(far, ladder));
    both.readings = {{plan::Reader::eye, hair::Moisture::dry, ladder.level_of(lstar), {}}};
  }
  both.past.lightened = std::max(inner.past.lightened, outer.past.lightened);
  both.past.permanent_colours =
      std::max(inner.past.permanent_colours, outer.past.permanent_colours);
  both.past.demi_colours = std::max(inner.past.demi_colours, outer.past.demi_colours);
  if (!both.past.old_colour || (inner.past.old_colour && share > 0.5)) {
    both.past.old_colour = inner.past.old_colour;
  }
  both.porosity = std::max(inner.porosity, outer.porosity);
  both.white_percent = mix(inner.white_percent, outer.white_percent);
  return both;
}

/// Makes room for new regrowth before that of the last visits.
void rename_regrowth(std::vector<NextZone>& zones, const hair::Ladder& ladder,
                     std::vector<std::string>& told) {
  const std::string new_name = of_section("regrowth", zones.front().zone);
  const std::string last_name = of_section("last regrowth", zones.front().zone);
  const auto named = [&](const std::string& name) {
    return std::ranges::find_if(zones, [&](const NextZone& one) { return one.zone.name == name; });
  };
  const auto regrowth = named(new_name);
  if (regrowth == zones.end()) return;
  const auto last = named(last_name);
  if (last != zones.end()) {
    // Cut off behind it: the two regrowths are all there is.
    const auto inner = std::next(last) == zones.end() ? regrowth : last;
    const auto outer = std::next(inner);
    told.push_back(fmt::format("{}: {:.1f} cm that grew before are counted with it",
                               outer->zone.name, inner->zone.to_cm - inner->zone.from_cm));
    outer->zone = joined(inner->zone, outer->zone, ladder);
    const bool done = inner == regrowth;
    zones.erase(inner);
    if (done) return;
  }
  named(new_name)->zone.name = last_name;
}

/// A section's hair as it has grown: what was at the scalp stands further out, with new hair before
/// it. before: the zone that was at the scalp, as it was planned.
void grow(std::vector<NextZone>& zones, const plan::ZoneCase& before, double grown_cm,
          const NaturalHair& natural, const hair::Ladder& ladder, std::vector<std::string>& told) {
  if (grown_cm <= 0) return;
  for (NextZone& one : zones) {
    one.zone.from_cm += grown_cm;
    one.zone.to_cm += grown_cm;
  }
  if (before.from_cm > 0) return;  // nobody ever looked at the hair next to the scalp
  const bool joins = !zones.empty() && (untouched(zones.front().zone) || grown_cm < kLeastRegrowth);
  const auto as_it_grows = joins               ? std::nullopt
                           : untouched(before) ? std::optional(before)
                                               : natural(before.section);
  if (as_it_grows) {
    if (!zones.empty()) rename_regrowth(zones, ladder, told);
    plan::ZoneCase grown = *as_it_grows;
    grown.name = of_section("regrowth", before);
    grown.from_cm = 0;
    grown.to_cm = grown_cm;
    forget_today(grown);
    told.push_back(fmt::format("{}: {:.1f} cm grown in, as {} was before it was coloured",
                               grown.name, grown_cm, as_it_grows->name));
    zones.insert(zones.begin(), {grown, before.name});
    return;
  }
  if (zones.empty()) return;
  zones.front().zone.from_cm = 0;
  if (!joins) {
    told.push_back(fmt::format("{}: {:.1f} cm grew in, but no natural level is known: read it",
                               before.name, grown_cm));
  }
}

/// Cuts the ends of a section.
void cut(std::vector<NextZone>& zones, double cm, std::vector<std::string>& told) {
  if (cm <= 0) return;
  const std::string section = zones.back().zone.section;
  const double end = zones.back().zone.to_cm - cm;
  std::erase_if(zones, [&](const NextZone& one) { return one.zone.from_cm >= end; });
  if (!zones.empty()) zones.back().zone.to_cm = end;
  told.push_back(fmt::format("{}: {:g} cm were cut off the ends", section, cm));
}

}  // namespace

std::vector<NextZone> next_zones(const plan::Case& head, const VisitState& visit,
                                 const Since& since, const NaturalHair& natural,
                                 std::span<const OnShelf> shelf, std::vector<std::string>& told) {
  std::vector<NextZone> all;
  std::vector<std::string> sections;
  for (const plan::ZoneCase& zone : head.zones) {
    if (std::ranges::find(sections, zone.section) == sections.end()) {
      sections.push_back(zone.section);
    }
  }
  for (const std::string& section : sections) {
    std::vector<plan::ZoneCase> planned;
    for (const plan::ZoneCase& zone : head.zones) {
      if (zone.section == section) planned.push_back(zone);
    }
    std::ranges::stable_sort(planned, {}, &plan::ZoneCase::from_cm);
    std::vector<NextZone> zones;
    for (const plan::ZoneCase& before : planned) {
      plan::ZoneCase zone = before;
      zone.readings = {reading_now(visit, before, since.washes, head.ladder, told)};
      add_past(zone, done_to(visit, zone.name, shelf));
      forget_today(zone);
      zones.push_back({std::move(zone), before.name});
    }
    cut(zones, trimmed(visit, planned.back().name), told);
    grow(zones, planned.front(), since.grown_cm, natural, head.ladder, told);
    std::ranges::move(zones, std::back_inserter(all));
  }
  return all;
}

bool untouched(const plan::ZoneCase& zone) {
  return zone.past.lightened == 0 && zone.past.permanent_colours == 0 &&
         zone.past.demi_colours == 0 && !zone.past.old_colour;
}

const process::Product* product_on(std::span<const OnShelf> shelf, const std::string& id) {
  const auto at =
      std::ranges::find_if(shelf, [&](const OnShelf& on) { return on.product.product.id == id; });
  return at == shelf.end() ? nullptr : &at->product.product;
}

}  // namespace hw::book
