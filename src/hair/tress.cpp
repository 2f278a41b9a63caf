#include "huewright/hair/tress.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/colour/few_bands.h"
#include "huewright/colour/light.h"
#include "tress_kernel.h"

namespace hw::hair {
namespace {

constexpr double kCmPerUm = 1e-4;

}  // namespace

double tress_d(double beta) {
  return 5.969 + beta * (-0.215 + beta * (2.532 + beta * (-10.73 + beta * (5.574 + beta * 0.245))));
}

colour::Spectrum absorption(const Strand& strand) {
  const colour::Spectrum& eu = eumelanin_per_percent();
  const colour::Spectrum& pheo = pheomelanin_per_percent();
  colour::Spectrum mu = base_absorption(strand.base);
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    mu[i] += strand.eumelanin_percent * eu[i] +
             (strand.pheomelanin_percent + strand.warm_percent) * pheo[i];
  }
  return mu;
}

colour::Spectrum tress_reflectance(const colour::Spectrum& absorption_per_cm, Micrometres strand_um,
                                   double surface_term) {
  const double radius_cm = strand_um.value() / 2 * kCmPerUm;
  colour::Spectrum reflectance{};
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    reflectance[i] =
        surface_term +
        (1 - surface_term) * std::exp(-kTressD * std::sqrt(absorption_per_cm[i] * radius_cm));
  }
  return reflectance;
}

colour::HairLab tress_lab(const Strand& strand) {
  return colour::lab_of(
      tress_reflectance(absorption(strand), strand.strand_um, strand.surface_term));
}

Result<colour::Spectrum> absorption_from(const colour::Spectrum& reflectance, Micrometres strand_um,
                                         double surface_term) {
  const double radius_cm = strand_um.value() / 2 * kCmPerUm;
  colour::Spectrum mu{};
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    const double body = reflectance[i] - surface_term;
    if (!(body > 0) || reflectance[i] > 1) {
      return fail(
          ErrorCode::out_of_range,
          fmt::format("reflectance {:.4f} at {} nm is not between the surface term {:.4f} "
                      "and 1",
                      reflectance[i], colour::kFirstNm + colour::kStepNm * double(i), surface_term),
          "reflectance", "enter very dark hair as a reading, not as a spectrum");
    }
    const double root = std::log((1 - surface_term) / body) / kTressD;
    mu[i] = root * root / radius_cm;
  }
  return mu;
}

Result<double> melanin_for_lstar(double lstar, double pheomelanin_share, Micrometres strand_um,
                                 double surface_term) {
  const auto lstar_of = [&](double total) {
    return tress_lab({total * (1 - pheomelanin_share), total * pheomelanin_share, 0, strand_um,
                      surface_term, kNaturalBase})
        .l;
  };
  constexpr double kMost = 50;  // % of mass; far beyond hair, only to bracket the root
  const double floor = lstar_of(kMost);
  if (!(lstar > floor) || lstar > 100) {
    return fail(
        ErrorCode::out_of_range,
        fmt::format("L* {:.2f} is not between {:.2f}, the floor of the surface term, and 100",
                    lstar, floor),
        "lstar", "give a lighter reading, or a lower surface term");
  }
  // The root in √melanin is smooth; 60 halvings reach the last bit.
  double low = 0;
  double high = std::sqrt(kMost);
  for (int i = 0; i < 60; ++i) {
    const double mid = (low + high) / 2;
    (lstar_of(mid * mid) > lstar ? low : high) = mid;
  }
  return low * low;
}

void TressMembers::resize(std::size_t members) {
  eumelanin_percent.resize(members);
  pheo_like_percent.resize(members);
  base_share.resize(members);
  radius_cm.resize(members);
  surface_term.resize(members, kSurfaceTerm);
}

namespace {

/// Members first … first+kTressLanes−1; beyond the last one its lane is repeated. Returns how many
/// there are.
std::size_t fill_lanes(const TressMembers& members, std::size_t first, TressLanes& lanes) {
  const std::size_t count = std::min(kTressLanes, members.size() - first);
  for (std::size_t lane = 0; lane < kTressLanes; ++lane) {
    const std::size_t m = first + std::min(lane, count - 1);
    lanes.eumelanin[lane] = members.eumelanin_percent[m];
    lanes.pheo_like[lane] = members.pheo_like_percent[m];
    lanes.base_share[lane] = members.base_share[m];
    for (std::size_t d = 0; d < members.dyes.size(); ++d) {
      lanes.dye[d][lane] = members.dyes[d].amount[m];
    }
    lanes.radius_cm[lane] = members.radius_cm[m];
    lanes.surface[lane] = members.surface_term[m];
  }
  return count;
}

std::vector<double> at_few(const colour::Spectrum& spectrum) {
  const colour::FewBands& bands = colour::daylight_10nm();
  std::vector<double> few(bands.size());
  for (std::size_t i = 0; i < few.size(); ++i) few[i] = spectrum[bands.band(i)];
  return few;
}

/// What every strand is made of, at few bands.
struct FewTables {
  std::vector<double> eumelanin = at_few(eumelanin_per_percent());
  std::vector<double> pheomelanin = at_few(pheomelanin_per_percent());
  std::vector<double> lifted = at_few(base_absorption(kLiftedBase));
  std::vector<double> white = at_few(base_absorption(kWhiteBase));
};

}  // namespace

void tress_labs(const TressMembers& members, std::span<colour::HairLab> out) {
  HW_CHECK(out.size() == members.size() && members.dyes.size() <= kMostDyes);
  static const colour::Spectrum lifted = base_absorption(kLiftedBase);
  static const colour::Spectrum white = base_absorption(kWhiteBase);
  const colour::Viewing& light = colour::daylight_10deg();
  TressTables tables{eumelanin_per_percent().data(),
                     pheomelanin_per_percent().data(),
                     lifted.data(),
                     white.data(),
                     {},
                     light.x.data(),
                     light.y.data(),
                     light.z.data(),
                     members.dyes.size(),
                     members.white_share};
  for (std::size_t d = 0; d < members.dyes.size(); ++d) {
    tables.dye[d] = members.dyes[d].absorption.data();
  }
  TressLanes lanes;
  for (std::size_t first = 0; first < members.size(); first += kTressLanes) {
    const std::size_t count = fill_lanes(members, first, lanes);
    tress_kernel(lanes, tables);
    for (std::size_t lane = 0; lane < count; ++lane) {
      out[first + lane] =
          colour::xyz_to_lab(colour::HairXyz{lanes.x[lane], lanes.y[lane], lanes.z[lane]});
    }
  }
}

void tress_lightness(const TressMembers& members, std::span<double> out) {
  HW_CHECK(out.size() == members.size() && members.dyes.size() <= kMostDyes);
  static const FewTables few;
  TressTables tables{few.eumelanin.data(),
                     few.pheomelanin.data(),
                     few.lifted.data(),
                     few.white.data(),
                     {},
                     nullptr,
                     colour::daylight_10nm().y.data(),
                     nullptr,
                     members.dyes.size(),
                     members.white_share};
  std::array<std::vector<double>, kMostDyes> dyes;
  for (std::size_t d = 0; d < members.dyes.size(); ++d) {
    dyes[d] = at_few(members.dyes[d].absorption);
    tables.dye[d] = dyes[d].data();
  }
  TressLanes lanes;
  for (std::size_t first = 0; first < members.size(); first += kTressLanes) {
    const std::size_t count = fill_lanes(members, first, lanes);
    tress_y_kernel(lanes, tables, colour::daylight_10nm().size());
    for (std::size_t lane = 0; lane < count; ++lane) {
      out[first + lane] = colour::lightness_of(lanes.y[lane] / colour::daylight_10nm().white.y);
    }
  }
}

colour::Spectrum tress_spectrum(const TressMembers& members, std::size_t m) {
  HW_CHECK(m < members.size());
  static const colour::Spectrum lifted = base_absorption(kLiftedBase);
  colour::Spectrum bare = base_absorption(kWhiteBase);
  colour::Spectrum pigmented{};
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    pigmented[i] = members.eumelanin_percent[m] * eumelanin_per_percent()[i] +
                   members.pheo_like_percent[m] * pheomelanin_per_percent()[i] +
                   members.base_share[m] * lifted[i];
    for (const DyeLayer& dye : members.dyes) {
      pigmented[i] += dye.amount[m] * dye.absorption[i];
      bare[i] += dye.amount[m] * dye.absorption[i];
    }
  }
  const Micrometres strand_um(2 * members.radius_cm[m] / kCmPerUm);
  colour::Spectrum seen = tress_reflectance(pigmented, strand_um, members.surface_term[m]);
  const colour::Spectrum white = tress_reflectance(bare, strand_um, members.surface_term[m]);
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    seen[i] += members.white_share * (white[i] - seen[i]);
  }
  return seen;
}

MoistureShift moisture_shift(Moisture moisture) {
  switch (moisture) {
    case Moisture::wet:
      return {-5, 3};
    case Moisture::wiped:
      return {-2.5, 2};
    case Moisture::dry:
      break;
  }
  return {0, 0};
}

}  // namespace hw::hair
