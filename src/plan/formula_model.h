#pragma once
// The objective near a bowl as a quadratic of the shares, and the best shares by that quadratic.
// A distance is a distance whichever way it is looked at: what bends the objective is the pull of
// the lanes against each other (Gauss and Newton's part of the second derivative), so one look at a
// bowl tells how every shade of the shelf would change it.
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "formula_lanes.h"

namespace hw::plan {

inline constexpr std::size_t kMostInBowl = 4;  // shades; the setting's upper end

/// The shades of a search.
struct SearchShelf {
  std::vector<SearchSpectrum> spectra;
  std::vector<double> by_band;  ///< the same as [band][shade]
  std::vector<double> cap;      ///< largest share: 1, or what is in stock
  std::vector<double> price;    ///< of a whole bowl, in CIEDE2000
  bool clear = true;
  [[nodiscard]] std::size_t size() const { return spectra.size(); }
};

/// Some shades with their shares; clear takes what they leave.
struct Mix {
  std::size_t count = 0;
  std::array<std::size_t, kMostInBowl> shade{};
  std::array<double, kMostInBowl> share{};
  double value = 1e300;  ///< of the objective, or of a model of it
};
[[nodiscard]] SearchSpectrum bowl_of(const SearchShelf& shelf, const Mix& mix);
[[nodiscard]] double price_of(const SearchShelf& shelf, const Mix& mix);
/// Expected CIEDE2000 and price.
[[nodiscard]] double objective(const FormulaLanes& lanes, const SearchShelf& shelf, const Mix& mix);

/// The objective's value, first derivative and bend at one bowl.
struct Slopes {
  double value = 0;                              ///< expected CIEDE2000
  std::array<double, kSearchBands> first{};      ///< by band [cm]
  std::vector<BlockMetric> metric;               ///< by block, weights worked in
  std::vector<std::vector<double>> reflectance;  ///< by block: [band][lane], cm
};
void slopes_at(const FormulaLanes& lanes, const SearchSpectrum& bowl, Slopes& slopes);

/// value ≈ constant + linear·x + ½·xᵀ·bend·x, x: shares.
struct Quadratic {
  std::size_t size = 0;
  double constant = 0;
  std::vector<double> linear;
  std::vector<double> bend;  ///< [size][size]
};
/// Model over every shade of the shelf, from the slopes at `bowl`, the bowl of shares `at`.
void model_of_shelf(const FormulaLanes& lanes, const SearchShelf& shelf, const Slopes& slopes,
                    std::span<const double> at, Quadratic& model);
/// Shares to be found by a quadratic: `least` to `cap` each, all together 1, or at most 1 with
/// clear.
struct ShareProblem {
  std::size_t size = 0;
  double constant = 0;
  const double* linear = nullptr;
  const double* bend = nullptr;  ///< [size][size]
  const double* cap = nullptr;
  double least = 0;
  bool clear = true;
};
/// The best shares, by moving from shade to shade as long as a whole bowl moved could gain 0.001.
/// share: a start that keeps to the rules, changed to the best. slope: room for `size` numbers;
/// the first derivative there. Returns the value.
double best_shares(const ShareProblem& problem, double* share, double* slope);

/// A quadratic of the shades of one bowl.
struct FewShades {
  std::size_t size = 0;
  double constant = 0;
  std::array<double, kMostInBowl> linear{};
  std::array<double, kMostInBowl * kMostInBowl> bend{};  ///< [size][size]
  std::array<double, kMostInBowl> cap{};
  [[nodiscard]] ShareProblem problem(bool clear, double least = 0) const {
    return {size, constant, linear.data(), bend.data(), cap.data(), least, clear};
  }
};
/// Those of a mix, out of a model of the whole shelf.
[[nodiscard]] FewShades few_of(const Quadratic& model, const SearchShelf& shelf, const Mix& mix);
/// Those of a mix, from the slopes at its own bowl.
[[nodiscard]] FewShades few_at(const FormulaLanes& lanes, const SearchShelf& shelf,
                               const Slopes& slopes, const Mix& mix);

}  // namespace hw::plan
