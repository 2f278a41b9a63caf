#include "formula_kernel.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "huewright/colour/difference.h"
#include "huewright/colour/light.h"

namespace hw::plan {
namespace {

constexpr std::size_t kMostLanes = 256;  // sixteen zones of sixteen representatives

/// Viewing weights at 10 nm, scaled so that white stays white.
struct CoarseWeights {
  CoarseSpectrum x, y, z;
};

const CoarseWeights& coarse_weights() {
  static const CoarseWeights weights = [] {
    const colour::Viewing& fine = colour::daylight_10deg();
    CoarseWeights w{coarse(fine.x), coarse(fine.y), coarse(fine.z)};
    const auto scale = [](CoarseSpectrum& values, double white) {
      const double sum = std::accumulate(values.begin(), values.end(), 0.0);
      for (double& value : values) value *= white / sum;
    };
    scale(w.x, fine.white.x);
    scale(w.y, fine.white.y);
    scale(w.z, fine.white.z);
    return w;
  }();
  return weights;
}

const CoarseSpectrum& white_base() {
  static const CoarseSpectrum spectrum = coarse(hair::base_absorption(hair::kWhiteBase));
  return spectrum;
}

struct Sums {
  alignas(64) double x[kMostLanes];
  alignas(64) double y[kMostLanes];
  alignas(64) double z[kMostLanes];
};

HW_KERNEL void reflect(std::size_t count, const double* canvas, const double* uptake,
                       const double* radius_cm, const double* surface, const double* white_share,
                       const double* bowl, const double* bare, const double* wx, const double* wy,
                       const double* wz, bool any_white, double* x, double* y, double* z) {
  for (std::size_t band = 0; band < kCoarseBands; ++band) {
    const double* mu0 = canvas + band * count;
    const double dyes = bowl[band];
    const double x_band = wx[band];
    const double y_band = wy[band];
    const double z_band = wz[band];
    for (std::size_t m = 0; m < count; ++m) {
      const double mu = mu0[m] + uptake[m] * dyes;
      const double body = exp_portable(-hair::kTressD * std::sqrt(mu * radius_cm[m]));
      const double r = surface[m] + (1 - surface[m]) * (1 - white_share[m]) * body;
      x[m] += x_band * r;
      y[m] += y_band * r;
      z[m] += z_band * r;
    }
    if (!any_white) continue;
    const double bare_band = bare[band];
    for (std::size_t m = 0; m < count; ++m) {
      const double mu = bare_band + uptake[m] * dyes;
      const double r = (1 - surface[m]) * white_share[m] *
                       exp_portable(-hair::kTressD * std::sqrt(mu * radius_cm[m]));
      x[m] += x_band * r;
      y[m] += y_band * r;
      z[m] += z_band * r;
    }
  }
}

void sums_of(const FormulaLanes& lanes, const CoarseSpectrum& bowl, Sums& sums) {
  HW_CHECK(lanes.count <= kMostLanes);
  std::fill_n(sums.x, lanes.count, 0.0);
  std::fill_n(sums.y, lanes.count, 0.0);
  std::fill_n(sums.z, lanes.count, 0.0);
  const CoarseWeights& w = coarse_weights();
  reflect(lanes.count, lanes.canvas.data(), lanes.uptake.data(), lanes.radius_cm.data(),
          lanes.surface.data(), lanes.white_share.data(), bowl.data(), white_base().data(),
          w.x.data(), w.y.data(), w.z.data(), lanes.any_white, sums.x, sums.y, sums.z);
}

/// Absorption [1/cm] of one member's pigmented strands, dyes that are there included.
CoarseSpectrum member_absorption(const hair::TressMembers& canvas, std::size_t m) {
  static const CoarseSpectrum eu = coarse(hair::eumelanin_per_percent());
  static const CoarseSpectrum pheo = coarse(hair::pheomelanin_per_percent());
  static const CoarseSpectrum base = coarse(hair::base_absorption(hair::kLiftedBase));
  CoarseSpectrum mu{};
  for (std::size_t band = 0; band < kCoarseBands; ++band) {
    mu[band] = canvas.eumelanin_percent[m] * eu[band] + canvas.pheo_like_percent[m] * pheo[band] +
               canvas.base_share[m] * base[band];
    for (const hair::DyeLayer& dye : canvas.dyes) {
      mu[band] += dye.amount[m] * dye.absorption[2 * band];
    }
  }
  return mu;
}

/// Members that stand for all: one of each of 16 strata of depth over all zones. Members are the
/// same hypothesis in every zone, so one choice serves them all.
std::vector<std::size_t> chosen_members(std::span<const FormulaZone> zones) {
  const std::size_t members = zones.front().canvas.size();
  std::vector<double> depth(members, 0);
  std::vector<colour::HairLab> labs(members);
  for (const FormulaZone& zone : zones) {
    hair::tress_labs(zone.canvas, labs);
    for (std::size_t m = 0; m < members; ++m) depth[m] += labs[m].l - 10 * std::log(zone.uptake[m]);
  }
  std::vector<std::size_t> order(members);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return depth[a] < depth[b]; });
  const std::size_t count = std::min(kRepresentatives, members);
  std::vector<std::size_t> chosen;
  for (std::size_t i = 0; i < count; ++i)
    chosen.push_back(order[(2 * i + 1) * members / (2 * count)]);
  return chosen;
}

}  // namespace

CoarseSpectrum coarse(const colour::Spectrum& fine) {
  CoarseSpectrum every_other{};
  for (std::size_t band = 0; band < kCoarseBands; ++band) every_other[band] = fine[2 * band];
  return every_other;
}

FormulaLanes representatives(std::span<const FormulaZone> zones) {
  const std::vector<std::size_t> chosen = chosen_members(zones);
  FormulaLanes lanes;
  lanes.count = chosen.size() * zones.size();
  lanes.canvas.resize(kCoarseBands * lanes.count);
  double whole = 0;
  for (const FormulaZone& zone : zones) whole += zone.weight;
  for (const FormulaZone& zone : zones) {
    for (const std::size_t m : chosen) {
      const std::size_t lane = lanes.weight.size();
      const CoarseSpectrum mu = member_absorption(zone.canvas, m);
      for (std::size_t band = 0; band < kCoarseBands; ++band) {
        lanes.canvas[band * lanes.count + lane] = mu[band];
      }
      lanes.uptake.push_back(zone.uptake[m]);
      lanes.radius_cm.push_back(zone.canvas.radius_cm[m]);
      lanes.surface.push_back(zone.canvas.surface_term[m]);
      lanes.white_share.push_back(zone.canvas.white_share);
      lanes.any_white = lanes.any_white || zone.canvas.white_share > 0;
      lanes.target.push_back(zone.target);
      lanes.weight.push_back(zone.weight / whole / static_cast<double>(chosen.size()));
    }
  }
  return lanes;
}

double expected_de00(const FormulaLanes& lanes, const CoarseSpectrum& bowl) {
  Sums sums;
  sums_of(lanes, bowl, sums);
  double expected = 0;
  for (std::size_t m = 0; m < lanes.count; ++m) {
    const auto lab = colour::xyz_to_lab(colour::HairXyz{sums.x[m], sums.y[m], sums.z[m]});
    expected += lanes.weight[m] * colour::delta_e_2000(lanes.target[m], lab);
  }
  return expected;
}

double least_de00(const FormulaLanes& lanes, const CoarseSpectrum& least,
                  const CoarseSpectrum& most) {
  Sums light;
  Sums dark;
  sums_of(lanes, least, light);
  sums_of(lanes, most, dark);
  double bound = 0;
  for (std::size_t m = 0; m < lanes.count; ++m) {
    const double high = colour::xyz_to_lab(colour::HairXyz{light.x[m], light.y[m], light.z[m]}).l;
    const double low = colour::xyz_to_lab(colour::HairXyz{dark.x[m], dark.y[m], dark.z[m]}).l;
    const double target = lanes.target[m].l;
    const double nearest = std::clamp(target, low, high);
    // CIEDE2000 of two greys of these lightnesses is its lightness term alone.
    bound += lanes.weight[m] *
             colour::delta_e_2000(colour::HairLab{target, 0, 0}, colour::HairLab{nearest, 0, 0});
  }
  return bound;
}

}  // namespace hw::plan
