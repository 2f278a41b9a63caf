#pragma once
// What `plan` answers.
#include <optional>

#include "huewright/plan/plan.h"
#include "huewright/wire/bowl.h"

namespace hw::wire {

/// A whole plan, with the head it is for.
struct PlanAnswer {
  plan::Case head;
  plan::HeadPlan plan;
  std::optional<plan::Checked> checked = {};  ///< after readings of a run
  std::optional<double> now_min = {};         ///< of the last reading of the run; for the chart
  std::vector<plan::Reachable> reach = {};    ///< where it was asked for
  bool whys = false;                          ///< what each part rests on is asked for
};

/// {"refusals", "cautions", "courses", "look_next", "tests_to_make", "left_out", …}; a course holds
/// its bowls on the clock, its zones as they are, as the lift leaves them and as they end, and what
/// washing leaves. Encodes only.
void describe(Object& object, PlanAnswer& answer);

}  // namespace hw::wire
