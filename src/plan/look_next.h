#pragma once
// The look that would narrow the doubt about a course most.
#include <span>
#include <vector>

#include "huewright/plan/plan.h"
#include "visit_hair.h"

namespace hw::plan {

/// The hair of a course at two moments, over all members.
struct LookHair {
  HeadHair lifted;  ///< when the first lift is rinsed
  HeadHair after;   ///< at the end
};

/// At most three looks, most telling first, one of each kind: a second reading by eye, an
/// instrument, a strand test, a swatch of a shade.
[[nodiscard]] std::vector<LookNext> look_next(const Case& head, std::span<const ZoneBelief> zones,
                                              const Course& course, const LookHair& hair);

}  // namespace hw::plan
