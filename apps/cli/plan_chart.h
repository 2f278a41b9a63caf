#pragma once
#include <string>

#include "huewright/plan/lift_plan.h"

namespace hw::apps {

/// Draws the strand chart of a plan's first option to a PNG file. Error: io; no option to draw.
[[nodiscard]] Result<void> draw_plan(const plan::Case& head, const plan::LiftPlan& plan,
                                     const std::string& path, bool shadows_lifted,
                                     Executor& executor);

}  // namespace hw::apps
