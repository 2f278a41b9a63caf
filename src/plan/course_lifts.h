#pragma once
// Every lift worth a colour: recipes of the shelf, each stopped for several depths, one recipe for
// the whole head or the best for each zone.
#include <span>
#include <string>
#include <vector>

#include "visit_hair.h"
#include "zone_lift.h"

namespace hw::plan {

/// A recipe and how often it is mixed fresh.
struct LiftRecipe {
  Recipe recipe;
  int applications = 1;
};

/// A lift of the whole head that was tried.
struct LiftTry {
  std::vector<std::size_t> recipe;  ///< of each zone: index into the recipes
  std::vector<double> wish;         ///< of each zone [level]
  std::vector<ZoneLift> zones;
  std::vector<process::Refusal> findings;  ///< of all zones, merged
  double minutes = 0;                      ///< of the longest zone
  double wear_high = 0;                    ///< 90 % edge of the most worn zone
  double slack_min = kNoHurry;             ///< of its most hurried zone, as Course::slack_min
  double short_by = 0;                     ///< of its wish, the zone that is furthest off [level]
  [[nodiscard]] bool lifts() const;        ///< false: every zone is left alone
  [[nodiscard]] bool forbidden() const;
};

/// What lifts are tried for.
struct LiftAims {
  std::vector<std::vector<double>> wishes;  ///< sets, each one level per zone
};
/// Depths that the colour may need: of the target and up to two levels above it, so that what the
/// colour darkens is left room for; or the levels that were asked for.
[[nodiscard]] LiftAims lift_aims(const Case& head);

/// Recipes of the shelf, one of each chemistry, lighteners also mixed fresh at half time. Empty for
/// a shelf that can mix no lift.
[[nodiscard]] std::vector<LiftRecipe> distinct_recipes(const Case& head);

/// All that were tried: each recipe on all zones for each set of wishes, and for each set the best
/// allowed recipe of each zone. Forbidden ones are among them, so that what stands against them can
/// be told. Deterministic.
[[nodiscard]] std::vector<LiftTry> try_lifts(const Case& head, const HeadHair& hair,
                                             std::span<const LiftRecipe> recipes,
                                             const LiftAims& aims, Executor& executor);

/// One lift again, on other members: the same recipes, stopped for the same wishes.
[[nodiscard]] LiftTry lift_again(const Case& head, const HeadHair& hair,
                                 std::span<const LiftRecipe> recipes, const LiftTry& lift,
                                 Executor& executor);

/// Adds up what the zones of a lift say: findings, minutes, wear, slack, how far it stays short.
void add_up(const Case& head, std::span<const LiftRecipe> recipes, LiftTry& lift);

/// No lift at all.
[[nodiscard]] LiftTry no_lift(const Case& head, const HeadHair& hair);

/// Indices of the lifts that no other of the same wishes beats in depth, wear and minutes, at most
/// `most` of each set of wishes.
[[nodiscard]] std::vector<std::size_t> worth_colouring(std::span<const LiftTry> lifts,
                                                       std::size_t most);

}  // namespace hw::plan
