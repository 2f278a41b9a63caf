#include "from_book.h"

#include "huewright/plan/learn.h"

namespace hw::apps {
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

}  // namespace

Result<std::vector<book::VisitState>> visits_of(book::Folder& book, const std::string& client) {
  const auto lines = book.store().visits_of(client);
  if (!lines) return tl::unexpected(lines.error());
  std::vector<book::VisitState> visits;
  for (const book::VisitLine& line : *lines) {
    const auto facts = book.store().facts_of(book::About::visit, line.id);
    if (!facts) return tl::unexpected(facts.error());
    visits.push_back(book::visit_of(*facts));
  }
  return visits;
}

Result<book::NextCase> next_case_of(book::Folder& book, const std::string& client,
                                    const process::Moment& at) {
  const auto line = book.store().client(client);
  if (!line) return tl::unexpected(line.error());
  const auto facts = book.store().facts_of(book::About::client, client);
  if (!facts) return tl::unexpected(facts.error());
  const auto visits = visits_of(book, client);
  if (!visits) return tl::unexpected(visits.error());
  const auto shelf = book::shelf_of(book.store());
  if (!shelf) return tl::unexpected(shelf.error());
  return book::next_case(book::client_of(*facts), *visits, *shelf, at);
}

book::PlanFact plan_fact(const wire::CaseFile& file, const wire::PlanAnswer& answer,
                         std::size_t course) {
  book::PlanFact fact;
  fact.program = HW_VERSION;
  fact.constants = "tables of " HW_VERSION ", learning " + std::to_string(plan::kLearnVersion);
  fact.seed = static_cast<double>(answer.head.seed);
  fact.course = static_cast<double>(course);
  fact.case_json = wire::encode(whole(file, answer.head));
  fact.answer_json = wire::encode(answer);
  if (course == 0) return fact;
  const plan::Course& chosen = answer.plan.courses[course - 1];
  for (const plan::CourseBowl& bowl : chosen.bowls) {
    for (const plan::BowlZone& zone : bowl.zones) fact.reckoned_g += zone.grams;
  }
  for (const plan::CourseZone& zone : chosen.zones) {
    book::PlannedZone planned{zone.zone, zone.result.level.mid, triple(zone.result.lab), {}};
    for (const plan::FadedZone& faded : chosen.fade) {
      if (faded.zone != zone.zone) continue;
      planned.fade.push_back({static_cast<double>(faded.wash), triple(faded.lab)});
    }
    fact.zones.push_back(std::move(planned));
  }
  return fact;
}

}  // namespace hw::apps
