#pragma once
// The solver's view of the hair: blocks of lanes on a grid of bands, and the objective over them.
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "formula_model_kernel.h"
#include "huewright/plan/formula.h"

namespace hw::plan {

inline constexpr std::size_t kRepresentatives = 16;  // of one zone

/// Bands of a search: all of 5 nm, or few of them (colour/few_bands.h).
struct FormulaGrid {
  std::size_t count = 0;
  std::size_t first = 0;
  std::size_t stride = 1;
  std::vector<double> x, y, z;
  std::vector<double> bare;  ///< [1/cm] of a white strand
  std::array<double, 3> white{};
  [[nodiscard]] BlockBands bands() const;
};
[[nodiscard]] const FormulaGrid& fine_grid();    ///< 81 bands of 5 nm
[[nodiscard]] const FormulaGrid& coarse_grid();  ///< 31 of 10 nm, 400 to 700
[[nodiscard]] const FormulaGrid& rough_grid();   ///< 16 of 20 nm, 400 to 700

using SearchSpectrum = std::array<double, kSearchBands>;  ///< zero beyond the grid's bands
[[nodiscard]] SearchSpectrum sampled(const colour::Spectrum& fine, const FormulaGrid& grid);

/// At most kBlockLanes lanes, padded with lanes of no weight.
struct FormulaBlock {
  std::size_t count = 0;
  bool any_white = false;
  std::vector<double> canvas;  ///< [band][lane], 1/cm
  alignas(64) std::array<double, kBlockLanes> uptake{};
  alignas(64) std::array<double, kBlockLanes> depth{};
  alignas(64) std::array<double, kBlockLanes> surface{};
  alignas(64) std::array<double, kBlockLanes> white_share{};
  alignas(64) std::array<double, kBlockLanes> target_l{};
  alignas(64) std::array<double, kBlockLanes> target_a{};
  alignas(64) std::array<double, kBlockLanes> target_b{};
  std::array<double, kBlockLanes> weight{};     ///< in its zone; a zone's add to 1
  std::array<std::size_t, kBlockLanes> zone{};  ///< whose lane it is
  [[nodiscard]] BlockHair hair() const;
  [[nodiscard]] BlockTarget target() const;
};

/// Lanes of all zones.
struct FormulaLanes {
  const FormulaGrid* grid = nullptr;
  std::vector<FormulaBlock> blocks;
  std::vector<double> zone_weight;  ///< adds to 1
};

/// Blocks that `members` of each of `zones` fill, and one of them.
[[nodiscard]] std::size_t block_count(std::size_t zones, std::size_t members);
[[nodiscard]] FormulaBlock make_block(std::span<const FormulaZone> zones,
                                      std::span<const std::size_t> members, std::size_t index,
                                      const FormulaGrid& grid);

/// Lanes of the given members of every zone.
[[nodiscard]] FormulaLanes lanes_of(std::span<const FormulaZone> zones,
                                    std::span<const std::size_t> members, const FormulaGrid& grid);
[[nodiscard]] std::vector<std::size_t> all_members(std::span<const FormulaZone> zones);
/// At most kRepresentatives members that stand for all: one of each stratum of depth over all
/// zones. Members are the same hypothesis in every zone, so one choice serves them all.
[[nodiscard]] std::vector<std::size_t> representatives(std::span<const FormulaZone> zones);

/// Expected CIEDE2000 of a bowl, zones by their weight. bowl: [1/cm] per band of the grid.
[[nodiscard]] double expected_de00(const FormulaLanes& lanes, const double* bowl);
/// Adds what the lanes of a block give to each zone's expected CIEDE2000.
void add_zone_de00(const FormulaBlock& block, const FormulaGrid& grid, const double* bowl,
                   double* zones);

/// A lower bound of expected_de00 over every mixture of bowls that lie band by band between `least`
/// and `most`: from the box of Lab between their colours (formula_bound).
[[nodiscard]] double least_de00(const FormulaLanes& lanes, const double* least, const double* most);

}  // namespace hw::plan
