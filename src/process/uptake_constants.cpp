// Where the constants of uptake come from: their table, and the runs behind some of it.
#include <array>
#include <string_view>

#include "figures.h"
#include "huewright/base/elementary.h"
#include "huewright/process/nnls.h"
#include "huewright/process/uptake.h"
#include "process_tables.h"

namespace hw::process {
namespace {

struct Slot {
  std::string_view name;
  double UptakeConstants::*field;
};

constexpr std::array kSlots = {
    Slot{"kj_per_mol", &UptakeConstants::kj_per_mol},
    Slot{"open_kj_per_mol", &UptakeConstants::open_kj_per_mol},
    Slot{"biot_factor", &UptakeConstants::biot_factor},
    Slot{"open_biot", &UptakeConstants::open_biot},
    Slot{"size_factor", &UptakeConstants::size_factor},
    Slot{"gain_factor", &UptakeConstants::gain_factor},
    Slot{"unclean_factor", &UptakeConstants::unclean_factor},
    Slot{"partition", &UptakeConstants::partition},
    Slot{"binding_min", &UptakeConstants::binding_min},
    Slot{"oxidative_min", &UptakeConstants::oxidative_min},
};

/// Natural logarithms: the middle, and how far the 10 % and 90 % quantiles lie from it.
struct Spread {
  double middle, down, up;
};

const std::array<Spread, kSlots.size()>& spreads() {
  static const auto all = [] {
    const Table table = embedded_table(tables::uptake_constants, "process/uptake_constants.csv");
    HW_CHECK(table.rows() == kSlots.size());
    std::array<Spread, kSlots.size()> list{};
    for (std::size_t i = 0; i < kSlots.size(); ++i) {
      HW_CHECK(*table.text(i, "name") == kSlots[i].name);
      const double middle = log_portable(*table.number(i, "central"));
      list[i] = {middle, middle - log_portable(*table.number(i, "low")),
                 log_portable(*table.number(i, "high")) - middle};
    }
    return list;
  }();
  return all;
}

}  // namespace

const UptakeConstants& central_uptake() {
  static const UptakeConstants central = [] {
    UptakeConstants k;
    for (std::size_t i = 0; i < kSlots.size(); ++i) {
      k.*kSlots[i].field = exp_portable(spreads()[i].middle);
    }
    return k;
  }();
  return central;
}

std::vector<UptakeConstants> draw_uptake(const Draws& draws, std::size_t members) {
  constexpr std::uint64_t kStream = 0xd7e0;
  constexpr double kNormal90 = 1.2815515655446004;  // 90 % quantile of the standard normal
  std::vector<UptakeConstants> drawn(members);
  for (std::size_t m = 0; m < members; ++m) {
    for (std::size_t i = 0; i < kSlots.size(); ++i) {
      const Spread& spread = spreads()[i];
      const double z = draws.normal(kStream + i, m) / kNormal90;
      drawn[m].*kSlots[i].field =
          exp_portable(spread.middle + z * (z < 0 ? spread.down : spread.up));
    }
  }
  return drawn;
}

double UptakeEffects::warm_ratio(bool on_permed) const {
  const double hair = on_permed ? 1 : -1;
  const double middle = mean + hair * permed;
  const double effect = warm + hair * warm_permed;
  return (middle + effect) / (middle - effect);
}

double UptakeEffects::salt_ratio() const {
  return (mean - permed + salt) / (mean - permed - salt);
}

UptakeEffects uptake_effects() {
  const Table table = embedded_table(tables::dye_uptake_runs, "process/dye_uptake_runs.csv");
  constexpr std::size_t kEffects = 11;
  Columns design(table.rows(), kEffects);
  std::vector<double> rates;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const auto of = [&](const char* column) { return *table.number(row, column); };
    const std::array<double, kEffects> levels = {1,
                                                 of("dye"),
                                                 of("ph"),
                                                 of("warm"),
                                                 of("permed"),
                                                 of("salt"),
                                                 of("warm") * of("permed"),
                                                 of("ph") * of("salt"),
                                                 of("dye") * of("warm"),
                                                 of("diethanolamide"),
                                                 of("morpholine")};
    for (std::size_t j = 0; j < kEffects; ++j) design.at(row, j) = levels[j];
    rates.push_back(of("rate"));
  }
  const std::vector<double> x = least_squares(design, rates).x;
  return {x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7], x[8], x[9], x[10]};
}

}  // namespace hw::process
