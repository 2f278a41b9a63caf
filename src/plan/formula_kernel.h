#pragma once
// The inner loops of the formula solver: what a bowl reflects in every lane (one hypothesis about
// one zone), how that turns with each band of the bowl, and CIEDE2000 to the lane's target. Plain
// loops from + − × ÷ and √ alone, so the bits are the same on every instruction set.
#include <cstddef>

namespace hw::plan {

inline constexpr std::size_t kBlockLanes = 64;  ///< of one block; a multiple of kLaneStep
inline constexpr std::size_t kLaneStep = 8;     ///< lanes come in multiples of it

/// Hair of one block, by lane; canvas is [band][lane].
struct BlockHair {
  std::size_t count;          ///< of lanes, a multiple of kLaneStep
  const double* canvas;       ///< [1/cm] of the pigmented strands
  const double* uptake;       ///< of a full reference application
  const double* depth;        ///< D·√radius [√cm]
  const double* surface;      ///< 0–1
  const double* white_share;  ///< 0–1
  bool any_white;
};

/// Bands of the search and the weights that a reflectance is summed with.
struct BlockBands {
  std::size_t count;
  const double* x;
  const double* y;
  const double* z;
  const double* bare;   ///< [1/cm] of a white strand
  const double* white;  ///< X, Y, Z of the perfect diffuser
};

struct BlockXyz {
  alignas(64) double x[kBlockLanes];
  alignas(64) double y[kBlockLanes];
  alignas(64) double z[kBlockLanes];
};

/// Targets of one block's lanes.
struct BlockTarget {
  const double* l;
  const double* a;
  const double* b;
};

/// Adds amount × per_unit to one band of every lane's absorption.
void formula_layer(std::size_t count, const double* amount, double per_unit, double* canvas);

/// Colours of a bowl whose dyes come to `bowl` [1/cm per band] at full uptake.
void formula_colours(const BlockHair& hair, const BlockBands& bands, const double* bowl,
                     BlockXyz& xyz);

/// The same, and slope[band][lane] = d reflectance / d bowl[band] [cm].
void formula_slopes(const BlockHair& hair, const BlockBands& bands, const double* bowl,
                    BlockXyz& xyz, double* slope);

/// CIEDE2000 of each lane to its target: within 1e-5 of sharma2005 below 10, within 2e-4 above.
void formula_differences(std::size_t count, const BlockTarget& target, const double* white,
                         const BlockXyz& xyz, double* difference);

/// What a second-order model of CIEDE2000 needs, by lane.
struct BlockMetric {
  alignas(64) double difference[kBlockLanes];
  alignas(64) double turn[3][kBlockLanes];     ///< d difference / d X, Y, Z
  alignas(64) double bend[3][3][kBlockLanes];  ///< rows q: d² ≈ Σ (q·dXYZ)²
};
void formula_metric(std::size_t count, const BlockTarget& target, const double* white,
                    const BlockXyz& xyz, BlockMetric& metric);

/// A lower bound of CIEDE2000 to the target over every colour whose X, Y and Z lie between those of
/// `dark` and `light`. With dC'² + dH'² = (1+G)²·da*² + db*² and SH ≤ SC:
///   ΔE00² ≥ (dL/SL)² + (1 − |RT|/2)·(da*² + db*²)/SC²
/// at the nearest point of the box of Lab that the two span, SC at its farthest. The lightness term
/// grows with |dL|, so its own SL may stand there.
void formula_bound(std::size_t count, const BlockTarget& target, const double* white,
                   const BlockXyz& light, const BlockXyz& dark, double* bound);

}  // namespace hw::plan
