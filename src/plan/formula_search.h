#pragma once
// The parts of a formula search: where all shades together would go, which few of them come
// nearest by a model, the true best shares of those, and what a scale can weigh of them.
#include <cstddef>
#include <span>
#include <vector>

#include "formula_model.h"
#include "huewright/base/executor.h"

namespace hw::plan {

[[nodiscard]] SearchShelf search_shelf(std::span<const FormulaShade> shades,
                                       const FormulaRules& rules, const FormulaGrid& grid);

/// Whether shades can fill a bowl: always with clear.
[[nodiscard]] bool can_fill(const SearchShelf& shelf, const Mix& mix);

/// Best shares of all shades at once, whatever their number, and the model there. Empty shares: the
/// whole shelf cannot fill the bowl.
struct Relaxed {
  std::vector<double> share;
  Quadratic model;
  std::size_t evaluations = 0;
};
[[nodiscard]] Relaxed relax(const FormulaLanes& lanes, const SearchShelf& shelf, int most_steps);
/// The model at the bowl of a mix.
[[nodiscard]] Quadratic model_at(const FormulaLanes& lanes, const SearchShelf& shelf,
                                 const Mix& mix);

/// Subsets by a model, the best of each size first.
struct Enumerated {
  std::vector<std::vector<Mix>> by_size;  ///< [0]: of one shade
  std::size_t subsets = 0;                ///< that the model was asked about
};
/// Every single and every pair, then each larger size grown from the `beam` best of the one before.
[[nodiscard]] Enumerated enumerate(const Quadratic& model, const SearchShelf& shelf,
                                   std::size_t most_shades, std::size_t beam);

/// True best shares of the shades of a mix, from its shares on. few: the model there.
struct Refined {
  Mix mix;
  FewShades few;
  std::size_t evaluations = 0;
};
[[nodiscard]] Refined refine(const FormulaLanes& lanes, const SearchShelf& shelf, Mix mix,
                             int most_steps);

/// What a scale can weigh.
struct Weighing {
  double step = 0;   ///< of a whole bowl
  double least = 0;  ///< of a whole bowl: smallest pour
};
[[nodiscard]] Weighing weighing_of(const FormulaRules& rules);
/// Whole steps of the scale near a refined mix: the `tried` best by its model, of which the truly
/// best is kept. Value 1e300: no such weighing keeps to the rules.
[[nodiscard]] Mix weighed(const FormulaLanes& lanes, const SearchShelf& shelf,
                          const Refined& refined, const Weighing& weighing, std::size_t tried,
                          std::size_t& evaluations);

/// A weighing moved by steps of the scale, or a whole shade at once, as long as that truly helps.
[[nodiscard]] Mix settled(const FormulaLanes& lanes, const SearchShelf& shelf, Mix mix,
                          const Weighing& weighing, std::size_t& evaluations);

}  // namespace hw::plan
