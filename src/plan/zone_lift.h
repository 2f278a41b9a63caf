#pragma once
// One recipe on one zone: when to stop it for a wished level, what is then, what the rules say.
#include <span>
#include <vector>

#include "huewright/plan/lift_recipe.h"

namespace hw::plan {

/// A zone about to be lifted.
struct ZoneStart {
  const ZoneCase& zone;
  const process::LiftMembers& members;
  const std::vector<double>& level_now;  ///< depth of the pigmented strands of each member
};

/// What a recipe does to a zone, and the hair as it leaves it.
struct ZoneLift {
  ZoneOutcome outcome;
  process::LiftMembers canvas;
};

/// How the hair at a stop is had: simulated to that minute, or from between two rows 2.5 minutes
/// apart of the run that found the minute, for a first judgement (within 0.05 level).
enum class Stops { simulated, between_rows };

/// A recipe, mixed fresh so often, on a zone, stopped for each of some wished levels [1–10]. One
/// simulation of the longest time serves all wishes.
[[nodiscard]] std::vector<ZoneLift> lift_zone(const Case& head, const ZoneStart& start,
                                              const Recipe& recipe, int applications,
                                              std::span<const double> wishes,
                                              Stops stops = Stops::simulated);
/// The same stopped after so many minutes, > 0, whatever the wish.
[[nodiscard]] ZoneLift stopped_at(const Case& head, const ZoneStart& start, const Recipe& recipe,
                                  int applications, double wish, double minutes);
/// The same on hair that is left as it is.
[[nodiscard]] ZoneLift left_alone(const Case& head, const ZoneStart& start, double wish);

/// The bowls of a recipe on a zone, stopped after `minutes` in all.
[[nodiscard]] std::vector<process::Application> applications_of(const Case& head,
                                                                const ZoneCase& zone,
                                                                const Recipe& recipe,
                                                                int applications, double minutes);

/// Never, not until and cautions of a recipe on a zone that it ends on like this.
[[nodiscard]] std::vector<process::Refusal> judge_lift(const Case& head, const ZoneCase& zone,
                                                       const Recipe& recipe, int applications,
                                                       const ZoneOutcome& outcome);

/// Low edge of the wet strength left [1, 10 % quantile] when wear goes from `before` to `after`.
[[nodiscard]] double strength_left_low(const Case& head, const ZoneCase& zone,
                                       std::span<const double> before,
                                       std::span<const double> after);

}  // namespace hw::plan
