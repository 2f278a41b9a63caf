#include "course_lifts.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace hw::plan {
namespace {

using process::Refusal;

constexpr double kOffsets[] = {0, 0.5, 1, 2};  // levels above the target that are tried

std::vector<std::vector<double>> levels_now(const Case& head, const HeadHair& hair) {
  std::vector<std::vector<double>> levels;
  for (const auto& zone : hair) {
    levels.push_back(levels_of(head, colours_of(zone, process::Whites::left_out)));
  }
  return levels;
}

/// A second mix that no zone is on long enough to get is no second mix.
bool second_mix_unused(std::span<const LiftRecipe> recipes, const LiftTry& lift) {
  bool twice = false;
  for (std::size_t z = 0; z < lift.zones.size(); ++z) {
    const LiftRecipe& recipe = recipes[lift.recipe[z]];
    if (lift.zones[z].outcome.already_there || recipe.applications < 2) continue;
    twice = true;
    const double half = recipe.recipe.longest_min / recipe.applications;
    if (lift.zones[z].outcome.stop_min.mid > half) return false;
  }
  return twice;
}

/// The best allowed recipe of a zone for its wish: deep enough first, then kind to the fibre.
std::size_t best_for_zone(const Case& head, std::span<const LiftRecipe> recipes,
                          std::span<const LiftTry> same_wishes, std::size_t zone) {
  std::size_t best = same_wishes.size();
  auto least = std::tuple(1e9, 1e9, 1e9);
  for (std::size_t t = 0; t < same_wishes.size(); ++t) {
    const ZoneOutcome& outcome = same_wishes[t].zones[zone].outcome;
    const LiftRecipe& recipe = recipes[same_wishes[t].recipe[zone]];
    if (process::forbids(
            judge_lift(head, head.zones[zone], recipe.recipe, recipe.applications, outcome)))
      continue;
    constexpr double kSameDepth = 0.2;  // level: not told apart by eye
    const double miss = std::max(0.0, outcome.wished_level - outcome.level.mid);
    const auto rank =
        std::tuple(std::round(miss / kSameDepth), outcome.wear.high, outcome.stop_min.mid);
    if (rank < least) {
      least = rank;
      best = t;
    }
  }
  return best;
}

}  // namespace

void add_up(const Case& head, std::span<const LiftRecipe> recipes, LiftTry& lift) {
  std::vector<std::vector<Refusal>> findings;
  lift.minutes = lift.wear_high = lift.short_by = 0;
  lift.slack_min = kNoHurry;
  for (std::size_t i = 0; i < lift.zones.size(); ++i) {
    const ZoneOutcome& zone = lift.zones[i].outcome;
    lift.wear_high = std::max(lift.wear_high, zone.wear.high);
    if (zone.already_there) {
      constexpr double kNear = 0.25;  // level: left alone because it is there
      const double miss = zone.wished_level - zone.level.mid;
      lift.short_by = std::max(lift.short_by, miss > kNear ? miss : 0);
      continue;
    }
    const LiftRecipe& recipe = recipes[lift.recipe[i]];
    findings.push_back(judge_lift(head, head.zones[i], recipe.recipe, recipe.applications, zone));
    lift.minutes = std::max(lift.minutes, zone.stop_min.mid);
    if (zone.stop_min.mid < recipe.recipe.longest_min) {
      lift.slack_min = std::min(lift.slack_min, zone.most_min - zone.stop_min.mid);
    }
    lift.short_by = std::max(lift.short_by, zone.wished_level - zone.level.mid);
  }
  lift.findings = process::merged(findings);
}

bool LiftTry::lifts() const {
  return std::any_of(zones.begin(), zones.end(),
                     [](const ZoneLift& zone) { return !zone.outcome.already_there; });
}

bool LiftTry::forbidden() const {
  return process::forbids(findings);
}

LiftAims lift_aims(const Case& head) {
  LiftAims aims;
  const auto add = [&](auto level_of_zone) {
    std::vector<double> wishes;
    for (const ZoneCase& zone : head.zones) {
      wishes.push_back(std::clamp(level_of_zone(zone), 1.0, 10.0));
    }
    if (std::find(aims.wishes.begin(), aims.wishes.end(), wishes) == aims.wishes.end()) {
      aims.wishes.push_back(std::move(wishes));
    }
  };
  const bool asked = head.wished_level.has_value() ||
                     std::any_of(head.zones.begin(), head.zones.end(), [](const ZoneCase& zone) {
                       return zone.wished_level.has_value();
                     });
  if (asked || !head.target) {
    add([&](const ZoneCase& zone) { return wished_level_of(head, zone); });
  }
  if (!head.target) return aims;
  for (const double offset : kOffsets) {
    add([&](const ZoneCase& zone) {
      return head.ladder.level_of(target_of(head, zone)->centre.l) + offset;
    });
  }
  return aims;
}

std::vector<LiftRecipe> distinct_recipes(const Case& head) {
  const auto recipes = lift_recipes(head);
  if (!recipes) return {};
  std::vector<LiftRecipe> distinct;
  for (const int applications : {1, 2}) {
    for (const Recipe& recipe : *recipes) {
      if (applications == 2 && !recipe.mix.has_persulfate) continue;
      const bool known =
          std::any_of(distinct.begin(), distinct.end(), [&](const LiftRecipe& other) {
            return other.applications == applications &&
                   other.recipe.mix.peroxide == recipe.mix.peroxide &&
                   other.recipe.mix.powder == recipe.mix.powder &&
                   other.recipe.mix.has_off_scalp_lightener == recipe.mix.has_off_scalp_lightener &&
                   other.recipe.longest_min == recipe.longest_min;
          });
      if (!known) distinct.push_back({recipe, applications});
    }
  }
  return distinct;
}

std::vector<LiftTry> try_lifts(const Case& head, const HeadHair& hair,
                               std::span<const LiftRecipe> recipes, const LiftAims& aims,
                               Executor& executor) {
  const auto now = levels_now(head, hair);
  const std::size_t sets = aims.wishes.size();
  const std::size_t zones = hair.size();
  // by_zone[recipe][zone][set]
  std::vector<std::vector<std::vector<ZoneLift>>> by_zone(
      recipes.size(), std::vector<std::vector<ZoneLift>>(zones));
  executor.run(recipes.size() * zones, [&](std::size_t task) {
    const std::size_t r = task / zones;
    const std::size_t z = task % zones;
    std::vector<double> wishes;
    for (const auto& set : aims.wishes) wishes.push_back(set[z]);
    by_zone[r][z] = lift_zone(head, {head.zones[z], hair[z], now[z]}, recipes[r].recipe,
                              recipes[r].applications, wishes, Stops::between_rows);
  });
  std::vector<LiftTry> lifts;
  for (std::size_t s = 0; s < sets; ++s) {
    const std::size_t first = lifts.size();
    for (std::size_t r = 0; r < recipes.size(); ++r) {
      LiftTry lift;
      lift.recipe.assign(zones, r);
      lift.wish = aims.wishes[s];
      for (std::size_t z = 0; z < zones; ++z) lift.zones.push_back(std::move(by_zone[r][z][s]));
      add_up(head, recipes, lift);
      lifts.push_back(std::move(lift));
    }
    std::erase_if(lifts, [&](const LiftTry& lift) { return second_mix_unused(recipes, lift); });
    const std::span<const LiftTry> same(lifts.data() + first, lifts.size() - first);
    LiftTry mixed;
    bool mixed_differs = false;
    mixed.wish = aims.wishes[s];
    for (std::size_t z = 0; z < zones; ++z) {
      const std::size_t t = best_for_zone(head, recipes, same, z);
      if (t == same.size()) {  // nothing may go on it: left alone while the others are lifted
        mixed.recipe.push_back(0);
        mixed.zones.push_back(left_alone(head, {head.zones[z], hair[z], now[z]}, mixed.wish[z]));
        mixed_differs = true;
        continue;
      }
      mixed.recipe.push_back(same[t].recipe[z]);
      mixed.zones.push_back(same[t].zones[z]);
    }
    const bool uniform = std::adjacent_find(mixed.recipe.begin(), mixed.recipe.end(),
                                            std::not_equal_to<>()) == mixed.recipe.end();
    if (!mixed.lifts() || (uniform && !mixed_differs)) continue;
    add_up(head, recipes, mixed);
    lifts.push_back(std::move(mixed));
  }
  return lifts;
}

LiftTry lift_again(const Case& head, const HeadHair& hair, std::span<const LiftRecipe> recipes,
                   const LiftTry& lift, Executor& executor) {
  const auto now = levels_now(head, hair);
  LiftTry again = lift;
  executor.run(hair.size(), [&](std::size_t z) {
    const ZoneStart start{head.zones[z], hair[z], now[z]};
    if (lift.zones[z].outcome.already_there || recipes.empty()) {
      again.zones[z] = left_alone(head, start, lift.wish[z]);
      return;
    }
    const LiftRecipe& recipe = recipes[lift.recipe[z]];
    again.zones[z] = std::move(
        lift_zone(head, start, recipe.recipe, recipe.applications, {&lift.wish[z], 1}).front());
  });
  add_up(head, recipes, again);
  return again;
}

LiftTry no_lift(const Case& head, const HeadHair& hair) {
  const auto now = levels_now(head, hair);
  LiftTry none;
  for (std::size_t z = 0; z < hair.size(); ++z) {
    none.recipe.push_back(0);
    none.wish.push_back(quantile(now[z], 0.5));
    none.zones.push_back(left_alone(head, {head.zones[z], hair[z], now[z]}, none.wish.back()));
    none.wear_high = std::max(none.wear_high, none.zones.back().outcome.wear.high);
  }
  return none;
}

std::vector<std::size_t> worth_colouring(std::span<const LiftTry> lifts, std::size_t most) {
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < lifts.size(); ++i) {
    const LiftTry& lift = lifts[i];
    if (lift.forbidden() || !lift.lifts()) continue;
    constexpr double kSameDepth = 0.1;  // level
    constexpr double kSameSlack = 2;    // min
    const bool beaten = std::any_of(lifts.begin(), lifts.end(), [&](const LiftTry& other) {
      if (&other == &lift || other.forbidden() || other.wish != lift.wish) return false;
      const bool no_worse = other.short_by <= lift.short_by + kSameDepth &&
                            other.wear_high <= lift.wear_high && other.minutes <= lift.minutes &&
                            other.slack_min >= lift.slack_min - kSameSlack;
      const bool better = other.short_by < lift.short_by - kSameDepth ||
                          other.wear_high < lift.wear_high || other.minutes < lift.minutes ||
                          other.slack_min > lift.slack_min + kSameSlack;
      return no_worse && better;
    });
    if (!beaten) kept.push_back(i);
  }
  std::stable_sort(kept.begin(), kept.end(), [&](std::size_t a, std::size_t b) {
    return std::tuple(std::round(lifts[a].short_by * 5), lifts[a].wear_high) <
           std::tuple(std::round(lifts[b].short_by * 5), lifts[b].wear_high);
  });
  std::vector<std::size_t> best;
  for (const std::size_t i : kept) {
    const auto same = std::count_if(best.begin(), best.end(),
                                    [&](std::size_t b) { return lifts[b].wish == lifts[i].wish; });
    if (static_cast<std::size_t>(same) < most) best.push_back(i);
  }
  return best;
}

}  // namespace hw::plan
