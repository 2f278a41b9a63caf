#include "huewright/book/evidence.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "huewright/book/next_case.h"
#include "huewright/book/visit.h"

namespace hw::book {
namespace {

/// Sds from the middle to either end of a band that holds 8 in 10 of a normal.
constexpr double kBandSds = 1.2815515655;

Tally tally(const std::string& name, const std::vector<const Outcome*>& some) {
  Tally made;
  made.name = name;
  made.count = static_cast<int>(some.size());
  if (some.empty()) return made;
  for (const Outcome* one : some) {
    made.held += one->held() ? 1 : 0;
    made.mean_miss += one->miss();
    made.mean_width += one->predicted.high - one->predicted.low;
  }
  made.held /= made.count;
  made.mean_miss /= made.count;
  made.mean_width /= made.count;
  double squares = 0;
  for (const Outcome* one : some) squares += std::pow(one->miss() - made.mean_miss, 2);
  made.sd_miss = made.count > 1 ? std::sqrt(squares / (made.count - 1)) : 0;
  return made;
}

using Groups = std::map<std::string, std::vector<const Outcome*>>;

std::vector<Tally> tallies(const Groups& groups) {
  std::vector<Tally> all;
  for (const auto& [name, some] : groups) all.push_back(tally(name, some));
  return all;
}

/// The colours that went on a zone.
std::vector<std::string> shades_on(const VisitState& visit, const std::string& zone,
                                   std::span<const OnShelf> shelf) {
  std::vector<std::string> shades;
  for (const BowlState& bowl : visit.bowls) {
    if (std::ranges::find(bowl.zones, zone) == bowl.zones.end()) continue;
    for (const auto& [id, grams] : bowl.grams) {
      const auto on = std::ranges::find_if(
          shelf, [&](const OnShelf& one) { return one.product.product.id == id; });
      const bool colour = on != shelf.end() && grams > 0 &&
                          on->product.product.kind == process::PartKind::colour &&
                          on->product.product.tone != "clear";
      if (colour && std::ranges::find(shades, id) == shades.end()) shades.push_back(id);
    }
  }
  return shades;
}

double read_level(const plan::ZoneCase& zone, const hair::Ladder& ladder) {
  const plan::Reading& reading = zone.readings.front();
  if (reading.level) return *reading.level;
  return reading.lab ? ladder.level_of(reading.lab->l) : 0;
}

void add_outcomes(const VisitState& visit, std::span<const OnShelf> shelf,
                  std::vector<Outcome>& all) {
  if (!visit.plan || visit.outcomes.empty()) return;
  const auto file = wire::decode<wire::CaseFile>(visit.plan->case_json);
  if (!file) return;  // of a program that wrote cases in another way
  for (const PlannedZone& planned : visit.plan->zones) {
    const auto found = visit.outcomes.find(planned.zone);
    const auto zone = std::ranges::find(file->head.zones, planned.zone, &plan::ZoneCase::name);
    if (found == visit.outcomes.end() || zone == file->head.zones.end()) continue;
    if (!planned.level_low || !planned.level_high) continue;
    const OutcomeFact& outcome = found->second;
    if (!outcome.level && !outcome.lab) continue;
    Outcome one;
    one.visit = visit.id;
    one.at = visit.booked.starts_at;
    one.zone = planned.zone;
    one.reader = outcome.reader;
    one.shades = shades_on(visit, planned.zone, shelf);
    one.start_level = std::round(read_level(*zone, file->head.ladder));
    one.predicted = {*planned.level_low, planned.level, *planned.level_high};
    one.found = outcome.lab ? file->head.ladder.level_of((*outcome.lab)[0]) : *outcome.level;
    one.doubt = outcome.lab ? kInstrumentDoubt : kEyeDoubt;
    all.push_back(std::move(one));
  }
}

/// Who wrote an outcome, where nobody says who read it.
void name_readers(std::span<const Fact> facts, VisitState& visit) {
  for (const Fact& fact : in_force(facts)) {
    if (fact.kind != OutcomeFact::kKind) continue;
    const auto outcome = visit.outcomes.find(body_of<OutcomeFact>(fact).zone);
    if (outcome != visit.outcomes.end() && outcome->second.reader.empty()) {
      outcome->second.reader = fact.by;
    }
  }
}

}  // namespace

Band Outcome::expected_reading() const {
  const auto widened = [&](double edge) {
    const double sd = std::abs(edge - predicted.mid) / kBandSds;
    return kBandSds * std::sqrt(sd * sd + doubt * doubt);
  };
  return {predicted.mid - widened(predicted.low), predicted.mid,
          predicted.mid + widened(predicted.high)};
}

bool Outcome::held() const {
  const Band band = expected_reading();
  return found >= band.low && found <= band.high;
}

Evidence tallied(std::vector<Outcome> outcomes) {
  Evidence made;
  made.outcomes = std::move(outcomes);
  std::vector<const Outcome*> all;
  Groups zones, levels, readers, shades;
  for (const Outcome& one : made.outcomes) {
    all.push_back(&one);
    zones[one.zone].push_back(&one);
    levels[fmt::format("{:2.0f}", one.start_level)].push_back(&one);
    readers[one.reader].push_back(&one);
    for (const std::string& shade : one.shades) shades[shade].push_back(&one);
  }
  made.all = tally("all", all);
  made.by_zone = tallies(zones);
  made.by_start_level = tallies(levels);
  made.by_reader = tallies(readers);
  made.by_shade = tallies(shades);
  return made;
}

std::vector<Outcome> outcomes_of(std::span<const Fact> facts, std::span<const OnShelf> shelf) {
  VisitState visit = visit_of(facts);
  name_readers(facts, visit);
  std::vector<Outcome> outcomes;
  add_outcomes(visit, shelf, outcomes);
  return outcomes;
}

Result<Evidence> evidence_of(Store& store, const std::string& from) {
  const auto lines = store.visits_between(from, "~");
  if (!lines) return tl::unexpected(lines.error());
  const auto shelf = shelf_of(store);
  if (!shelf) return tl::unexpected(shelf.error());
  std::vector<Outcome> outcomes;
  for (const VisitLine& line : *lines) {
    if (line.stage != VisitStage::finished) continue;
    const auto facts = store.facts_of(About::visit, line.id);
    if (!facts) return tl::unexpected(facts.error());
    std::ranges::move(outcomes_of(*facts, *shelf), std::back_inserter(outcomes));
  }
  return tallied(std::move(outcomes));
}

}  // namespace hw::book
