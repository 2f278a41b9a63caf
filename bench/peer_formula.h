#pragma once
// The formula solver's peer: NLopt's SLSQP from several starts on every subset of the shelf, with
// the solver's own objective and derivative.
#include <cstddef>

#include "formula_search.h"

namespace hw::bench {

struct PeerFound {
  plan::Mix best;  ///< lowest objective on the representatives
  std::size_t subsets = 0;
  std::size_t evaluations = 0;
  std::size_t failures = 0;  ///< starts that SLSQP left with an error; the best point seen is kept
};

/// Every subset of `count` shades (smaller ones lie on its edge), `starts` random mixtures each.
/// With clear only.
[[nodiscard]] PeerFound search_by_slsqp(const plan::FormulaLanes& lanes,
                                        const plan::SearchShelf& shelf, std::size_t count,
                                        std::size_t starts);

}  // namespace hw::bench
