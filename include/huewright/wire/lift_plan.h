#pragma once
// What `plan` answers.
#include <vector>

#include "huewright/colour/lab.h"
#include "huewright/plan/lift_plan.h"
#include "huewright/wire/bowl.h"

namespace hw::wire {

/// A whole plan of a head's lift, with its words.
struct LiftPlanAnswer {
  plan::LiftPlan plan;
  hair::Ladder ladder = hair::default_ladder();
  double wished_level = 0;
};

/// {"refusals", "cautions", "zones", "wished_level", "options", "left_out", "closing"}. Encodes only.
void describe(Object& object, LiftPlanAnswer& answer);

}  // namespace hw::wire
