// The steps of a visit.
#include "huewright/book/replay.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "describe_parts.h"
#include "huewright/plan/learn.h"
#include "huewright/process/moment.h"
#include "replay_parts.h"

namespace hw::book {
namespace {

constexpr std::array<std::string_view, 13> kKinds{"asked",  "planned", "bowl",    "on",   "check",
                                                  "tested", "stretch", "rinsed",  "pain", "change",
                                                  "result", "learned", "finished"};

std::string words_of(std::span<const OnShelf> shelf, const std::string& product) {
  const auto at = std::ranges::find_if(
      shelf, [&](const OnShelf& one) { return one.product.product.id == product; });
  return at == shelf.end() ? std::string() : at->product.product.words;
}

/// The course that was chosen; null where none can be told.
const plan::Course* chosen_of(const ReplaySource& source) {
  const auto index = chosen_course(source);
  return index ? &source.plan->courses[*index] : nullptr;
}

/// A bowl of the course by the name that a page gives it: its number from 1.
const plan::CourseBowl* planned_bowl(const plan::Course* course, const std::string& name) {
  if (course == nullptr) return nullptr;
  for (std::size_t b = 0; b < course->bowls.size(); ++b) {
    if (std::to_string(b + 1) == name) return &course->bowls[b];
  }
  return nullptr;
}

const plan::BowlZone* planned_zone(const plan::CourseBowl* bowl, const plan::Case& head,
                                   const std::string& zone) {
  if (bowl == nullptr) return nullptr;
  const auto at = std::ranges::find_if(
      bowl->zones, [&](const plan::BowlZone& one) { return head.zones[one.zone].name == zone; });
  return at == bowl->zones.end() ? nullptr : &*at;
}

class Telling {
 public:
  Telling(const ReplaySource& source, Executor& executor)
      : source_(source),
        now_(in_force(source.facts)),
        visit_(visit_of(source.facts)),
        course_(chosen_of(source)),
        looks_(source, course_, executor),
        first_(first_stroke(now_)) {
    std::ranges::stable_sort(now_, {}, [](const Fact& fact) {
      return process::moment_from_iso(fact.at).value_or(process::Moment{}).utc;
    });
  }

  std::vector<ReplayStep> steps() {
    // The plan comes first even where it was written down later, as from a paper card.
    for (const Fact& fact : now_) of_plan(fact);
    for (const Fact& fact : now_) {
      of_work(fact);
      of_looks(fact);
      of_end(fact);
    }
    return std::move(steps_);
  }

 private:
  ReplayStep& step(StepKind kind, const Fact& fact) {
    ReplayStep made;
    made.kind = kind;
    made.at = fact.at;
    made.by = fact.by;
    if (!first_.empty() && minutes_between(first_, fact.at) >= 0) {
      made.minute = minutes_between(first_, fact.at);
    }
    made.readings = looks_.counted();
    steps_.push_back(std::move(made));
    return steps_.back();
  }

  /// Several facts of one moment, such as the outcomes of all zones, are one step.
  ReplayStep& same_step(StepKind kind, const Fact& fact) {
    if (!steps_.empty() && steps_.back().kind == kind && steps_.back().at == fact.at) {
      return steps_.back();
    }
    return step(kind, fact);
  }

  /// The head and the plan, at the moment when the plan that stands was made.
  void of_plan(const Fact& fact) {
    if (fact.kind != PlanFact::kKind || planned_ || fact.at != plan_made(source_.facts).at) return;
    planned_ = true;
    ReplayStep& asked = step(StepKind::asked, fact);
    asked.told = wish_of(source_.head);
    asked.wrote = visit_.booked.wish;
    if (source_.plan) asked.zones = zones_now(source_);
    ReplayStep& plan = step(StepKind::planned, fact);
    if (source_.plan) put_plan(source_, course_, plan);
    for (ReplayStep& made : steps_) made.minute.reset();
    for (const PlannedZone& zone : visit_.plan->zones) {
      plan.zones.push_back(
          {zone.zone,
           {zone.level_low.value_or(zone.level), zone.level, zone.level_high.value_or(zone.level)},
           {},
           {},
           colour::HairLab{zone.lab[0], zone.lab[1], zone.lab[2]},
           {},
           {}});
    }
  }

  void of_work(const Fact& fact) {
    if (fact.kind == PourFact::kKind) {
      const auto pour = body_of<PourFact>(fact);
      if (mixed_.insert(pour.bowl).second) put_bowl(pour.bowl, step(StepKind::bowl, fact));
    } else if (fact.kind == ApplyFact::kKind) {
      const auto apply = body_of<ApplyFact>(fact);
      if (apply.on == "done") return;
      ReplayStep& on = step(StepKind::on, fact);
      on.bowl = apply.bowl;
      on.zone = apply.zone;
      const plan::CourseBowl* bowl = planned_bowl(course_, apply.bowl);
      if (bowl != nullptr) on.purpose = std::string(plan::name_of(bowl->purpose));
      const plan::BowlZone* zone = planned_zone(bowl, source_.head, apply.zone);
      if (zone != nullptr) on.planned_min = zone->times.apply_at;
      last_bowl_[apply.zone] = apply.bowl;
    } else if (fact.kind == RinseFact::kKind) {
      const auto rinse = body_of<RinseFact>(fact);
      ReplayStep& off = step(StepKind::rinsed, fact);
      off.zone = rinse.zone;
      off.wrote = rinse.why;
      const auto bowl = last_bowl_.find(rinse.zone);
      if (bowl != last_bowl_.end()) {
        off.bowl = bowl->second;
        off.planned_min = looks_.stop_of(bowl->second, rinse.zone);
      }
    }
  }

  void put_bowl(const std::string& name, ReplayStep& into) const {
    into.bowl = name;
    const plan::CourseBowl* bowl = planned_bowl(course_, name);
    std::set<std::string> named;
    if (bowl != nullptr) {
      into.purpose = std::string(plan::name_of(bowl->purpose));
      for (const plan::BowlPart& part : bowl->parts) {
        if (!named.insert(part.id).second) continue;
        into.parts.push_back(
            {part.id, words_of(source_.shelf, part.id), bowl->poured.grams_of(part.id), 0});
      }
    }
    const auto made = std::ranges::find(visit_.bowls, name, &BowlState::name);
    if (made == visit_.bowls.end()) return;
    into.left_over_g = made->left_over_g;
    for (const auto& [product, grams] : made->grams) {
      auto part = std::ranges::find(into.parts, product, &ReplayPart::product);
      if (part == into.parts.end()) {
        part = into.parts.insert(part, {product, words_of(source_.shelf, product), 0, 0});
      }
      part->poured_g = grams;
    }
  }

  void of_looks(const Fact& fact) {
    if (fact.kind == StretchFact::kKind) {
      const auto stretch = body_of<StretchFact>(fact);
      ReplayStep& made = step(StepKind::stretch, fact);
      made.zone = stretch.zone;
      made.answer = stretch.worst;
    }
    if (!check_reading(fact, first_) || taken_.contains(fact.id)) return;
    std::vector<Fact> looks;  // all of this moment
    for (const Fact& other : now_) {
      if (other.kind != fact.kind || other.at != fact.at || !check_reading(other, first_)) continue;
      looks.push_back(other);
      taken_.insert(other.id);
    }
    const bool test = fact.kind == StrandTestFact::kKind;
    looks_.take(looks, step(test ? StepKind::tested : StepKind::check, fact));
    steps_.back().readings = looks_.counted();
  }

  void of_end(const Fact& fact) {
    if (fact.kind == PainFact::kKind) {
      const auto pain = body_of<PainFact>(fact);
      step(StepKind::pain, fact).wrote = pain.place + (pain.done.empty() ? "" : ": " + pain.done);
    } else if (fact.kind == ChangeFact::kKind) {
      const auto change = body_of<ChangeFact>(fact);
      step(StepKind::change, fact).wrote =
          change.change + (change.why.empty() ? "" : ": " + change.why);
    } else if (fact.kind == OutcomeFact::kKind) {
      put_outcome(fact, same_step(StepKind::result, fact));
    } else if (fact.kind == LessonFact::kKind) {
      step(StepKind::learned, fact).told = lessons_told(source_, visit_);
    } else if (fact.kind == FinishedFact::kKind) {
      step(StepKind::finished, fact).wrote = body_of<FinishedFact>(fact).notes;
    }
  }

  void put_outcome(const Fact& fact, ReplayStep& into) const {
    const auto outcome = body_of<OutcomeFact>(fact);
    ReplayZone zone;
    zone.zone = outcome.zone;
    zone.reader = outcome.reader.empty() ? fact.by : outcome.reader;
    zone.seen = "dry";
    zone.found = outcome.level;
    if (outcome.lab) {
      zone.lab = colour::HairLab{(*outcome.lab)[0], (*outcome.lab)[1], (*outcome.lab)[2]};
      zone.found = source_.head.ladder.level_of(zone.lab->l);
    }
    if (!zone.found) return;
    zone.level = {*zone.found, *zone.found, *zone.found};
    for (const Outcome& one : outcomes_of(source_.facts, source_.shelf)) {
      if (one.zone != outcome.zone) continue;
      zone.level = one.expected_reading();
      zone.held = one.held();
    }
    into.zones.push_back(std::move(zone));
  }

  const ReplaySource& source_;
  std::vector<Fact> now_;
  VisitState visit_;
  const plan::Course* course_;
  ReplayLooks looks_;
  std::string first_;  ///< moment of the first stroke
  bool planned_ = false;
  std::set<std::string> mixed_, taken_;
  std::map<std::string, std::string> last_bowl_;  ///< that went on a zone
  std::vector<ReplayStep> steps_;
};

}  // namespace

std::string_view name_of(StepKind kind) {
  return kKinds.at(static_cast<std::size_t>(kind));
}

Result<ReplaySource> replay_source(Store& store, const std::string& visit) {
  ReplaySource source;
  const auto line = store.visit(visit);
  if (!line) return tl::unexpected(line.error());
  auto facts = store.facts_of(About::visit, visit);
  if (!facts) return tl::unexpected(facts.error());
  source.facts = *std::move(facts);
  auto shelf = shelf_of(store);
  if (!shelf) return tl::unexpected(shelf.error());
  source.shelf = *std::move(shelf);
  std::string end;
  for (const Fact& fact : in_force(source.facts)) {
    if (fact.kind == LessonFact::kKind) end = fact.at;
  }
  auto lessons = lessons_for(store, line->client, end);
  if (!lessons) return tl::unexpected(lessons.error());
  source.lessons = *std::move(lessons);
  const PlanMade made = plan_made(source.facts);
  if (made.case_json.empty()) return source;
  const auto file = wire::decode<wire::CaseFile>(made.case_json);
  if (!file) return tl::unexpected(file.error());
  const auto head = wire::ready(*file);
  if (!head) return tl::unexpected(head.error());
  const auto learned = learned_for(store, line->client, made.at, visit);
  if (!learned) return tl::unexpected(learned.error());
  source.head = plan::with_learned(*head, *learned,
                                   {visit, line->client, std::string(kSalonName), made.reader});
  return source;
}

Result<std::size_t> chosen_course(const ReplaySource& source) {
  const VisitState visit = visit_of(source.facts);
  if (!source.plan || !visit.plan || visit.plan->course < 1) {
    return fail(ErrorCode::conflict, "no course was chosen for this visit", "visit",
                "look at one that was planned");
  }
  const auto index = static_cast<std::size_t>(visit.plan->course) - 1;
  if (index >= source.plan->courses.size()) {
    return fail(ErrorCode::conflict, "the plan that was chosen cannot be made any more", "visit",
                "look at what was recorded");
  }
  return index;
}

std::vector<plan::CheckReading> replay_readings(std::span<const Fact> facts, std::size_t count) {
  std::vector<Fact> now = in_force(facts);
  const std::string first = first_stroke(now);
  std::ranges::stable_sort(now, {}, [](const Fact& fact) {
    return process::moment_from_iso(fact.at).value_or(process::Moment{}).utc;
  });
  // As steps take them: all looks of one moment and kind together.
  std::vector<plan::CheckReading> readings;
  std::set<std::string> taken;
  for (const Fact& fact : now) {
    for (const Fact& other : now) {
      if (other.kind != fact.kind || other.at != fact.at || taken.contains(other.id)) continue;
      const auto reading = check_reading(other, first);
      if (!reading) continue;
      taken.insert(other.id);
      readings.push_back(*reading);
    }
  }
  readings.resize(std::min(readings.size(), count));
  return readings;
}

Replay replay_of(const ReplaySource& source, Executor& executor) {
  const VisitState visit = visit_of(source.facts);
  return {visit.id, visit.booked.starts_at, Telling(source, executor).steps()};
}

}  // namespace hw::book
