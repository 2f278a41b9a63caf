#pragma once
// How a visit was to come out, scalp to ends: the little of a plan that a client's page shows. It
// is kept in a list of its own, since a plan is a hundred times as long.
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "huewright/book/visit_facts.h"

namespace hw::book {

struct StripZone {
  std::string zone;
  double from = 0, to = 1;                        ///< of the strand: 0 scalp, 1 tip
  std::optional<std::array<double, 3>> lab = {};  ///< expected at the finish, D65/10°
};
/// One strand: the zones of the section that the plan names first.
struct Strip {
  std::vector<double> ladder_lstar;  ///< the salon's own ten rungs, or empty
  std::vector<StripZone> zones;  ///< in the order of the plan; none where its case is unreadable
};

[[nodiscard]] Strip strip_of(const PlanFact& plan);

void describe(wire::Object& object, StripZone& zone);
void describe(wire::Object& object, Strip& strip);

}  // namespace hw::book
