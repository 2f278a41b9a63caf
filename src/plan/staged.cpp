#include "staged.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "course_pick.h"
#include "huewright/hair/words.h"
#include "huewright/plan/day_sheet.h"

namespace hw::plan {
namespace {

constexpr double kEnough = 0.5;  // level: nearer than an eye tells

/// Depth that each zone is to have in the end.
std::vector<double> end_levels(const Case& head) {
  std::vector<double> levels;
  for (const ZoneCase& zone : head.zones) {
    const auto target = target_of(head, zone);
    levels.push_back(target ? head.ladder.level_of(target->centre.l) : wished_level_of(head, zone));
  }
  return levels;
}

/// Over several visits there is no need to mix fresh within one.
bool mixed_twice(const Kitchen& kitchen, const LiftTry& lift) {
  for (std::size_t z = 0; z < lift.zones.size(); ++z) {
    if (lift.zones[z].outcome.already_there) continue;
    if (kitchen.recipes[lift.recipe[z]].applications > 1) return true;
  }
  return false;
}

/// The permitted lift that comes nearest the end and leaves the fibre something for the visits to
/// come. share: of the wear limit that may be used by then.
std::optional<LiftTry> farthest(const Case& head, const HeadHair& rough, const Kitchen& kitchen,
                                double share, Executor& executor) {
  LiftAims aims;
  aims.wishes = {end_levels(head)};
  std::optional<LiftTry> best;
  for (LiftTry& lift : try_lifts(head, rough, kitchen.recipes, aims, executor)) {
    if (lift.forbidden() || !lift.lifts() || mixed_twice(kitchen, lift)) continue;
    if (lift.wear_high > share * head.limits.wear) continue;
    const bool nearer = !best || lift.short_by < best->short_by - 0.1 ||
                        (lift.short_by < best->short_by + 0.1 && lift.wear_high < best->wear_high);
    if (nearer) best = std::move(lift);
  }
  return best;
}

/// What a visit on the way goes home in: the wish, as much darker as the canvas still is.
std::vector<Target> on_the_way(const Case& head, const LiftTry& lift) {
  constexpr double kRoom = 0.3;  // level that the colour darkens; guess
  std::vector<Target> wish;
  const auto ends = end_levels(head);
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    const double reached = lift.zones[z].outcome.level.mid - kRoom;
    wish.push_back(
        lighter(*target_of(head, head.zones[z]), std::min(0.0, reached - ends[z]), head.ladder));
  }
  return wish;
}

/// The colour that comes nearest to it and can be lifted again: permanent colour is left for last.
const ColourOption* colour_on_the_way(const Case& head, const LiftTry& lift, const Kitchen& kitchen,
                                      std::span<const Target> wish, Executor& executor) {
  HeadHair canvas;
  std::vector<std::size_t> zones;
  for (std::size_t z = 0; z < lift.zones.size(); ++z) {
    canvas.push_back(lift.zones[z].canvas);
    zones.push_back(z);
  }
  const ColourOption* best = nullptr;
  double least = 1e300;
  for (const ColourOption& option : kitchen.options) {
    if (option.dye_class == process::DyeClass::permanent) continue;
    const auto formula = solve(head, canvas, zones, wish, option, true, false, executor);
    if (!formula || formula->expected_de00 >= least) continue;
    least = formula->expected_de00;
    best = &option;
  }
  return best;
}

/// How each zone looks, zones that look alike told together: "roots, lengths brown, warm".
std::string looks_of(const Case& head, const HeadHair& hair) {
  std::vector<std::pair<std::string, std::string>> looks;  // words, zones
  for (std::size_t z = 0; z < hair.size(); ++z) {
    const auto labs = colours_of(hair[z], process::Whites::mixed_in);
    const auto words = hair::describe(mean_of(labs, near_quantile(labs, 0.5)), head.ladder);
    const std::string look = words.level_name + ", " + words.tone;
    if (!looks.empty() && looks.back().first == look) {
      looks.back().second += ", " + head.zones[z].name;
    } else {
      looks.emplace_back(look, head.zones[z].name);
    }
  }
  if (looks.size() == 1) return looks.front().first;
  std::string all;
  for (const auto& [look, zones] : looks) {
    all += fmt::format("{}{} ({})", all.empty() ? "" : "; ", look, zones);
  }
  return all;
}

/// Lifts as far as may be and colours for the way home. reached: gets how many levels it stays
/// short.
bool add_visit_on_the_way(const Case& head, const Kitchen& kitchen, double share, int visit,
                          Draft& draft, double& reached, Executor& executor) {
  const HeadHair rough = thinned(draft.now, kRoughMembers);
  const auto lift = farthest(head, rough, kitchen, share, executor);
  if (!lift) return false;
  const LiftTry whole = lift_again(head, draft.now, kitchen.recipes, *lift, executor);
  Stage stage{whole, nullptr};
  std::vector<Target> wish = kitchen.wish;
  if (head.target) {
    wish = on_the_way(head, *lift);
    stage.option = colour_on_the_way(head, *lift, kitchen, wish, executor);
  }
  if (!add_stage(head, stage, kitchen.recipes, wish, visit, draft, executor)) return false;
  draft.course.notes.push_back(
      fmt::format("Visit {} goes home in {}; the next follows after {:.0f} "
                  "weeks.",
                  visit, looks_of(head, draft.now), head.habits.weeks_to_next));
  reached = lift->short_by;
  return true;
}

/// The last visit: the best course on the hair as it then is.
bool add_last_visit(const Case& head, const RoughCourse& rough, const Kitchen& kitchen, int visit,
                    Draft& draft, Executor& executor) {
  const LiftTry whole = lift_again(head, draft.now, kitchen.recipes, rough.lift, executor);
  const Stage stage{
      whole, rough.option < kitchen.options.size() ? &kitchen.options[rough.option] : nullptr};
  return add_stage(head, stage, kitchen.recipes, kitchen.wish, visit, draft, executor).has_value();
}

}  // namespace

bool stays_short(const Case& head, const Course& course) {
  const auto ends = end_levels(head);
  for (std::size_t z = 0; z < course.zones.size(); ++z) {
    if (course.zones[z].result.level.mid < ends[z] - 2 * kEnough) return true;
  }
  return false;
}

bool may_stay_short(const Case& head, const Course& course) {
  constexpr double kFar = 2;  // levels; guess
  const auto ends = end_levels(head);
  for (std::size_t z = 0; z < course.zones.size(); ++z) {
    const bool old_colour = head.zones[z].past.old_colour.has_value();
    if (old_colour && course.zones[z].result.level.low < ends[z] - kFar) return true;
  }
  return stays_short(head, course);
}

std::optional<Draft> staged_course(const Case& head, const HeadHair& hair, const Kitchen& kitchen,
                                   Executor& executor) {
  if (kitchen.recipes.empty()) return {};
  Draft draft = begun(hair);
  double reached = 1e6;  // levels that the visit before stayed short
  for (int visit = 1; visit <= head.limits.most_visits; ++visit) {
    Standing unused;
    const HeadHair rough = thinned(draft.now, kRoughMembers);
    constexpr std::size_t kFew = 6;
    auto search = search_courses(head, rough, kitchen, kFew, unused, executor);
    if (!search) return {};
    std::erase_if(search->best,
                  [&](const RoughCourse& one) { return mixed_twice(kitchen, one.lift); });
    if (search->best.empty()) return {};
    const RoughCourse& best = search->best.front();
    const bool there = best.lift.short_by <= kEnough;
    // One more round that gains less than an eye tells is not worth a visit of its own.
    const bool gains = best.lift.short_by < reached - kEnough;
    if (visit > 1 && (there || !gains || visit == head.limits.most_visits)) {
      if (!add_last_visit(head, best, kitchen, visit, draft, executor)) return {};
      break;
    }
    // What later visits need is left to them in equal shares, the first a larger one.
    const double share = std::sqrt(static_cast<double>(visit) / head.limits.most_visits);
    if (!add_visit_on_the_way(head, kitchen, share, visit, draft, reached, executor)) return {};
    wait_between(head, head.habits.weeks_to_next, draft);
  }
  if (draft.course.visits < 2) return {};
  const double grown_cm = head.habits.weeks_to_next * 7 * head.habits.growth_um_per_day * 1e-4;
  draft.course.notes.push_back(fmt::format(
      "About {:.1f} cm grow in between two visits; they are not in these bowls. Plan each "
      "visit anew from how the one before came out.",
      grown_cm));
  conclude(head, draft);
  if (!head.target) {
    const auto ends = end_levels(head);
    for (std::size_t z = 0; z < ends.size(); ++z) {
      draft.course.expected_de00 +=
          kShortLevel * std::max(0.0, ends[z] - draft.course.zones[z].result.level.mid) /
          static_cast<double>(ends.size());
    }
  }
  if (!lay_out(head, draft.course)) return {};
  name_course(head, draft.course);
  return draft;
}

}  // namespace hw::plan
