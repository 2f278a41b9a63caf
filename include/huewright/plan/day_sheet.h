#pragma once
// A course laid out on scale and clock: grams in whole steps inside the maker's ratio, bowls no
// older than their labels allow, starts, checks and stops of each zone, the minutes of each visit,
// what it costs and what keeping it for a year costs. docs/adr/0015-day-sheet.md.
//
// Bowls of one visit that go on different zones and do the same kind of work (a lift for the roots
// and one for the lengths; two colours) run side by side; all else follows one after another:
//   lift, remover, chelate → rinse, two shampoos, treatment, towel, read dry → next bowl
//   filler → wiped, not rinsed → next bowl;   colour → rinsed → next bowl
// A lightener counts against its label and the visit's 45 minutes strand by strand, over all bowls
// of the visit. A colour's label counts from its last strand, and that oxidative colour is spent
// after about half an hour is a fact about what it does, not a limit to its age: only a label's
// mix_life limits how old a bowl may be.
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/plan/belief.h"
#include "huewright/plan/case.h"
#include "huewright/plan/course.h"

namespace hw::plan {

/// Grams of one mix to have at hand for a bowl on some zones [g]: likely on the hair of each, and
/// the upper band to order; pick-up, waste and film as plan/pours.h, times the salon's own factor.
/// zones: indices of head.zones, at least one; lightener: whose pick-up; on_scalp: zones that start
/// at the scalp take a film on it. Errors: as mix_order(); no such zone (unknown_name).
/// Worked: 20 cm of 5 g/cm with lightener, off the scalp: on the hair 1.4 × its mass.
[[nodiscard]] Result<MixOrder> order_for(const Case& head, const std::vector<std::size_t>& zones,
                                         bool lightener, bool on_scalp);

/// Fills what the clock and the scale say of a course: CourseBowl::poured, order_g, cost and its
/// zones' grams and times; Course::days, minutes, cost, quote and year_cost. Bowls keep their
/// parts. What must not be blended is added to Course::refusals. A bowl of several mixes is ordered
/// and poured once for each. Grams that the shelf does not hold are left out of the order down to
/// the low edge of what is needed, with a note; stock is counted over the bowls of one visit.
/// Errors: as pour_bowls(), timetable(), twist_plan() and visit_money(), with the bowl's purpose
/// before `where`; too little stock (unreachable, where: "lift.stock"); no minute of lightener left
/// (unreachable, where: "lift.minutes"). Deterministic.
[[nodiscard]] Result<void> lay_out(const Case& head, Course& course);

/// Grams that all hands of a salon put on in a minute [g/min]: its own pace for one pair, and what
/// each further pair adds by data/plan/work_rates.csv.
[[nodiscard]] double pace_of(const Salon& salon);

/// What stands against opening a colour bowl now: a zone of it that was not read dry since its last
/// wash or chemical step, a canvas that is not clean. To be asked on the day; lay_out() says before
/// what will be asked. zones: as they are; one that is missing counts as not read.
[[nodiscard]] std::vector<process::Refusal> ready_for_colour(
    const Case& head, const CourseBowl& bowl, std::span<const process::Canvas> zones);

}  // namespace hw::plan
