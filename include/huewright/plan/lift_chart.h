#pragma once
// From an option to what its strand chart shows.
#include "huewright/plan/lift_plan.h"
#include "huewright/plan/strand_chart.h"

namespace hw::plan {

/// The strand chart's course of one option: the zones of the first zone's section, each by the
/// member nearest the median, started so that all are rinsed together; a check every 5 minutes; each
/// zone's hard stop at the longest time.
[[nodiscard]] ChartCourse chart_course(const Case& head, const LiftPlan& plan,
                                       const LiftOption& option);

}  // namespace hw::plan
