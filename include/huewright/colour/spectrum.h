#pragma once
// Every spectrum lives on one grid: 380 to 780 nm by 5 nm, 81 bands. Data on other grids come in
// through resample().
#include <array>
#include <cstddef>
#include <span>

#include "huewright/base/result.h"

namespace hw::colour {

inline constexpr double kFirstNm = 380;  // nm; range and step of the CIE 5 nm tables
inline constexpr double kLastNm = 780;   // nm
inline constexpr double kStepNm = 5;     // nm
inline constexpr std::size_t kBands = 81;

/// One value per band; band i lies at kFirstNm + i·kStepNm.
using Spectrum = std::array<double, kBands>;

/// The wavelength of a band [nm]. band: 0 to kBands − 1.
[[nodiscard]] constexpr double wavelength_nm(std::size_t band) {
  return kFirstNm + kStepNm * static_cast<double>(band);
}

/// A spectrum given at equal steps, brought to the grid [unit of the values].
/// start_nm: wavelength of the first value [nm], finite; step_nm: > 0 [nm]; values: at least 2,
/// finite, any unit (reflectance 0 to 1, relative power, ...).
/// Between samples: the cubic through the four samples round the point; in the first and last
/// interval the parabola through the three end samples (ASTM E2022), a straight line when only two
/// samples exist. A grid point that meets a sample takes it unchanged. Outside the data the end
/// value is held. Cubic Lagrange rather than Sprague: it needs four samples where Sprague needs six
/// and invented points at both ends, and instruments report few samples at 10 or 20 nm.
/// Errors: missing (fewer than 2 values), out_of_range (step not above 0, a value or wavelength
/// not finite, no part of the data within 380 to 780 nm).
/// Source: cie015_2018; astm_e2022 table of coefficients.
/// Worked: start 380, step 10, values 0.1, 0.2, 0.4, 0.5 give 0.3 at 395 nm.
[[nodiscard]] Result<Spectrum> resample(double start_nm, double step_nm,
                                        std::span<const double> values);

}  // namespace hw::colour
