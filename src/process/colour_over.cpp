#include "huewright/process/colour_over.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "huewright/colour/difference.h"
#include "huewright/process/shade.h"

namespace hw::process {
namespace {

constexpr double kStrandUm = 70;

using Three = std::array<double, 3>;

colour::HairLab lab_of_absorption(const colour::Spectrum& mu) {
  return colour::lab_of(hair::tress_reflectance(mu, Micrometres(kStrandUm), hair::kSurfaceTerm));
}

colour::Spectrum plus(const colour::Spectrum& base, const std::array<colour::Spectrum, 3>& parts,
                      const Three& amounts) {
  colour::Spectrum sum = base;
  for (std::size_t k = 0; k < parts.size(); ++k) {
    for (std::size_t i = 0; i < colour::kBands; ++i) sum[i] += amounts[k] * parts[k][i];
  }
  return sum;
}

/// Nonnegative amounts of three absorptions on a base that come nearest to a colour: pattern search
/// in the roots of the amounts.
Three nearest(const colour::HairLab& wanted, const colour::Spectrum& base,
              const std::array<colour::Spectrum, 3>& parts, Three root, double first_step) {
  const auto miss = [&](const Three& r) {
    const Three amounts{r[0] * r[0], r[1] * r[1], r[2] * r[2]};
    return colour::delta_e_76(wanted, lab_of_absorption(plus(base, parts, amounts)));
  };
  double best = miss(root);
  double step = first_step;
  constexpr int kHalvings = 14;
  for (int halving = 0; halving < kHalvings; ++halving, step /= 2) {
    for (bool moved = true; moved;) {
      moved = false;
      for (std::size_t move = 0; move < 6; ++move) {
        Three tried = root;
        tried[move / 2] = std::max(0.0, tried[move / 2] + (move % 2 == 0 ? step : -step));
        const double value = miss(tried);
        if (value < best - 1e-12) {
          best = value;
          root = tried;
          moved = true;
        }
      }
    }
  }
  return {root[0] * root[0], root[1] * root[1], root[2] * root[2]};
}

colour::HairLab minus(const colour::HairLab& a, const colour::HairLab& b) {
  return {a.l - b.l, a.a - b.a, a.b - b.b};
}

}  // namespace

colour::HairLab ColourOver::at(double dye_left) const {
  colour::Spectrum mu = canvas;
  for (std::size_t i = 0; i < colour::kBands; ++i) mu[i] += dye_left * dye[i];
  const colour::HairLab lab = lab_of_absorption(mu);
  // What the start misses fades with the dye; what the canvas misses comes through as it goes.
  const auto carried = [&](double start, double bare) {
    return dye_left * start + (1 - dye_left) * bare;
  };
  return {lab.l + carried(residual.l, canvas_residual.l),
          lab.a + carried(residual.a, canvas_residual.a),
          lab.b + carried(residual.b, canvas_residual.b)};
}

ColourOver colour_over(const colour::HairLab& start, const colour::HairLab& canvas) {
  const std::array<colour::Spectrum, 3> hair_parts = {hair::eumelanin_per_percent(),
                                                      hair::pheomelanin_per_percent(),
                                                      hair::base_absorption(hair::kLiftedBase)};
  const auto& colourants = effective_colourants();
  const std::array<colour::Spectrum, 3> dye_parts = {colourants[0], colourants[1], colourants[2]};
  ColourOver over;
  over.canvas = plus({}, hair_parts, nearest(canvas, {}, hair_parts, {0.3, 0.3, 0.8}, 0.5));
  over.canvas_residual = minus(canvas, lab_of_absorption(over.canvas));
  over.dye = plus({}, dye_parts, nearest(start, over.canvas, dye_parts, {5, 5, 5}, 4));
  colour::Spectrum full = over.canvas;
  for (std::size_t i = 0; i < colour::kBands; ++i) full[i] += over.dye[i];
  over.residual = minus(start, lab_of_absorption(full));
  return over;
}

}  // namespace hw::process
