#include "huewright/process/uptake.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "figures.h"
#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "huewright/process/dye.h"
#include "huewright/process/kinetics.h"
#include "process_tables.h"

namespace hw::process {
namespace {

constexpr double kReferenceUm = 70;
constexpr double kReferenceCelsius = 22;

/// ln of the uptake on a grid of ln τ and ln L, as process/cylinder_uptake.csv has it.
class UptakeTable {
 public:
  static constexpr std::size_t kTaus = 39;
  static constexpr std::size_t kBiots = 19;

  UptakeTable() {
    const Table table = embedded_table(tables::cylinder_uptake, "process/cylinder_uptake.csv");
    HW_CHECK(table.rows() == kTaus * kBiots);
    for (std::size_t row = 0; row < table.rows(); ++row) {
      log_tau_[row % kTaus] = log_portable(*table.number(row, "tau"));
      log_biot_[row / kTaus] = log_portable(*table.number(row, "biot"));
      log_uptake_[row] = log_portable(*table.number(row, "uptake"));
    }
  }

  [[nodiscard]] double at(double tau, double biot) const {
    const double log_biot = std::clamp(log_portable(biot), log_biot_.front(), log_biot_.back());
    const double j = (log_biot - log_biot_[0]) / (log_biot_[1] - log_biot_[0]);
    const std::size_t low = std::min(static_cast<std::size_t>(j), kBiots - 2);
    const double share = j - static_cast<double>(low);
    const double log_tau = log_portable(tau);
    const double log_value = (1 - share) * along(low, log_tau) + share * along(low + 1, log_tau);
    return std::min(1.0, exp_portable(log_value));
  }

 private:
  /// Straight between grid points; before the first it goes on as it begins.
  [[nodiscard]] double along(std::size_t biot, double log_tau) const {
    const double* row = log_uptake_.data() + biot * kTaus;
    const double i = (log_tau - log_tau_[0]) / (log_tau_[1] - log_tau_[0]);
    if (i >= static_cast<double>(kTaus - 1)) return row[kTaus - 1];
    const std::size_t low = i > 0 ? static_cast<std::size_t>(i) : 0;
    return row[low] + (i - static_cast<double>(low)) * (row[low + 1] - row[low]);
  }

  std::array<double, kTaus> log_tau_{};
  std::array<double, kBiots> log_biot_{};
  std::array<double, kTaus * kBiots> log_uptake_{};
};

/// What of one strand matters to a dye.
struct StrandState {
  double strand_um = kReferenceUm;
  double opened = 1;  ///< as a dye feels it
  double wear = 0;
  double celsius = kReferenceCelsius;
};

/// From intact hair to wide open hair as the opening grows.
double giving_way(double intact, double open, double opened) {
  return opened > 1 ? open + (intact - open) / opened : intact;
}

double bound_by_charge(const UptakeConstants& k, double minutes, const StrandState& strand) {
  constexpr double kFilmKjPerMol = 18;  // diffusion in water, by its viscosity; from memory
  const double quicker = arrhenius_factor(kFilmKjPerMol, kReferenceCelsius, strand.celsius);
  return (1 - exp_portable(-minutes * quicker / k.binding_min)) * kReferenceUm / strand.strand_um;
}

double taken_inside(const ClassFacts& facts, const UptakeConstants& k, double minutes,
                    const StrandState& strand) {
  constexpr double kSecondsPerMinute = 60;
  constexpr double kMetresPerUm = 1e-6;
  constexpr double kSizeLawCelsius = 25;
  const bool oxidative = facts.developer_parts > 0;
  const double working =
      oxidative ? k.oxidative_min * (1 - exp_portable(-minutes / k.oxidative_min)) : minutes;
  const double radius_m = strand.strand_um / 2 * kMetresPerUm;
  const double energy = giving_way(k.kj_per_mol, k.open_kj_per_mol, strand.opened);
  const double diffusion = dye_diffusion_m2_per_s(facts.radius_angstrom) * k.size_factor *
                           strand.opened *
                           arrhenius_factor(energy, kSizeLawCelsius, strand.celsius);
  const double biot = giving_way(facts.biot * k.biot_factor,
                                 std::max(facts.biot * k.biot_factor, k.open_biot), strand.opened);
  return tabled_uptake(diffusion * working * kSecondsPerMinute / (radius_m * radius_m), biot);
}

/// Amount in one strand, up to a factor that a class and a hypothesis share. film_per_hair: mix and
/// water on it [g/g].
double amount_in(const ClassFacts& facts, const UptakeConstants& k, double minutes,
                 double film_per_hair, const StrandState& strand) {
  if (minutes <= 0) return 0;
  constexpr double kFullyWorn = 0.2;  // cystine used by lightening: all its new places are there
  const double more = (facts.lightened_gain - 1) * k.gain_factor;
  const double places = 1 + more * std::min(1.0, strand.wear / kFullyWorn);
  if (facts.dye_class == DyeClass::cationic) return places * bound_by_charge(k, minutes, strand);
  // What the hair has taken is missing from the film: at the end both stand in balance.
  const double taken = places * taken_inside(facts, k, minutes, strand);
  return taken / (1 + k.partition / hair::kHairDensity / film_per_hair * taken);
}

}  // namespace

double tabled_uptake(double tau, double biot) {
  static const UptakeTable table;
  return tau > 0 ? table.at(tau, biot) : 0;
}

std::vector<double> uptake(const LiftMembers& canvas, const DepositBowl& bowl,
                           std::span<const UptakeConstants> constants) {
  HW_CHECK(constants.size() == 1 || constants.size() == canvas.size());
  const ClassFacts& facts = class_facts(bowl.dye_class);
  const double label_min = bowl.label_min > 0 ? bowl.label_min : facts.label_min;
  const StrandState swatch{kReferenceUm, facts.swatch_opened, facts.swatch_wear, kReferenceCelsius};
  constexpr double kSwatchMixPerHair = 1.5;  // g/g: saturated, common practice
  const double film = bowl.mix_per_hair + bowl.water_per_hair;
  const double dilution =
      (1 + bowl.label_parts) / (1 + bowl.developer_parts) * bowl.mix_per_hair / film;
  std::vector<double> factor(canvas.size());
  for (std::size_t m = 0; m < canvas.size(); ++m) {
    const UptakeConstants& k = constants[constants.size() == 1 ? 0 : m];
    const StrandState strand{canvas.strand_um[m], dye_opening(canvas, m), canvas.wear[m],
                             bowl.temperature_c + canvas.warmth_c[m]};
    const double clean =
        bowl.clean_canvas ? 1 : std::max(0.0, 1 - (1 - facts.unclean) * k.unclean_factor);
    factor[m] = amount_in(facts, k, bowl.minutes, film, strand) /
                amount_in(facts, k, label_min, kSwatchMixPerHair, swatch) * clean * dilution;
  }
  return factor;
}

std::vector<double> uptake(const LiftMembers& canvas, const DepositBowl& bowl) {
  return uptake(canvas, bowl, {&central_uptake(), 1});
}

std::vector<double> uptake(const LiftMembers& canvas, const DepositBowl& bowl, const Draws& draws) {
  return uptake(canvas, bowl, draw_uptake(draws, canvas.size()));
}

}  // namespace hw::process
