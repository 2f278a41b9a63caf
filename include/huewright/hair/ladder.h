#pragma once
// Levels: ten rungs of depth, 1 black to 10 lightest blond, each an L* at D65, 10°. Level is read
// from L* alone, so that a lifted strand and a natural one of the same depth have the same level;
// tone and warmth are words.h.
#include <array>
#include <cstddef>
#include <span>

#include "huewright/base/result.h"

namespace hw::hair {

inline constexpr std::size_t kRungs = 10;  // levels of the trade scale: common practice

/// Ten L* values, strictly rising within 0 to 100. Made by default_ladder(), make_ladder(),
/// refit().
class Ladder {
 public:
  /// Level of a depth [level], linear between rungs. lstar: L* at D65, 10°; depths below the first
  /// rung give 1, above the last give 10. The default ladder gives level_of(33) = 5.5.
  [[nodiscard]] double level_of(double lstar) const;

  /// Depth of a level [L*]; the inverse of level_of between 1 and 10, held to the end rungs
  /// outside. The default ladder gives lstar_of(5.5) = 33.
  [[nodiscard]] double lstar_of(double level) const;

  /// L* of levels 1 to 10.
  [[nodiscard]] const std::array<double, kRungs>& rungs() const { return rungs_; }

  bool operator==(const Ladder&) const = default;

 private:
  friend Result<Ladder> make_ladder(std::span<const double> lstar);
  explicit Ladder(const std::array<double, kRungs>& rungs) : rungs_(rungs) {}
  std::array<double, kRungs> rungs_;
};

/// A ladder from ten L* values, level 1 first.
/// Errors: not ten values; a value outside 0 to 100 or not finite; a value not above the one
/// before.
[[nodiscard]] Result<Ladder> make_ladder(std::span<const double> lstar);

/// The ladder of data/hair/ladder.csv (grade: guess between measured anchors).
[[nodiscard]] const Ladder& default_ladder();

/// A salon's own swatch that it calls a level, and what the salon's instrument reads on it.
struct Swatch {
  double level = 0;     ///< 1 to 10, halves and tenths allowed
  double lstar = 0;     ///< reading at D65, 10° [L*]
  double sd_lstar = 0;  ///< sd of the reading, above 0 [L*]; a moved dark tress scatters by 1.19
};

/// How far a salon's rungs may lie from the prior ones, before any swatch is read.
struct RungPrior {
  std::array<double, kRungs> sd_lstar{};  ///< 1 sd of each rung, above 0 [L*]
  double neighbour_correlation = 0;       ///< between the errors of adjoining rungs, 0 to below 1
};

/// The sd of data/hair/ladder.csv and a neighbour correlation of 0.7 (guess: a salon that sees one
/// level darker than we do mostly sees the next one darker too).
[[nodiscard]] const RungPrior& default_rung_prior();

struct Refit {
  Ladder ladder;
  std::array<double, kRungs> moved_lstar;  ///< new rung minus prior rung [L*]
  std::size_t pooled = 0;  ///< rungs that had to be moved further to keep the ladder rising
};

/// The prior ladder drawn towards a salon's swatches [L* per rung].
///
/// The rungs are taken as jointly normal round the prior with the sd and neighbour correlation of
/// `scatter` (correlation falls by that factor per level, so its inverse is tridiagonal); a swatch
/// observes the linear interpolation between the two rungs at its level, with its own sd. The
/// result is the most likely ladder, that is weighted least squares shrunk to the prior: a swatch
/// moves its own rung most, neighbours less with distance, and many swatches overrule the prior.
/// Where swatches contradict each other the rungs are pooled (pool-adjacent-violators, weighted by
/// certainty) with a least step, so that levels stay strictly rising within 0 to 100.
///
/// prior: returned bit for bit when there are no swatches. swatches: any order, any number.
/// Errors: a level outside 1 to 10, an L* outside 0 to 100, an sd not above 0 (where:
/// swatches[i].…); a prior sd not above 0 or a correlation outside 0 to below 1. Source: Gaussian
/// conditioning and isotonic regression, barlow_1972. Deterministic. A level-5 swatch read as 33.0
/// ± 0.5 moves rung 5 of the default ladder by about +2.9.
[[nodiscard]] Result<Refit> refit(const Ladder& prior, std::span<const Swatch> swatches,
                                  const RungPrior& scatter = default_rung_prior());

/// How light a depth looks, relative [1]: L*^0.766. lstar: 0 to 100; below 0 gives 0. Ratios have
/// meaning: L* 40 looks 1.70 times as light as L* 20. Source: dyed_hair_brightness_2023, abstract.
[[nodiscard]] double perceived_depth(double lstar);

}  // namespace hw::hair
