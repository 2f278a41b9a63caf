#pragma once
// One recipe on one head: when to stop each zone, what is then, and what the rules say.
#include "huewright/plan/lift_plan.h"

namespace hw::plan {

[[nodiscard]] LiftOption search_option(const Case& head, const std::vector<ZoneBelief>& beliefs,
                                       const Recipe& recipe, int applications, Executor& executor);

}  // namespace hw::plan
