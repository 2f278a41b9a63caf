#include "huewright/process/lift_constants.h"

#include <algorithm>
#include <array>
#include <limits>
#include <string_view>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "huewright/base/elementary.h"
#include "process_tables.h"

namespace hw::process {
namespace {

/// A constant that is drawn by itself, and where it lives.
struct Slot {
  std::string_view name;
  double LiftConstants::*field;
  double most = std::numeric_limits<double>::infinity();  ///< what no draw may pass
};

// Shares of another rate end at 1: nothing lifts better for want of powder or alkali, and old
// colour never goes faster than melanin.
constexpr std::array kDrawnAlone = {
    Slot{"q10", &LiftConstants::q10},
    Slot{"powderless_rate", &LiftConstants::powderless_rate, 1},
    Slot{"unbuffered_rate", &LiftConstants::unbuffered_rate, 1},
    Slot{"cover_gain", &LiftConstants::cover_gain},
    Slot{"diffusion_kj_per_mol", &LiftConstants::diffusion_kj_per_mol},
    Slot{"heat_loss_min", &LiftConstants::heat_loss_min},
    Slot{"decay_per_min", &LiftConstants::decay_per_min},
    Slot{"base_scale", &LiftConstants::base_scale},
    Slot{"dye_rate_ratio", &LiftConstants::dye_rate_ratio, 1},
};

constexpr std::array kFittedTogether = {
    Slot{"dark_rate_per_min", &LiftConstants::dark_rate_per_min},
    Slot{"warm_rate_per_min", &LiftConstants::warm_rate_per_min},
    Slot{"warm_yield", &LiftConstants::warm_yield},
    Slot{"activity_min", &LiftConstants::activity_min},
    Slot{"diffusion_m2_per_s", &LiftConstants::diffusion_m2_per_s},
    Slot{"cuticle_um", &LiftConstants::cuticle_um},
    Slot{"opening_power", &LiftConstants::opening_power},
    Slot{"order", &LiftConstants::order},
    Slot{"wear_per_root_min", &LiftConstants::wear_per_root_min},
};

Table embedded(std::string_view text, const char* name) {
  auto table = parse_table(text, name);
  HW_CHECK(table.has_value());
  return *std::move(table);
}

const Table& notes_table() {
  static const Table table = embedded(tables::lift_constants, "process/lift_constants.csv");
  return table;
}

std::size_t row_of(const Table& table, std::string_view name) {
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (*table.text(row, "name") == name) return row;
  }
  HW_CHECK(false && "lift_constants.csv lacks a constant the code draws");
  return 0;
}

/// How one constant is drawn, read once.
struct Spread {
  double LiftConstants::*field;
  double central, low, high, most;
  bool lognormal;
};

const std::vector<Spread>& spreads() {
  static const std::vector<Spread> all = [] {
    std::vector<Spread> list;
    for (const Slot& slot : kDrawnAlone) {
      const std::size_t row = row_of(notes_table(), slot.name);
      list.push_back({slot.field, *notes_table().number(row, "central"),
                      *notes_table().number(row, "low"), *notes_table().number(row, "high"),
                      slot.most, *notes_table().text(row, "spread") == "lognormal"});
    }
    return list;
  }();
  return all;
}

/// Lognormal about its centre: the 10 % and 90 % quantiles fix the spread on each side.
double draw_lognormal(double central, double low, double high, double normal) {
  constexpr double kNormal90 = 1.2815515655446004;  // 90 % quantile of the standard normal
  const double edge = normal < 0 ? low : high;
  return central * exp_portable(std::abs(normal) / kNormal90 * log_portable(edge / central));
}

}  // namespace

const std::vector<LiftConstants>& strip_test_draws() {
  static const std::vector<LiftConstants> rows = [] {
    const Table table = embedded(tables::strip_test_draws, "process/strip_test_draws.csv");
    std::vector<LiftConstants> draws(table.rows());
    for (std::size_t row = 0; row < table.rows(); ++row) {
      for (const Slot& slot : kFittedTogether) {
        draws[row].*slot.field = *table.number(row, slot.name);
      }
      for (const Spread& spread : spreads()) draws[row].*spread.field = spread.central;
    }
    return draws;
  }();
  return rows;
}

const LiftConstants& central_constants() {
  // The first row of the table is the most likely one; the others are draws.
  return strip_test_draws().front();
}

std::vector<LiftConstants> draw_constants(const Draws& draws, std::size_t members) {
  constexpr std::uint64_t kStream = 0x11f7;  // this function's own streams start here
  const std::vector<LiftConstants>& rows = strip_test_draws();
  std::vector<LiftConstants> drawn(members);
  for (std::size_t m = 0; m < members; ++m) {
    // Rows are taken in turn from a seeded start, so that few members still span the fit.
    drawn[m] = rows[(m + draws.below(rows.size(), kStream, 0)) % rows.size()];
    std::uint64_t stream = kStream;
    for (const Spread& spread : spreads()) {
      ++stream;
      const double value =
          spread.lognormal
              ? draw_lognormal(spread.central, spread.low, spread.high, draws.normal(stream, m))
              : spread.low + (spread.high - spread.low) * draws.uniform(stream, m);
      drawn[m].*spread.field = std::min(value, spread.most);
    }
  }
  return drawn;
}

const std::vector<ConstantNote>& constant_notes() {
  static const std::vector<ConstantNote> notes = [] {
    std::vector<ConstantNote> list;
    const Table& table = notes_table();
    for (std::size_t row = 0; row < table.rows(); ++row) {
      list.push_back({*table.text(row, "name"), *table.text(row, "words"), *table.text(row, "unit"),
                      *table.text(row, "grade"), *table.text(row, "source"),
                      *table.number(row, "central"), *table.number(row, "low"),
                      *table.number(row, "high")});
    }
    return list;
  }();
  return notes;
}

}  // namespace hw::process
