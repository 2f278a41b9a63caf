#pragma once
// Sums over lanes and bands for the solver's second-order model. Sums run in a fixed order, so the
// bits are the same on every instruction set.
#include <cstddef>

#include "formula_kernel.h"

namespace hw::plan {

inline constexpr std::size_t kSearchBands = 32;  ///< room for a search's bands, padded

/// first[band] += Σ over lanes of slope · (turn by X, Y, Z).
void formula_first(std::size_t lanes, const BlockBands& bands, const double* slope,
                   const BlockMetric& metric, double* first);

/// out[row][lane] = how the metric's row of each lane turns with the share of one shade.
void formula_jacobian(std::size_t lanes, const BlockBands& bands, const double* slope,
                      const BlockMetric& metric, const double* spectrum,
                      double (*out)[kBlockLanes]);

/// bend[band][band] += Σ over lanes and rows of q·qᵀ, q[band]: how a row turns with a band.
void formula_bend(std::size_t lanes, const BlockBands& bands, const double* slope,
                  const BlockMetric& metric, double (*bend)[kSearchBands]);

/// bent[band][shade] = Σ bend[band][other]·spectra[other][shade], and
/// gram[shade][shade] = Σ spectra[band][shade]·bent[band][shade].
void formula_gram(std::size_t bands, std::size_t shades, const double* spectra,
                  const double (*bend)[kSearchBands], double* bent, double* gram);

}  // namespace hw::plan
