#include "huewright/process/absorption_fit.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/process/nnls.h"

namespace hw::process {
namespace {

using Miss = std::array<double, 3>;

/// One problem: what is wanted of which strand by which absorbers.
struct Problem {
  const colour::HairLab& wanted;
  const FitStrand& strand;
  std::span<const colour::Spectrum> absorbers;
  const LabWeights& weights;
  std::vector<double> unit;  ///< of each absorber: the amount that absorbs 1/cm at its peak
};

colour::HairLab lab_at(const Problem& problem, const std::vector<double>& amounts) {
  colour::Spectrum mu = problem.strand.absorption;
  for (std::size_t k = 0; k < amounts.size(); ++k) {
    for (std::size_t i = 0; i < colour::kBands; ++i) mu[i] += amounts[k] * problem.absorbers[k][i];
  }
  return colour::lab_of(
      hair::tress_reflectance(mu, problem.strand.strand, problem.strand.surface_term));
}

Miss miss_of(const Problem& problem, const colour::HairLab& lab) {
  return {(lab.l - problem.wanted.l) / problem.weights.sd_l,
          (lab.a - problem.wanted.a) / problem.weights.sd_a,
          (lab.b - problem.wanted.b) / problem.weights.sd_b};
}

double length(const Miss& miss) {
  return std::sqrt(miss[0] * miss[0] + miss[1] * miss[1] + miss[2] * miss[2]);
}

/// Change of the miss with each amount, by a small step each way that stays ≥ 0.
Columns slopes(const Problem& problem, const std::vector<double>& amounts,
               const std::vector<double>& scale) {
  constexpr double kStep = 1e-4;  // of the scale: far above rounding, far below curvature
  Columns jacobian(3 + amounts.size(), amounts.size());
  for (std::size_t k = 0; k < amounts.size(); ++k) {
    std::vector<double> tried = amounts;
    tried[k] = amounts[k] + kStep * scale[k];
    const Miss up = miss_of(problem, lab_at(problem, tried));
    const double low = std::max(0.0, amounts[k] - kStep * scale[k]);
    const double wide = tried[k] - low;
    tried[k] = low;
    const Miss down = miss_of(problem, lab_at(problem, tried));
    for (std::size_t i = 0; i < 3; ++i) jacobian.at(i, k) = (up[i] - down[i]) / wide;
  }
  return jacobian;
}

AbsorptionFit fit_from(const Problem& problem, std::vector<double> amounts) {
  constexpr int kMostSteps = 60;
  constexpr double kDone = 1e-10;       // gain of a step, in units of the miss
  constexpr double kMostDamping = 1e8;  // beyond it no step helps any more
  const std::size_t n = amounts.size();
  colour::HairLab lab = lab_at(problem, amounts);
  double best = length(miss_of(problem, lab));
  double damping = 0.1;
  for (int step = 0; step < kMostSteps && damping < kMostDamping; ++step) {
    // Colour goes with the root of absorption: an amount may double in a step, not jump.
    std::vector<double> scale(n);
    for (std::size_t k = 0; k < n; ++k) scale[k] = amounts[k] + problem.unit[k];
    Columns system = slopes(problem, amounts, scale);
    const Miss miss = miss_of(problem, lab);
    const double before = best;
    for (; damping < kMostDamping; damping *= 4) {
      std::vector<double> right(3 + n, 0.0);
      for (std::size_t i = 0; i < 3; ++i) {
        right[i] = -miss[i];
        for (std::size_t k = 0; k < n; ++k) right[i] += system.at(i, k) * amounts[k];
      }
      for (std::size_t k = 0; k < n; ++k) {
        system.at(3 + k, k) = damping / scale[k];
        right[3 + k] = damping * amounts[k] / scale[k];
      }
      auto tried = nonnegative_least_squares(system, right).x;
      const colour::HairLab there = lab_at(problem, tried);
      const double value = length(miss_of(problem, there));
      if (value < best) {
        best = value;
        lab = there;
        amounts = std::move(tried);
        damping /= 8;
        break;
      }
    }
    if (before - best < kDone) break;
  }
  return {std::move(amounts), lab, best};
}

}  // namespace

AbsorptionFit fit_absorptions(const colour::HairLab& wanted, const FitStrand& strand,
                              std::span<const colour::Spectrum> absorbers,
                              const LabWeights& weights) {
  HW_CHECK(!absorbers.empty());
  Problem problem{wanted, strand, absorbers, weights, {}};
  for (const auto& absorber : absorbers) {
    const double peak = *std::max_element(absorber.begin(), absorber.end());
    HW_CHECK(peak > 0);
    problem.unit.push_back(1 / peak);
  }
  AbsorptionFit best;
  for (const double start : {30.0, 3.0, 300.0}) {  // 1/cm at the peak: middle, pale, deep colour
    std::vector<double> amounts;
    for (const double unit : problem.unit) amounts.push_back(start * unit);
    AbsorptionFit fit = fit_from(problem, std::move(amounts));
    if (best.amounts.empty() || fit.miss < best.miss - 1e-6) best = std::move(fit);
    if (best.miss < 1e-6) break;
  }
  return best;
}

}  // namespace hw::process
