#include "huewright/process/lift.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "huewright/process/kinetics.h"
#include "lift_kernel.h"
#include "lift_readout.h"

namespace hw::process {
namespace {

/// The steps of one application between two reported minutes.
struct Leg {
  std::size_t application;
  double minute;  ///< at its end
  double minute_total;
  std::vector<double> dt_min;
};

/// Reported minutes of one application: every multiple of every_min, and the end.
std::vector<double> report_minutes(double minutes, double every_min) {
  std::vector<double> stops;
  constexpr double kSameMinute = 1e-9;
  for (int i = 1; i * every_min < minutes - kSameMinute; ++i) stops.push_back(i * every_min);
  stops.push_back(minutes);
  return stops;
}

std::vector<Leg> plan_legs(std::span<const Application> applications, double every_min,
                           const LiftSteps& steps) {
  std::vector<Leg> legs;
  double before = 0;
  for (std::size_t a = 0; a < applications.size(); ++a) {
    double next = steps.first_min;
    double at = 0;
    for (const double stop : report_minutes(applications[a].minutes, every_min)) {
      Leg leg{a + 1, stop, before + stop, {}};
      // Steps grow as if the leg went on, then shrink together so that it ends on its minute.
      const double length = stop - at;
      double sum = 0;
      while (sum < length) {
        leg.dt_min.push_back(next);
        sum += next;
        next = std::min(next * steps.growth, steps.longest_min);
      }
      for (double& dt : leg.dt_min) dt *= length / sum;
      at = stop;
      legs.push_back(std::move(leg));
    }
    before += applications[a].minutes;
  }
  return legs;
}

/// Share of the bowl's oxidant that one unit of wear uses: five peroxide per cystine.
double used_per_wear(double peroxide_percent, double mix_per_hair) {
  constexpr double kPeroxidePerCystine = 5;     // 1 cystine gives 2 cysteic acid: mass balance
  constexpr double kCystineMmolPerGram = 0.73;  // half of 1460 µmol/g half-cystine
  constexpr double kPeroxideGramsPerMol = 34.015;
  const double mmol_per_gram = mix_per_hair * peroxide_percent * 10 / kPeroxideGramsPerMol;
  return mmol_per_gram > 0 ? kPeroxidePerCystine * kCystineMmolPerGram / mmol_per_gram : 0;
}

void set_film(LiftLanes& lanes, std::size_t lane, const Application& bowl, const LiftConstants& k,
              double warmth_c) {
  constexpr double kKelvinPerPercent = 6.9;  // adiabatic, from ΔH = −98.2 kJ/mol
  constexpr double kLossKjPerMol = 57.6;     // peroxide decomposition, calorimetry
  const double diluted = bowl.mix_per_hair / (bowl.mix_per_hair + bowl.water_per_hair);
  const double peroxide = bowl.peroxide_percent * diluted;
  const double own_warmth =
      kKelvinPerPercent * peroxide * std::min(1.0, k.decay_per_min * k.heat_loss_min);
  const double celsius = bowl.temperature_c + warmth_c + own_warmth;
  const double drying = (1 - 1 / k.cover_gain) / k.activity_min * kStandardMixPerHair /
                        (bowl.mix_per_hair + bowl.water_per_hair);
  const double chemical =
      arrhenius_factor(kLossKjPerMol, kStandardCelsius, celsius) / (k.activity_min * k.cover_gain);
  const double powder = bowl.powder_percent * diluted / kStandardPowderPercent;
  constexpr double kPowderMost = 1.5;  // a 1:1 bowl; nothing thicker was ever tried
  lanes.powder_share[lane] = std::min(powder, kPowderMost);

  // An order other than 1 acts through the strength of the film; see the head of lift.h.
  const double ratio = std::max(peroxide, 1e-3) / kStandardPeroxidePercent;
  const double per_percent = pow_portable(ratio, k.order - 1) / kStandardPeroxidePercent *
                             pow_portable(k.q10, (celsius - kStandardCelsius) / 10);
  lanes.film_percent[lane] = peroxide;
  lanes.loss_per_min[lane] = chemical + (bowl.covered ? 0.0 : drying);
  lanes.wear_rate[lane] = per_percent;
  lanes.lift_rate[lane] = per_percent *
                          (k.powderless_rate + (1 - k.powderless_rate) * lanes.powder_share[lane]) *
                          (bowl.alkaline ? 1.0 : k.unbuffered_rate);
  lanes.used_per_wear[lane] = used_per_wear(peroxide, bowl.mix_per_hair);
  constexpr double kDiffusionCelsius = 25;
  lanes.access_per_min[lane] = arrhenius_factor(k.diffusion_kj_per_mol, kDiffusionCelsius, celsius);
}

void set_hair(LiftLanes& lanes, std::size_t lane, const LiftMembers& members, std::size_t m) {
  constexpr double kMetresPerUm = 1e-6;
  constexpr double kSecondsPerMinute = 60;
  const LiftConstants& k = members.constants[m];
  const double radius_m = members.strand_um[m] / 2 * kMetresPerUm;
  lanes.access_per_min[lane] *=
      k.diffusion_m2_per_s * members.opened[m] * kSecondsPerMinute / (radius_m * radius_m);
  lanes.film_gap[lane] = k.cuticle_um / (members.strand_um[m] / 2);
  lanes.lift_rate[lane] *= members.rate[m];
  const double a = pow_portable(kDyeOpeningPeroxide, k.opening_power) - 1;
  const double cream = pow_portable(kDyeOpeningCream, k.opening_power) - 1;
  lanes.open_peroxide[lane] = a;
  lanes.open_powder[lane] = powder_opening(a, cream);
  lanes.wear_start_sq[lane] = members.wear[m] * members.wear[m];
  lanes.kappa_sq[lane] = k.wear_per_root_min * k.wear_per_root_min;
}

void run_block(const LiftMembers& members, std::span<const double> dye_opened,
               std::span<const Application> applications, const std::vector<Leg>& legs,
               std::size_t first, std::vector<LiftMoment>& moments) {
  auto block = std::make_unique<LiftBlock>();
  auto lanes = std::make_unique<LiftLanes>();
  const std::size_t count = std::min(kLanes, members.size() - first);
  for (std::size_t lane = 0; lane < kLanes; ++lane) {
    block->wear[lane] = members.wear[first + std::min(lane, count - 1)];
  }
  read_out(*block, *lanes, members, dye_opened, first, count, moments[0]);
  std::size_t mixed = 0;
  for (std::size_t i = 0; i < legs.size(); ++i) {
    const Leg& leg = legs[i];
    if (leg.application != mixed) {  // a fresh bowl goes on
      mixed = leg.application;
      for (std::size_t lane = 0; lane < kLanes; ++lane) {
        const std::size_t m = first + std::min(lane, count - 1);
        set_lane(*lanes, lane, members, m, applications[mixed - 1]);
        lanes->wear_at_mixing[lane] = block->wear[lane];
        block->activity[lane] = 1;
      }
      block->dt_before = 0;
    }
    lift_steps(*block, *lanes, radial_grid(), leg.dt_min.data(), leg.dt_min.size());
    read_out(*block, *lanes, members, dye_opened, first, count, moments[i + 1]);
  }
}

}  // namespace

void set_lane(LiftLanes& lanes, std::size_t lane, const LiftMembers& members, std::size_t m,
              const Application& bowl) {
  set_film(lanes, lane, bowl, members.constants[m], members.warmth_c[m]);
  set_hair(lanes, lane, members, m);
}

const RadialGrid& radial_grid() {
  static const RadialGrid grid = [] {
    constexpr double kGrading = 1.6;  // edges at 1 − (1 − i/N)^1.6: the thin cells lie outside
    RadialGrid g{};
    std::array<double, kCells + 1> edge{};
    for (std::size_t i = 0; i <= kCells; ++i) {
      const double inward = 1 - static_cast<double>(i) / static_cast<double>(kCells);
      edge[i] = i == kCells ? 1.0 : 1 - pow_portable(inward, kGrading);
    }
    const auto centre = [&](std::size_t i) { return (edge[i] + edge[i + 1]) / 2; };
    for (std::size_t i = 0; i < kCells; ++i) {
      const double inner_sq = edge[i] * edge[i];
      const double outer_sq = edge[i + 1] * edge[i + 1];
      g.volume[i] = (outer_sq - inner_sq) / 2;
      // Granules lie denser towards the cuticle (robbins_2012; ρ² is a guess that the strip test
      // prefers to an even spread): ∫ρ²·ρ dρ over the cell, of the whole.
      g.pigment[i] = outer_sq * outer_sq - inner_sq * inner_sq;
      g.conductance[i] = i == 0 ? 0 : edge[i] / (centre(i) - centre(i - 1));
    }
    g.last_gap = 1 - centre(kCells - 1);
    return g;
  }();
  return grid;
}

void LiftMembers::resize(std::size_t members) {
  constants.resize(members, central_constants());
  eumelanin_percent.resize(members, 0);
  pheomelanin_percent.resize(members, 0);
  warm_percent.resize(members, 0);
  base_share.resize(members, 0);
  // Equal-area mean of African American strands: practical_modern_hair_science_2012.
  constexpr double kStrandUm = 73;
  strand_um.resize(members, kStrandUm);
  opened.resize(members, 1);
  wear.resize(members, 0);
  rate.resize(members, 1);
  warmth_c.resize(members, 0);
  surface_term.resize(members, hair::kSurfaceTerm);
  for (hair::DyeLayer& dye : dyes) dye.amount.resize(members, 0);
}

LiftMoment starting_moment(const LiftMembers& members) {
  LiftMoment moment;
  for (auto* whole : {&moment.eumelanin_left, &moment.pheomelanin_left, &moment.dye_left}) {
    whole->assign(members.size(), 1);
  }
  for (auto* none : {&moment.warm, &moment.exposure}) none->assign(members.size(), 0);
  moment.wear = members.wear;
  moment.opened = members.opened;
  moment.dye_opened.resize(members.size());
  for (std::size_t m = 0; m < members.size(); ++m) moment.dye_opened[m] = dye_opening(members, m);
  return moment;
}

double dye_opening(const LiftMembers& members, std::size_t m) {
  if (members.dye_opened.size() == members.size()) return members.dye_opened[m];
  constexpr double kPeroxidePower = 0.55;  // of what a dye feels, by the pore line
  constexpr double kLeast = 0.1;           // hair that is harder to enter than intact hair
  return std::min(kDyeOpeningCream,
                  pow_portable(std::max(members.opened[m], kLeast), 1 / kPeroxidePower));
}

std::vector<LiftMoment> simulate_lift(const LiftMembers& members,
                                      std::span<const Application> applications, double every_min,
                                      Executor& executor, const LiftSteps& steps) {
  HW_CHECK(every_min > 0 && members.size() > 0);
  const std::vector<Leg> legs = plan_legs(applications, every_min, steps);
  std::vector<LiftMoment> moments(legs.size() + 1);
  for (std::size_t i = 0; i < moments.size(); ++i) {
    LiftMoment& moment = moments[i];
    if (i > 0) {
      moment.application = legs[i - 1].application;
      moment.minute = legs[i - 1].minute;
      moment.minute_total = legs[i - 1].minute_total;
    }
    for (auto* array :
         {&moment.eumelanin_left, &moment.pheomelanin_left, &moment.warm, &moment.dye_left,
          &moment.wear, &moment.opened, &moment.dye_opened, &moment.exposure}) {
      array->resize(members.size());
    }
  }
  std::vector<double> dye_opened(members.size());
  for (std::size_t m = 0; m < members.size(); ++m) dye_opened[m] = dye_opening(members, m);
  const std::size_t blocks = (members.size() + kLanes - 1) / kLanes;
  executor.run(blocks, [&](std::size_t b) {
    run_block(members, dye_opened, applications, legs, b * kLanes, moments);
  });
  return moments;
}

namespace {

// A strand with little melanin has little room for the base: were it to grow at full size, pale
// natural hair would darken while it lifts. Level 7 and darker get all of it; a member whose base
// is larger than the usual one needs as much more melanin.
constexpr double kFullBaseMelanin = 0.24;  // % of mass, about level 7; guess

/// Pigment and base of one member at a moment.
struct Left {
  double eumelanin, pheomelanin, warm, base_share;
};

Left left_at(const LiftMembers& members, const LiftMoment& moment, std::size_t m) {
  const double eu = members.eumelanin_percent[m];
  const double pheo = members.pheomelanin_percent[m];
  const double warm = members.warm_percent[m];
  const double start = eu + pheo + warm;
  Left left{eu * moment.eumelanin_left[m], pheo * moment.pheomelanin_left[m],
            warm * moment.pheomelanin_left[m] + eu * moment.warm[m], 0};
  const double share = start > 0 ? (left.eumelanin + left.pheomelanin + left.warm) / start : 1;
  const double full_at = kFullBaseMelanin * std::max(1.0, members.constants[m].base_scale);
  const double room = std::min(1.0, start / full_at);
  const double gone = 1 - std::min(1.0, share);
  left.base_share = members.base_share[m] + (1 - members.base_share[m]) * gone * room;
  return left;
}

}  // namespace

LiftMembers canvas_after(const LiftMembers& members, const LiftMoment& moment) {
  LiftMembers canvas = members;
  for (std::size_t m = 0; m < members.size(); ++m) {
    const Left left = left_at(members, moment, m);
    canvas.eumelanin_percent[m] = left.eumelanin;
    canvas.pheomelanin_percent[m] = left.pheomelanin;
    canvas.warm_percent[m] = left.warm;
    canvas.base_share[m] = left.base_share;
    for (hair::DyeLayer& dye : canvas.dyes) dye.amount[m] *= moment.dye_left[m];
  }
  canvas.opened = moment.opened;
  canvas.dye_opened = moment.dye_opened;
  canvas.wear = moment.wear;
  return canvas;
}

hair::TressMembers tress_members(const LiftMembers& members, const LiftMoment& moment,
                                 Whites whites) {
  constexpr double kCmPerUm = 1e-4;
  hair::TressMembers tress;
  tress.resize(members.size());
  tress.dyes = members.dyes;
  tress.white_share = whites == Whites::mixed_in ? members.white_share : 0;
  for (std::size_t m = 0; m < members.size(); ++m) {
    const Left left = left_at(members, moment, m);
    tress.eumelanin_percent[m] = left.eumelanin;
    tress.pheo_like_percent[m] = left.pheomelanin + left.warm;
    tress.base_share[m] = members.constants[m].base_scale * left.base_share;
    tress.radius_cm[m] = members.strand_um[m] / 2 * kCmPerUm;
    tress.surface_term[m] = members.surface_term[m];
    for (hair::DyeLayer& dye : tress.dyes) dye.amount[m] *= moment.dye_left[m];
  }
  return tress;
}

void lift_colours(const LiftMembers& members, const LiftMoment& moment,
                  std::span<colour::HairLab> out, Whites whites) {
  hair::tress_labs(tress_members(members, moment, whites), out);
}

void lift_lightness(const LiftMembers& members, const LiftMoment& moment, std::span<double> out,
                    Whites whites) {
  hair::tress_lightness(tress_members(members, moment, whites), out);
}

Result<ExactHair> exact_hair(double lstar, double pheomelanin_share, Micrometres strand_um) {
  const auto lstar_of = [&](double surface) {
    return hair::tress_lab({hair::kMelaninMax * (1 - pheomelanin_share),
                            hair::kMelaninMax * pheomelanin_share, 0, strand_um, surface,
                            hair::kNaturalBase})
        .l;
  };
  const double darkest = lstar_of(hair::kSurfaceTermLow);
  if (!(lstar >= darkest) || lstar > 100) {
    return fail(
        ErrorCode::out_of_range,
        fmt::format("L* {:.2f} is outside {:.2f} to 100, what hair can show", lstar, darkest),
        "lstar", "give the reading of a dry tress in daylight");
  }
  if (lstar >= lstar_of(hair::kSurfaceTerm)) {
    const auto melanin =
        hair::melanin_for_lstar(lstar, pheomelanin_share, strand_um, hair::kSurfaceTerm);
    if (!melanin) return tl::unexpected(melanin.error());
    return ExactHair{*melanin, hair::kSurfaceTerm};
  }
  double low = hair::kSurfaceTermLow;
  double high = hair::kSurfaceTerm;
  for (int i = 0; i < 60; ++i) {
    const double mid = (low + high) / 2;
    (lstar_of(mid) < lstar ? low : high) = mid;
  }
  return ExactHair{hair::kMelaninMax, low};
}

}  // namespace hw::process
