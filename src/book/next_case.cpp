#include "huewright/book/next_case.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/hair/words.h"
#include "huewright/process/shade.h"
#include "huewright/wire/json.h"
#include "next_zones.h"

namespace hw::book {
namespace {

constexpr double kCmPerMicrometre = 1e-4;
constexpr double kDaysPerMonth = 365.25 / 12;  // mean Gregorian month, to 0.001 d
constexpr double kDaysPerWeek = 7;

using process::DyeClass;
using process::PartKind;

bool oxidative(const process::Product& product) {
  return product.kind == PartKind::colour &&
         (product.dye_class == DyeClass::demi || product.dye_class == DyeClass::permanent);
}

Since since_of(const plan::Case& head, const ClientState& client, const process::Moment& then,
               const process::Moment& now) {
  Since since;
  // Two offsets may give one evening two dates.
  since.days =
      std::max(0, process::days_between(process::local_date(then), process::local_date(now)));
  since.washes = since.days / kDaysPerWeek * head.habits.washes_per_week;
  const double cm_per_day = client.person.growth_cm_per_month
                                ? *client.person.growth_cm_per_month / kDaysPerMonth
                                : head.habits.growth_um_per_day * kCmPerMicrometre;
  since.grown_cm = since.days * cm_per_day;
  return since;
}

/// What a gram costs: by size and price where both are known, else as the chemistry says.
double price_of_gram(const ProductFact& fact) {
  return fact.size_g > 0 && fact.price > 0 ? fact.price / fact.size_g : fact.product.price_per_g;
}

/// A section's hair next to the scalp as the last of these plans found it untouched.
std::optional<plan::ZoneCase> natural_before(std::span<const VisitState> visits,
                                             const std::string& section) {
  for (const VisitState& visit : visits) {
    if (!visit.plan) continue;
    const auto file = wire::decode<wire::CaseFile>(visit.plan->case_json);
    if (!file) continue;
    for (const plan::ZoneCase& zone : file->head.zones) {
      if (zone.section == section && zone.from_cm <= 0 && untouched(zone)) return zone;
    }
  }
  return {};
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
        const process::Product* product = product_on(shelf, id);
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
    head.shelf.back().price_per_g = price_of_gram(on.product);
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
  const NaturalHair natural = [&](const std::string& section) {
    return natural_before(visits.subspan(static_cast<std::size_t>(last - visits.begin()) + 1),
                          section);
  };
  head.zones.clear();
  next.file.zone_targets.clear();
  for (NextZone& one : next_zones(*ready, *last, since, natural, shelf, next.told)) {
    const auto old = std::ranges::find(before, one.wish_of, &plan::ZoneCase::name);
    const auto which = static_cast<std::size_t>(old - before.begin());
    next.file.zone_targets.push_back(which < targets.size() ? targets[which] : std::nullopt);
    head.zones.push_back(std::move(one.zone));
  }
  head.visit_at = at;
  head.asked_at.reset();
  put_known(client, visits, shelf, next.file);
  return next;
}

}  // namespace hw::book
