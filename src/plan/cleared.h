#pragma once
// Courses that first take out what does not belong: minerals by a chelator before anything
// oxidises, old dye by a remover where it is darker than the wish; then the best on the hair as
// that leaves it.
#include <vector>

#include "course_make.h"
#include "course_search.h"

namespace hw::plan {

/// Such courses, over all members, named and laid out, best first; empty where nothing is to be
/// taken out, or the shelf holds nothing to do it with.
[[nodiscard]] std::vector<Draft> cleared_courses(const Case& head, const HeadHair& hair,
                                                 Executor& executor);

}  // namespace hw::plan
