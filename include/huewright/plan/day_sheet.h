#pragma once
// A course laid out on scale and clock: grams in whole steps inside the maker's ratio, bowls no
// older than their labels allow, starts, checks and stops of each zone, the minutes of each visit,
// what it costs and what keeping it for a year costs.
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/plan/belief.h"
#include "huewright/plan/case.h"
#include "huewright/plan/course.h"

namespace hw::plan {

/// Grams of mix to have at hand for a bowl on some zones [g]: likely on the hair of each, and the
/// upper band to order. zones: indices of head.zones; lightener: whose pick-up.
[[nodiscard]] Result<MixOrder> order_for(const Case& head, const std::vector<std::size_t>& zones,
                                         bool lightener, bool on_scalp);

/// Fills what the clock and the scale say of a course: CourseBowl::poured, order_g, cost and its
/// zones' times; Course::days, minutes, cost, quote and year_cost. Bowls keep their parts.
/// Errors: as pour_bowls(), timetable() and visit_money(), with the bowl's purpose in `where`.
[[nodiscard]] Result<void> lay_out(const Case& head, Course& course);

}  // namespace hw::plan
