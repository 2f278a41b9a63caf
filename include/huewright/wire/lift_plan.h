#pragma once
// What `plan` answers.
#include <vector>

#include "huewright/colour/lab.h"
#include "huewright/plan/colour_plan.h"
#include "huewright/plan/lift_plan.h"
#include "huewright/wire/bowl.h"

namespace hw::wire {

/// A whole plan of a head's lift, with its words.
struct LiftPlanAnswer {
  plan::Case head;
  plan::LiftPlan plan;
  std::vector<plan::ColourCourse> colours;  ///< where the case has a target
};

/// {"refusals", "cautions", "courses", "left_out", "closing"}; a course holds its bowls, and its
/// zones as they are and as the lift leaves them. Encodes only.
void describe(Object& object, LiftPlanAnswer& answer);

}  // namespace hw::wire
