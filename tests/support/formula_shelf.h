#pragma once
// Random shelves and heads for tests of the formula solver.
#include <cstdint>
#include <vector>

#include "huewright/base/random.h"
#include "huewright/plan/formula.h"

namespace hw::plan::test {

/// `count` shades: words of level and tone, and spectra with one band of their own, by turns.
[[nodiscard]] std::vector<FormulaShade> random_shelf(const Draws& draws, std::size_t count);

/// `count` zones of lightened hair, each lighter than the one before, with one target; every fifth
/// seed with white strands.
[[nodiscard]] std::vector<FormulaZone> random_zones(const Draws& draws, std::size_t count,
                                                    std::size_t members);

/// The first members of each zone.
[[nodiscard]] std::vector<FormulaZone> first_members(const std::vector<FormulaZone>& zones,
                                                     std::size_t members);

}  // namespace hw::plan::test
