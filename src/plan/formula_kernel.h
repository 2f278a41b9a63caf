#pragma once
// The objective of the formula search on its representatives: a fixed number of lanes
// (representatives of all zones side by side) and 41 bands of 10 nm.
#include <array>
#include <cstddef>
#include <vector>

#include "huewright/plan/formula.h"

namespace hw::plan {

inline constexpr std::size_t kCoarseBands = 41;      // 380 to 780 nm by 10 nm
inline constexpr std::size_t kRepresentatives = 16;  // of one zone
using CoarseSpectrum = std::array<double, kCoarseBands>;

/// Every other band of a 5 nm spectrum.
[[nodiscard]] CoarseSpectrum coarse(const colour::Spectrum& fine);

/// Representatives of all zones side by side.
struct FormulaLanes {
  std::size_t count = 0;
  std::vector<double> canvas;  ///< [band][lane], 1/cm, of the pigmented strands
  std::vector<double> uptake;  ///< [lane]
  std::vector<double> radius_cm;
  std::vector<double> surface;
  std::vector<double> white_share;
  bool any_white = false;
  std::vector<double> weight;  ///< adds to 1
  std::vector<colour::HairLab> target;
};

[[nodiscard]] FormulaLanes representatives(std::span<const FormulaZone> zones);

/// Expected CIEDE2000 of a bowl whose dyes come to `bowl` [1/cm] at full uptake.
[[nodiscard]] double expected_de00(const FormulaLanes& lanes, const CoarseSpectrum& bowl);

/// A lower bound of expected_de00 over every mixture of bowls whose spectra lie band by band
/// between `least` and `most`: from lightness alone, since the chroma and hue terms of CIEDE2000
/// together are never negative.
[[nodiscard]] double least_de00(const FormulaLanes& lanes, const CoarseSpectrum& least,
                                const CoarseSpectrum& most);

}  // namespace hw::plan
