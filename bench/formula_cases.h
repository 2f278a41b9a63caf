#pragma once
// Shelves and heads for the formula solver: the same for every benchmark and for its peer.
#include <cstddef>
#include <vector>

#include "huewright/plan/formula.h"

namespace hw::bench {

inline constexpr std::size_t kFormulaMembers = 512;  ///< of one zone, in full
inline constexpr double kQuickGoalMs = 0.5;   ///< 30 shades, 3 zones of 16 members, 3 in a bowl
inline constexpr double kFormulaGoalMs = 10;  ///< 30 shades, 3 zones of 512 members, 3 in a bowl

/// A shelf of `count` shades, at most 90: two in three known by level and tone alone, one in three
/// by a spectrum of its own.
[[nodiscard]] std::vector<plan::FormulaShade> formula_shelf(std::size_t count);

/// `count` zones of lightened hair that want one colour, each `members` hypotheses.
[[nodiscard]] std::vector<plan::FormulaZone> formula_zones(std::size_t count, std::size_t members,
                                                           const colour::HairLab& target);

/// What the benchmarks ask for: a light brown, a copper, a deep red-violet, a beige.
[[nodiscard]] const std::vector<colour::HairLab>& formula_targets();

}  // namespace hw::bench
