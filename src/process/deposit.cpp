#include "huewright/process/deposit.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "huewright/process/cylinder_series.h"
#include "huewright/process/kinetics.h"

namespace hw::process {
namespace {

constexpr double kReferenceUm = 70;
constexpr double kReferenceCelsius = 22;
constexpr double kSecondsPerMinute = 60;

/// Uptake of a cylinder as a table over ln τ, for one resistance: the series is summed once.
class UptakeCurve {
 public:
  explicit UptakeCurve(double biot) {
    constexpr int kRoots = 72;  // β² τ is then beyond 45 at the shortest time: no digit is lost
    for (double& value : value_) value = 1;
    for (int n = 1; n <= kRoots; ++n) {
      const double beta = cylinder_root(n, biot);
      const double ratio = beta / biot;
      const double weight = 4 / (beta * beta * (ratio * ratio + 1));
      for (std::size_t i = 0; i < kPoints; ++i) {
        value_[i] -= weight * std::exp(-beta * beta * tau_at(i));
      }
    }
  }
  [[nodiscard]] double operator()(double tau) const {
    const double at = (log_portable(tau) - kLow) / step();
    if (at <= 0) return value_[0] * tau / tau_at(0);  // held back by the cuticle: in proportion
    if (at >= kPoints - 1) return value_[kPoints - 1];
    const auto i = static_cast<std::size_t>(at);
    return value_[i] + (at - static_cast<double>(i)) * (value_[i + 1] - value_[i]);
  }

 private:
  static double tau_at(std::size_t i) { return std::exp(kLow + step() * static_cast<double>(i)); }
  static constexpr std::size_t kPoints = 160;
  static constexpr double kLow = -6.9;  // ln of τ = 1e-3
  static constexpr double kHigh = 1.6;  // ln of τ = 5: full
  static constexpr double step() { return (kHigh - kLow) / (kPoints - 1); }
  double value_[kPoints];
};

const UptakeCurve& curve_of(DyeClass dye_class) {
  static const UptakeCurve curves[] = {
      UptakeCurve(class_facts(DyeClass::direct).biot),
      UptakeCurve(class_facts(DyeClass::cationic).biot),
      UptakeCurve(class_facts(DyeClass::demi).biot),
      UptakeCurve(class_facts(DyeClass::permanent).biot),
  };
  return curves[static_cast<std::size_t>(dye_class)];
}

/// Share of the final amount after some minutes in one strand.
double share_taken(DyeClass dye_class, double minutes, double strand_um, double opened,
                   double celsius) {
  if (dye_class == DyeClass::cationic) {
    constexpr double kBindingMin = 8;  // e-fold time of binding at the surface; guess
    return 1 - exp_portable(-minutes / kBindingMin);
  }
  constexpr double kIntactKjPerMol = 45;  // dye uptake, 27 to 69
  constexpr double kOpenKjPerMol = 20;    // damaged hair depends less on warmth, 10 to 25
  constexpr double kMetresPerUm = 1e-6;
  constexpr double kDiffusionCelsius = 25;
  const double radius_m = strand_um / 2 * kMetresPerUm;
  const double energy = opened > 2 ? kOpenKjPerMol : kIntactKjPerMol;
  const double diffusion = dye_diffusion_m2_per_s(class_facts(dye_class).radius_angstrom) * opened *
                           arrhenius_factor(energy, kDiffusionCelsius, celsius);
  const double tau = diffusion * minutes * kSecondsPerMinute / (radius_m * radius_m);
  return tau > 0 ? curve_of(dye_class)(tau) : 0;
}

/// What a dye feels of an opening that peroxide feels less of: the pore law's 0.55 turned round.
double dye_opening(double opened) {
  constexpr double kPeroxidePower = 0.55;
  constexpr double kMost = 12.6;  // uranin after bleach cream: tate_kamath_1993
  return std::min(kMost, pow_portable(std::max(opened, 0.1), 1 / kPeroxidePower));
}

std::uint64_t stream_of(const std::string& id) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;  // FNV-1a
  for (const char c : id) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
  return hash;
}

}  // namespace

double dye_diffusion_m2_per_s(double radius_angstrom) {
  // D_hair = D_water k (7.9 Å − r)², two measured points (holmes_1964 p. 604); D_water by
  // Stokes–Einstein at 25 °C: kT/(6π·0.89 mPa·s·r) = 24.5e-10/r m²/s for r in Å.
  constexpr double kPoreAngstrom = 7.9;
  constexpr double kPerSquareAngstrom = 2.1e-6;
  constexpr double kStokesEinstein = 24.5e-10;
  const double room = std::max(0.0, kPoreAngstrom - radius_angstrom);
  return kStokesEinstein / radius_angstrom * kPerSquareAngstrom * room * room;
}

std::vector<double> uptake(const LiftMembers& canvas, const DepositBowl& bowl) {
  const ClassFacts& facts = class_facts(bowl.dye_class);
  const double reference =
      share_taken(bowl.dye_class, facts.label_min, kReferenceUm, 1, kReferenceCelsius);
  const double dilution = (1 + bowl.label_parts) / (1 + bowl.developer_parts) * bowl.mix_per_hair /
                          (bowl.mix_per_hair + bowl.water_per_hair);
  const double clean = bowl.clean_canvas ? 1 : facts.unclean;
  constexpr double kFullyWorn =
      0.2;  // cystine used of well-lightened hair: its places are all there
  std::vector<double> factor(canvas.size());
  for (std::size_t m = 0; m < canvas.size(); ++m) {
    const double taken =
        share_taken(bowl.dye_class, bowl.minutes, canvas.strand_um[m],
                    dye_opening(canvas.opened[m]), bowl.temperature_c + canvas.warmth_c[m]);
    const double gain = 1 + (facts.lightened_gain - 1) * std::min(1.0, canvas.wear[m] / kFullyWorn);
    factor[m] = taken / reference * gain * clean * dilution;
  }
  return factor;
}

LiftMembers after_own_lift(const LiftMembers& canvas, const DepositBowl& bowl, Executor& executor) {
  if (bowl.developer_percent <= 0 || bowl.developer_parts <= 0 || bowl.minutes <= 0) return canvas;
  Application mix;
  mix.peroxide_percent = bowl.developer_percent * bowl.developer_parts / (1 + bowl.developer_parts);
  mix.powder_percent = 0;
  mix.alkaline = bowl.dye_class == DyeClass::permanent;
  mix.mix_per_hair = bowl.mix_per_hair;
  mix.temperature_c = bowl.temperature_c;
  mix.minutes = bowl.minutes;
  mix.water_per_hair = bowl.water_per_hair;
  const auto moments = simulate_lift(canvas, {&mix, 1}, bowl.minutes, executor);
  LiftMembers lifted = canvas_after(canvas, moments.back());
  lifted.dyes = canvas.dyes;  // colour does not lift colour: a law of the trade, no source
  return lifted;
}

std::vector<double> shade_strength(const Shade& shade, const Draws& draws, std::size_t members) {
  std::vector<double> strength(members);
  const std::uint64_t stream = stream_of(shade.id);
  for (std::size_t m = 0; m < members; ++m) {
    strength[m] = exp_portable(shade.strength_sd_ln * draws.normal(stream, m));
  }
  return strength;
}

LiftMembers deposit(const LiftMembers& canvas, const DepositBowl& bowl,
                    std::span<const Poured> pours, const Draws& draws, Executor& executor) {
  const std::vector<double> taken = uptake(canvas, bowl);
  LiftMembers coloured = after_own_lift(canvas, bowl, executor);
  for (const Poured& pour : pours) {
    const bool clear = std::all_of(pour.shade.full.begin(), pour.shade.full.end(),
                                   [](double mu) { return mu == 0; });
    if (clear || pour.share <= 0) continue;
    hair::DyeLayer layer{pour.shade.full, shade_strength(pour.shade, draws, canvas.size())};
    for (std::size_t m = 0; m < canvas.size(); ++m) layer.amount[m] *= pour.share * taken[m];
    coloured.dyes.push_back(std::move(layer));
  }
  HW_CHECK(coloured.dyes.size() <= hair::kMostDyes);
  return coloured;
}

}  // namespace hw::process
