#pragma once
// How much hair a case means, and how much mix it takes.
#include <vector>

#include "huewright/plan/case.h"

namespace hw::plan {

/// Mass of hair in each zone of a case [g], from density, scalp area, strand size and length
/// (hair/head.h). Sections that the case names share the scalp by data/hair/sections.csv; one
/// unnamed section is the whole head. Worked: 580 cm², 161 hairs/cm², 73.2 µm, 20 cm uncut: 104 g.
[[nodiscard]] std::vector<double> zone_mass_g(const Case& head);

/// Scalp that lies under each zone of a case [cm²]: its section's share where the zone starts at
/// the scalp, 0 for zones that start away from it. One zone from 0 cm, 580 cm² of scalp: 580.
[[nodiscard]] std::vector<double> zone_scalp_cm2(const Case& head);

}  // namespace hw::plan
