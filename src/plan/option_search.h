#pragma once
// Recipes on one head: when to stop each zone, what is then, and what the rules say.
#include <span>
#include <vector>

#include "huewright/plan/lift_plan.h"

namespace hw::plan {

/// Every recipe, each with this many applications, in the order of the recipes.
[[nodiscard]] std::vector<LiftOption> search_options(const Case& head,
                                                     const std::vector<ZoneBelief>& beliefs,
                                                     std::span<const Recipe> recipes,
                                                     int applications, Executor& executor);

}  // namespace hw::plan
