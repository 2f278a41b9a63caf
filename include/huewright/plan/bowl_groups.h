#pragma once
// One bowl for all zones or one each, whichever is worth its trouble. Zones that lie side by side
// may share a bowl; every way to cut the row is judged by the quick formula of each stretch, a
// further bowl has to bring its price, and the chosen bowls are then searched in full.
#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "huewright/plan/formula.h"

namespace hw::plan {

/// What a further bowl must bring all zones together [expected CIEDE2000, by weight of hair]: it is
/// mixed, kept apart and washed up. 0.7: about a just visible difference; guess.
inline constexpr double kBowlTrouble = 0.7;

/// Zones first to first + count − 1 and the formula of their bowl.
struct BowlGroup {
  std::size_t first = 0;
  std::size_t count = 0;
  Formula formula;
};

struct BowlGrouping {
  std::vector<BowlGroup> groups;        ///< in the order of the zones
  double expected_de00 = 0;             ///< over all zones and members
  std::optional<double> common_de00{};  ///< of one bowl for all; none where none can be mixed
  std::size_t ways = 0;                 ///< of cutting the row that were judged
};

/// What the bowl of zones first to first + count − 1 must keep to: its grams follow its hair.
using BowlRules = std::function<FormulaRules(std::size_t first, std::size_t count)>;

/// The bowls. shades, zones: as find_formulas; zones in the order in which they lie. trouble:
/// CIEDE2000 for each bowl after the first, ≥ 0. Bowls together keep to the stock. Deterministic,
/// whatever the executor. Errors: as find_formulas, where neither one bowl nor several can be
/// mixed; more than 12 zones.
[[nodiscard]] Result<BowlGrouping> group_bowls(std::span<const FormulaShade> shades,
                                               std::span<const FormulaZone> zones,
                                               const BowlRules& rules, Executor& executor,
                                               double trouble = kBowlTrouble);

}  // namespace hw::plan
