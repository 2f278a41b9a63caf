#pragma once
// From a course of the planner to what its charts show.
#include <span>
#include <string>
#include <vector>

#include "huewright/plan/belief.h"
#include "huewright/plan/case.h"
#include "huewright/plan/course.h"
#include "huewright/plan/strand_chart.h"

namespace hw::plan {

/// Sections of a head, each a strand of its own, in the order they are first named.
[[nodiscard]] std::vector<std::string> sections_of(const Case& head);

/// The chart of one visit of a course: the zones of one section, each by its nearest member,
/// through every bowl on the visit's clock (minutes from its first application); bowls of earlier
/// visits and the washes since are simulated and not shown. A bowl that has no chemistry of its own
/// is shown on the hair and changes nothing. What no zone names belongs to the zone before it.
/// beliefs: of head.zones, in their order; course: laid out (day_sheet.h), its nearest_member an
/// index into the beliefs; visit: 1 to course.visits; section: one of sections_of(). Growth between
/// visits is left out. Programmer's mistakes (a bowl without times, an index that is none):
/// HW_CHECK. Uptake, strengths and fade are those drawn for that member from head.seed.
[[nodiscard]] ChartCourse chart_course(const Case& head, std::span<const ZoneBelief> beliefs,
                                       const Course& course, int visit, const std::string& section);
/// Of the first zone's section.
[[nodiscard]] ChartCourse chart_course(const Case& head, std::span<const ZoneBelief> beliefs,
                                       const Course& course, int visit);

}  // namespace hw::plan
