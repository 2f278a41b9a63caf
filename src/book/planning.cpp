#include "huewright/book/planning.h"

#include "huewright/book/salon.h"
#include "huewright/plan/learn.h"

namespace hw::book {
namespace {

std::array<double, 3> triple(const colour::HairLab& lab) {
  return {lab.l, lab.a, lab.b};
}

/// A case that says all it needs itself: its shelf, and its colours where a list of the salon's own
/// looks named them.
wire::CaseFile whole(wire::CaseFile file, const plan::Case& head) {
  file.shelf_file.clear();
  if (file.looks.empty()) return file;
  const auto as_colour = [](std::optional<wire::TargetGiven>& given,
                            const std::optional<plan::Target>& target) {
    if (!given || !target || given->source != plan::TargetSource::look) return;
    given = wire::TargetGiven{plan::TargetSource::colour, {}, triple(target->centre)};
  };
  as_colour(file.target, head.target);
  for (std::size_t i = 0; i < file.zone_targets.size(); ++i) {
    as_colour(file.zone_targets[i], head.zones[i].target);
  }
  file.looks_file.clear();
  return file;
}

template <class Facts>
Result<std::vector<VisitState>> visits(Store& store, const std::string& client,
                                       const Facts& facts_of) {
  const auto lines = store.visits_of(client);
  if (!lines) return tl::unexpected(lines.error());
  std::vector<VisitState> states;
  for (const VisitLine& line : *lines) {
    const auto facts = facts_of(line);
    if (!facts) return tl::unexpected(facts.error());
    states.push_back(visit_of(*facts));
  }
  return states;
}

}  // namespace

Result<std::vector<VisitState>> visits_of(Store& store, const std::string& client) {
  return visits(store, client,
                [&](const VisitLine& visit) { return store.facts_of(About::visit, visit.id); });
}

Result<std::vector<VisitState>> visits_but_plans(Store& store, const std::string& client) {
  return visits(store, client,
                [&](const VisitLine& visit) { return store.facts_but_plans(visit.id); });
}

Result<NextCase> next_case_of(Store& store, const std::string& client, const process::Moment& at) {
  const auto line = store.client(client);
  if (!line) return tl::unexpected(line.error());
  const auto facts = store.facts_of(About::client, client);
  if (!facts) return tl::unexpected(facts.error());
  const auto visits = visits_of(store, client);
  if (!visits) return tl::unexpected(visits.error());
  const auto shelf = shelf_of(store);
  if (!shelf) return tl::unexpected(shelf.error());
  return next_case(client_of(*facts), *visits, *shelf, at);
}

Result<void> put_salon(Store& store, wire::CaseFile& file) {
  const auto facts = store.facts_of(About::salon, kSalonSubject);
  if (!facts) return tl::unexpected(facts.error());
  if (facts->empty()) return {};  // nobody set the salon up: the case may say
  const auto salon = salon_of(store);
  if (!salon) return tl::unexpected(salon.error());
  file.head.salon = salon->plan;
  return {};
}

Result<void> fill_case(Store& store, const std::string& client, wire::CaseFile& file) {
  const auto line = store.client(client);
  if (!line) return tl::unexpected(line.error());
  const auto facts = store.facts_of(About::client, client);
  if (!facts) return tl::unexpected(facts.error());
  const auto visits = visits_but_plans(store, client);
  if (!visits) return tl::unexpected(visits.error());
  const auto shelf = shelf_of(store);
  if (!shelf) return tl::unexpected(shelf.error());
  put_known(client_of(*facts), *visits, *shelf, file);
  return put_salon(store, file);
}

PlanFact plan_fact(const std::string& program, const wire::CaseFile& file,
                   const wire::PlanAnswer& answer, std::size_t course) {
  PlanFact fact;
  fact.program = program;
  fact.constants = "tables of " + program + ", learning " + std::to_string(plan::kLearnVersion);
  fact.seed = static_cast<double>(answer.head.seed);
  fact.course = static_cast<double>(course);
  fact.case_json = wire::encode(whole(file, answer.head));
  fact.answer_json = wire::encode(answer);
  if (course == 0) return fact;
  const plan::Course& chosen = answer.plan.courses[course - 1];
  // Of this visit, and by the factor the case itself states: a lesson is compared with that.
  const double stated = file.head.salon.amount_factor / answer.head.salon.amount_factor;
  for (const plan::CourseBowl& bowl : chosen.bowls) {
    if (bowl.visit > 1) continue;
    for (const plan::BowlZone& zone : bowl.zones) fact.reckoned_g += zone.grams * stated;
  }
  for (const plan::CourseZone& zone : chosen.zones) {
    PlannedZone planned;
    planned.zone = zone.zone;
    planned.level = zone.result.level.mid;
    planned.level_low = zone.result.level.low;
    planned.level_high = zone.result.level.high;
    planned.lab = triple(zone.result.lab);
    for (const plan::FadedZone& faded : chosen.fade) {
      if (faded.zone != zone.zone) continue;
      planned.fade.push_back({static_cast<double>(faded.wash), triple(faded.lab)});
    }
    fact.zones.push_back(std::move(planned));
  }
  return fact;
}

}  // namespace hw::book
