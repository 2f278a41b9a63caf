#include "huewright/book/lessons.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "describe_parts.h"
#include "huewright/book/drills.h"
#include "huewright/plan/belief.h"
#include "huewright/process/bowl.h"
#include "huewright/process/moment.h"

namespace hw::book {
namespace {

using process::PartKind;

const ProductFact* product_of(std::span<const OnShelf> shelf, const std::string& id) {
  const auto at =
      std::ranges::find_if(shelf, [&](const OnShelf& on) { return on.product.product.id == id; });
  return at == shelf.end() ? nullptr : &at->product;
}

/// A bowl as it was weighed; empty where a product is not known any more or nothing oxidises.
std::optional<process::Application> mixed(const BowlState& bowl, std::span<const OnShelf> shelf,
                                          const plan::Case& head) {
  process::Bowl made;
  bool lightener = false;
  for (const auto& [id, grams] : bowl.grams) {
    const ProductFact* product = product_of(shelf, id);
    if (product == nullptr || grams <= 0) return {};
    process::Part part;
    part.kind = product->product.kind;
    part.grams = Grams(grams);
    part.peroxide = product->product.peroxide;
    made.parts.push_back(part);
    lightener = lightener || part.kind == PartKind::lightener;
  }
  const auto mix = process::mix_bowl(made);
  if (!mix || mix->peroxide.value() <= 0) return {};
  process::Application application;
  application.peroxide_percent = mix->peroxide.value();
  application.powder_percent = mix->powder.value();
  application.alkaline = lightener;
  application.mix_per_hair = plan::pick_up_of(head, lightener);
  application.temperature_c = head.room_c;
  return application;
}

/// Who read the zones for the plan that counts.
std::string planner_of(std::span<const Fact> facts) {
  std::string by;
  for (const Fact& fact : facts) {
    if (fact.kind == PlanFact::kKind) by = fact.by;
  }
  return by;
}

struct Stroke {
  std::string bowl, zone;
  double at = 0;   ///< of its middle, minutes from the first stroke of the visit
  double end = 0;  ///< likewise, of the rinse or the next bowl
};

/// When each bowl went on each zone and came off.
std::vector<Stroke> strokes_of(std::span<const Fact> facts, double longest_min) {
  const std::string first = first_stroke(facts);
  std::vector<Stroke> strokes;
  for (const Fact& fact : facts) {
    if (fact.kind == ApplyFact::kKind) {
      const auto apply = body_of<ApplyFact>(fact);
      const double at = minutes_between(first, fact.at);
      Stroke* open = nullptr;
      for (Stroke& stroke : strokes) {
        if (stroke.zone == apply.zone && stroke.bowl == apply.bowl)
          open = &stroke;
        else if (stroke.zone == apply.zone)
          stroke.end = std::min(stroke.end, at);
      }
      if (open == nullptr) {
        strokes.push_back({apply.bowl, apply.zone, at, at + longest_min});
      } else if (apply.on == "done") {
        open->at = (open->at + at) / 2;  // from the first strand to the last
      }
    } else if (fact.kind == RinseFact::kKind && !first.empty()) {
      const auto rinse = body_of<RinseFact>(fact);
      const double at = minutes_between(first, fact.at);
      for (Stroke& stroke : strokes) {
        if (rinse.zone.empty() || rinse.zone == stroke.zone) stroke.end = std::min(stroke.end, at);
      }
    }
  }
  return strokes;
}

/// Grams of each weighed bowl beside those the plan's course reckoned are not kept apart by bowl;
/// the lightener's and the colour's sums are, by what was left over.
std::vector<plan::AmountFact> amounts_of(const VisitState& visit, const plan::Case& head) {
  double poured = 0;
  double left = 0;
  for (const BowlState& bowl : visit.bowls) {
    for (const auto& [product, grams] : bowl.grams) poured += grams;
    left += bowl.left_over_g;
  }
  if (!visit.plan || visit.plan->reckoned_g <= 0 || poured - left <= 0) return {};
  return {{visit.id, std::string(kSalonName), visit.plan->reckoned_g, poured - left,
           head.salon.amount_factor}};
}

}  // namespace

double minutes_between(const std::string& from, const std::string& to) {
  constexpr double kSecondsPerMinute = 60;
  const auto first = process::moment_from_iso(from);
  const auto second = process::moment_from_iso(to);
  HW_CHECK(first && second);  // checked() passed them
  return static_cast<double>((second->utc - first->utc).count()) / kSecondsPerMinute;
}

std::string first_stroke(std::span<const Fact> facts) {
  std::string first;
  for (const Fact& fact : facts) {
    if (fact.kind != ApplyFact::kKind) continue;
    if (first.empty() || minutes_between(first, fact.at) < 0) first = fact.at;
  }
  return first;
}

std::vector<plan::ZoneRun> runs_of(std::span<const Fact> facts, std::span<const OnShelf> shelf,
                                   const plan::Case& head) {
  const std::vector<Fact> now = in_force(facts);
  const VisitState visit = visit_of(facts);
  const std::vector<Stroke> strokes = strokes_of(now, head.longest_min);
  std::vector<plan::ZoneRun> runs;
  for (const plan::ZoneCase& zone : head.zones) {
    plan::ZoneRun run{zone.name, false, {}};
    for (const Stroke& stroke : strokes) {
      if (stroke.zone != zone.name) continue;
      const auto bowl = std::ranges::find(visit.bowls, stroke.bowl, &BowlState::name);
      auto application = mixed(*bowl, shelf, head);
      if (!application) continue;
      application->minutes = std::max(0.0, stroke.end - stroke.at);
      run.bowls.push_back({*application, stroke.at});
    }
    if (!run.bowls.empty()) runs.push_back(std::move(run));
  }
  return runs;
}

std::optional<plan::CheckReading> check_reading(const Fact& fact, const std::string& first) {
  plan::CheckReading check;
  if (fact.kind == StrandTestFact::kKind) {
    const auto test = body_of<StrandTestFact>(fact);
    if (!test.level || test.minutes <= 0) return {};
    check.minute = test.minutes;
    check.zone = test.zone;
    check.level = test.level;
    check.reader = fact.by;
    check.strand_test = true;  // how dry it was is not written down: it is wiped to be read
    return check;
  }
  if (fact.kind != ReadingFact::kKind || first.empty()) return {};
  const auto reading = body_of<ReadingFact>(fact);
  if (reading.when != "check" || (!reading.level && !reading.lab)) return {};
  check.zone = reading.zone;
  check.level = reading.level;
  if (reading.lab)
    check.lab = colour::HairLab{(*reading.lab)[0], (*reading.lab)[1], (*reading.lab)[2]};
  check.seen = reading.seen == "wet"     ? hair::Moisture::wet
               : reading.seen == "wiped" ? hair::Moisture::wiped
                                         : hair::Moisture::dry;
  check.reader = reading.reader;
  check.minute = std::max(0.0, minutes_between(first, fact.at));
  return check;
}

std::vector<plan::CheckReading> checks_of(std::span<const Fact> facts) {
  const std::vector<Fact> now = in_force(facts);
  const std::string first = first_stroke(now);
  std::vector<plan::CheckReading> readings;
  for (const Fact& fact : now) {
    if (fact.kind != ReadingFact::kKind) continue;
    if (auto check = check_reading(fact, first)) readings.push_back(*std::move(check));
  }
  return readings;
}

Result<LessonFact> lesson_of(std::span<const Fact> facts, std::span<const OnShelf> shelf,
                             Executor& executor) {
  const VisitState visit = visit_of(facts);
  if (!visit.plan) {
    return fail(ErrorCode::missing, "the visit has no plan to compare with", "visit " + visit.id,
                "plan it with: huewright visit plan");
  }
  const auto file = wire::decode<wire::CaseFile>(visit.plan->case_json);
  if (!file) return tl::unexpected(file.error());
  const auto head = wire::ready(*file);
  if (!head) return tl::unexpected(head.error());
  LessonFact lesson;
  lesson.amounts = amounts_of(visit, *head);
  const auto readings = checks_of(facts);
  if (readings.empty()) return lesson;
  auto zones = plan::believe(*head, executor);
  if (!zones) return tl::unexpected(zones.error());
  plan::warm_by_scalp(*head, *zones);
  const auto fact =
      plan::fact_of({visit.id, visit.client, std::string(kSalonName), planner_of(facts)}, *head,
                    *zones, runs_of(facts, shelf, *head), readings, executor);
  if (!fact) return tl::unexpected(fact.error());
  if (!fact->readings.empty()) lesson.visits.push_back(*fact);
  return lesson;
}

PlanMade plan_made(std::span<const Fact> facts) {
  PlanMade made;
  for (const Fact& fact : in_force(facts)) {
    if (fact.kind != PlanFact::kKind) continue;
    std::string text = body_of<PlanFact>(fact).case_json;
    if (text == made.case_json) continue;
    made = {std::move(text), fact.by, fact.at};
  }
  return made;
}

Result<plan::Facts> lessons_for(Store& store, const std::string& client, const std::string& until,
                                const std::string& but_visit) {
  plan::Facts facts;
  std::set<std::string> seen;
  const auto end = process::moment_from_iso(until);
  const auto take = [&](const Fact& fact) {
    const auto at = process::moment_from_iso(fact.at);
    if (end && at && at->utc > end->utc) return;
    if (!but_visit.empty() && fact.subject == but_visit) return;
    if (fact.kind != LessonFact::kKind || !seen.insert(fact.subject).second) return;
    const auto lesson = body_of<LessonFact>(fact);
    if (lesson.version != plan::kLearnVersion) return;
    facts.visits.insert(facts.visits.end(), lesson.visits.begin(), lesson.visits.end());
    facts.amounts.insert(facts.amounts.end(), lesson.amounts.begin(), lesson.amounts.end());
  };
  const auto visits = store.visits_of(client);
  if (!visits) return tl::unexpected(visits.error());
  for (const VisitLine& visit : *visits) {
    const auto own = store.facts_of(About::visit, visit.id);
    if (!own) return tl::unexpected(own.error());
    const auto now = in_force(*own);
    // The last lesson of a visit counts: it may have been learned again.
    for (auto fact = now.rbegin(); fact != now.rend(); ++fact) take(*fact);
  }
  const auto latest = store.latest_of(LessonFact::kKind, kLatestLessons);
  if (!latest) return tl::unexpected(latest.error());
  for (const Fact& fact : *latest) take(fact);
  const auto eyes = eyes_of(store, until);
  if (!eyes) return tl::unexpected(eyes.error());
  for (const plan::ReaderEye& eye : *eyes) facts.practice.push_back(plan::practice_of(eye));
  return facts;
}

Result<plan::Learned> learned_for(Store& store, const std::string& client, const std::string& until,
                                  const std::string& but_visit) {
  const auto facts = lessons_for(store, client, until, but_visit);
  if (!facts) return tl::unexpected(facts.error());
  return plan::learn(*facts);
}

}  // namespace hw::book
