#include "cleared.h"

#include <algorithm>

#include "course_pick.h"
#include "huewright/base/random.h"
#include "huewright/plan/day_sheet.h"
#include "huewright/process/remover.h"

namespace hw::plan {
namespace {

constexpr double kEnough = 0.5;  // level: nearer than an eye tells

const process::Product* first_of(const Case& head, process::PartKind kind) {
  const auto at = std::find_if(head.shelf.begin(), head.shelf.end(),
                               [&](const process::Product& one) { return one.kind == kind; });
  return at == head.shelf.end() ? nullptr : &*at;
}

/// One round of a product on some zones.
CourseBowl round_of(const process::Product& product, Purpose purpose, const Band& minutes,
                    const std::vector<std::size_t>& zones, const Case& head) {
  CourseBowl bowl;
  bowl.purpose = purpose;
  bowl.parts = {{product.id, product.kind, 1}};
  for (const std::size_t z : zones) {
    BowlZone zone;
    zone.zone = z;
    zone.stop_min = minutes;
    bowl.zones.push_back(zone);
    bowl.on_scalp = bowl.on_scalp || head.zones[z].from_cm <= 0;
  }
  return bowl;
}

std::vector<std::size_t> with_minerals(const Case& head) {
  std::vector<std::size_t> zones;
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    if (head.zones[z].facts.mineral_build_up) zones.push_back(z);
  }
  return zones;
}

/// Zones whose old dye keeps them darker than the wish.
std::vector<std::size_t> too_dark_by_dye(const Case& head, const HeadHair& hair) {
  std::vector<std::size_t> zones;
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    const auto target = target_of(head, head.zones[z]);
    if (!target || !head.zones[z].past.old_colour) continue;
    const auto labs = colours_of(hair[z], process::Whites::left_out);
    const colour::HairLab now = mean_of(labs, near_quantile(labs, 0.5));
    const double wish = head.ladder.level_of(target->centre.l);
    if (head.ladder.level_of(now.l) < wish - kEnough) zones.push_back(z);
  }
  return zones;
}

/// What is taken out of a head before the rest of its visit.
struct Cleared {
  Case head;  ///< minerals gone
  Draft draft;
};

Cleared cleared(const Case& head, const HeadHair& hair) {
  Cleared made{head, begun(hair)};
  const auto minerals = with_minerals(head);
  const process::Product* chelator = first_of(head, process::PartKind::chelator);
  if (chelator != nullptr && !minerals.empty()) {
    made.draft.course.bowls.push_back(
        round_of(*chelator, Purpose::chelate, process::chelate_minutes(), minerals, head));
    for (const std::size_t z : minerals) {
      made.head.zones[z].facts = process::after_chelating(made.head.zones[z].facts);
    }
  }
  const auto dark = too_dark_by_dye(head, hair);
  const process::Product* remover = first_of(head, process::PartKind::remover);
  if (remover == nullptr || dark.empty()) return made;
  const Band minutes = process::remover_minutes();
  made.draft.course.bowls.push_back(round_of(*remover, Purpose::remove, minutes, dark, head));
  for (const std::size_t z : dark) {
    // The same draws for each zone: one product on one client's old colour.
    made.draft.now[z] = process::after_remover(
        made.draft.now[z], head.zones[z].past.old_colour->kind, minutes.mid, Draws(head.seed));
  }
  for (const std::string& note : process::remover_notes()) {
    made.draft.course.notes.push_back(note);
  }
  return made;
}

/// The rest of the visit on the cleared hair.
std::optional<Draft> finished(const Cleared& from, const Kitchen& kitchen, const RoughCourse& rough,
                              Executor& executor) {
  Draft draft = from.draft;
  const LiftTry whole = lift_again(from.head, draft.now, kitchen.recipes, rough.lift, executor);
  const Stage stage{
      whole, rough.option < kitchen.options.size() ? &kitchen.options[rough.option] : nullptr};
  if (!add_stage(from.head, stage, kitchen.recipes, kitchen.wish, 1, draft, executor)) return {};
  conclude(from.head, draft);
  if (!lay_out(from.head, draft.course)) return {};
  name_course(from.head, draft.course);
  return draft;
}

}  // namespace

std::vector<Draft> cleared_courses(const Case& head, const HeadHair& hair, Executor& executor) {
  const Cleared from = cleared(head, hair);
  std::vector<Draft> drafts;
  if (from.draft.course.bowls.empty()) return drafts;
  const HeadHair rough = thinned(from.draft.now, kRoughMembers);
  Standing unused;
  const auto kitchen = stock_kitchen(from.head, rough, unused);
  if (!kitchen) return drafts;
  constexpr std::size_t kFew = 3;
  const auto search = search_courses(from.head, rough, *kitchen, kFew, unused, executor);
  if (!search) return drafts;
  for (const RoughCourse& one : search->best) {
    auto draft = finished(from, *kitchen, one, executor);
    if (draft && !process::forbids(draft->course.refusals)) drafts.push_back(*std::move(draft));
  }
  return drafts;
}

}  // namespace hw::plan
