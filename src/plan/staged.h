#pragma once
// A course over several visits, for a wish that one visit cannot reach: each visit but the last
// lifts as far as the rules and the fibre allow and goes home in a darker version of the wish.
#include <optional>

#include "course_make.h"
#include "course_search.h"

namespace hw::plan {

/// Whether a course stays so much darker than the wish that another visit is worth planning.
[[nodiscard]] bool stays_short(const Case& head, const Course& course);
/// The same, or old colour that may stay far below it: how fast it goes is known for no product.
[[nodiscard]] bool may_stay_short(const Case& head, const Course& course);

/// The course, over all members, named and laid out; empty when it would be no more than one visit,
/// when no lift is allowed, or when its bowls cannot be mixed. Visits: at most head.limits allow,
/// head.habits.weeks_to_next apart.
[[nodiscard]] std::optional<Draft> staged_course(const Case& head, const HeadHair& hair,
                                                 const Kitchen& kitchen, Executor& executor);

}  // namespace hw::plan
