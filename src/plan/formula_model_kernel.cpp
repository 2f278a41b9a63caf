#include "formula_model_kernel.h"

#include "huewright/base/check.h"

// Tests compile this file again for single instruction sets under other names and compare bits.
#ifndef HW_FORMULA_FIRST
#define HW_FORMULA_FIRST formula_first
#define HW_FORMULA_JACOBIAN formula_jacobian
#define HW_FORMULA_BEND formula_bend
#define HW_FORMULA_GRAM formula_gram
#endif

namespace hw::plan {

HW_KERNEL void HW_FORMULA_FIRST(std::size_t lanes, const BlockBands& bands, const double* slope,
                                const BlockMetric& metric, double* first) {
  for (std::size_t band = 0; band < bands.count; ++band) {
    alignas(64) double sum[kLaneStep] = {};
    const double* at = slope + band * lanes;
    const double wx = bands.x[band];
    const double wy = bands.y[band];
    const double wz = bands.z[band];
    for (std::size_t start = 0; start < lanes; start += kLaneStep) {
      for (std::size_t j = 0; j < kLaneStep; ++j) {
        const std::size_t m = start + j;
        sum[j] +=
            at[m] * (wx * metric.turn[0][m] + wy * metric.turn[1][m] + wz * metric.turn[2][m]);
      }
    }
    first[band] +=
        ((sum[0] + sum[4]) + (sum[2] + sum[6])) + ((sum[1] + sum[5]) + (sum[3] + sum[7]));
  }
}

HW_KERNEL void HW_FORMULA_JACOBIAN(std::size_t lanes, const BlockBands& bands, const double* slope,
                                   const BlockMetric& metric, const double* spectrum,
                                   double (*out)[kBlockLanes]) {
  for (std::size_t start = 0; start < lanes; start += kLaneStep) {
    alignas(64) double x[kLaneStep] = {};
    alignas(64) double y[kLaneStep] = {};
    alignas(64) double z[kLaneStep] = {};
    for (std::size_t band = 0; band < bands.count; ++band) {
      const double* at = slope + band * lanes + start;
      const double wx = bands.x[band] * spectrum[band];
      const double wy = bands.y[band] * spectrum[band];
      const double wz = bands.z[band] * spectrum[band];
      for (std::size_t j = 0; j < kLaneStep; ++j) {
        x[j] += wx * at[j];
        y[j] += wy * at[j];
        z[j] += wz * at[j];
      }
    }
    for (std::size_t row = 0; row < 3; ++row) {
      for (std::size_t j = 0; j < kLaneStep; ++j) {
        const std::size_t m = start + j;
        out[row][m] = metric.bend[row][0][m] * x[j] + metric.bend[row][1][m] * y[j] +
                      metric.bend[row][2][m] * z[j];
      }
    }
  }
}

HW_KERNEL void HW_FORMULA_BEND(std::size_t lanes, const BlockBands& bands, const double* slope,
                               const BlockMetric& metric, double (*bend)[kSearchBands]) {
  for (std::size_t m = 0; m < lanes; ++m) {
    for (std::size_t row = 0; row < 3; ++row) {
      alignas(64) double q[kSearchBands] = {};
      const double qx = metric.bend[row][0][m];
      const double qy = metric.bend[row][1][m];
      const double qz = metric.bend[row][2][m];
      for (std::size_t band = 0; band < bands.count; ++band) {
        q[band] = slope[band * lanes + m] *
                  (qx * bands.x[band] + qy * bands.y[band] + qz * bands.z[band]);
      }
      for (std::size_t i = 0; i < bands.count; ++i) {
        const double qi = q[i];
        for (std::size_t j = 0; j < kSearchBands; ++j) bend[i][j] += qi * q[j];
      }
    }
  }
}

HW_KERNEL void HW_FORMULA_GRAM(std::size_t bands, std::size_t shades, const double* spectra,
                               const double (*bend)[kSearchBands], double* bent, double* gram) {
  for (std::size_t band = 0; band < bands; ++band) {
    double* row = bent + band * shades;
    for (std::size_t k = 0; k < shades; ++k) row[k] = 0;
    for (std::size_t other = 0; other < bands; ++other) {
      const double share = bend[band][other];
      const double* spectrum = spectra + other * shades;
      for (std::size_t k = 0; k < shades; ++k) row[k] += share * spectrum[k];
    }
  }
  for (std::size_t i = 0; i < shades; ++i) {
    double* row = gram + i * shades;
    for (std::size_t k = 0; k < shades; ++k) row[k] = 0;
    for (std::size_t band = 0; band < bands; ++band) {
      const double share = spectra[band * shades + i];
      const double* from = bent + band * shades;
      for (std::size_t k = 0; k < shades; ++k) row[k] += share * from[k];
    }
  }
}

}  // namespace hw::plan
