#pragma once
// What the rules say of a colour bowl on a head, with its dated skin tests.
#include <vector>

#include "visit_hair.h"

namespace hw::plan {

/// Never, not until and cautions of a colour bowl. before: the hair at the visit's start; after:
/// when the bowl is rinsed.
[[nodiscard]] std::vector<process::Refusal> judge_colour(const Case& head, const CourseBowl& bowl,
                                                         const HeadHair& before,
                                                         const HeadHair& after);

/// The oxidative shades of a bowl, as a skin test knows them.
[[nodiscard]] std::vector<process::ColourMeant> meant_in(const Case& head, const CourseBowl& bowl);

}  // namespace hw::plan
