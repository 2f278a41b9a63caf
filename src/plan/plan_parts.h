#pragma once
// Parts of planning that planning again shares.
#include <optional>
#include <vector>

#include "course_make.h"
#include "course_search.h"
#include "huewright/plan/plan.h"

namespace hw::plan {

/// A lift and a colour over all members, laid out and named; empty when its bowl cannot be mixed.
[[nodiscard]] std::optional<Draft> course_of(const Case& head, const HeadHair& hair,
                                             const Kitchen& kitchen, const LiftTry& lift,
                                             std::size_t option, Executor& executor);

/// What stands against the head is said once, above its courses; the rest stays with each.
void say_once(const Case& head, Standing standing, HeadPlan& plan);

/// The plan of a head that is believed so.
[[nodiscard]] Result<HeadPlan> plan_believed(const Case& head, std::vector<ZoneBelief> beliefs,
                                             Executor& executor);

}  // namespace hw::plan
