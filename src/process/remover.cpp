#include "huewright/process/remover.h"

#include <algorithm>
#include <cmath>

#include "figures.h"
#include "huewright/base/elementary.h"
#include "process_tables.h"

namespace hw::process {
namespace {

constexpr std::uint64_t kStream = 0x4e40;  // of this file's draws

Band figure(std::string_view id) {
  static const Table table = embedded_table(tables::remover, "process/remover.csv");
  return band_in(table, id);
}

/// Lognormal with a band's middle; its edges are the 10 % and 90 % quantiles.
double drawn(const Band& band, double normal) {
  constexpr double kNormalAt90 = 1.2815515655446004;  // quantile of the standard normal
  const double edge = normal < 0 ? band.mid / band.low : band.high / band.mid;
  return band.mid * exp_portable(log_portable(edge) * normal / kNormalAt90);
}

std::string_view left_id(OldDye kind) {
  switch (kind) {
    case OldDye::oxidative:
      return "left_oxidative";
    case OldDye::direct:
      return "left_direct";
    case OldDye::unknown:
      break;
  }
  return "left_unknown";
}

}  // namespace

Band remover_minutes() {
  return figure("round_min");
}

int most_remover_rounds() {
  return static_cast<int>(figure("most_rounds").high);
}

Band chelate_minutes() {
  return figure("chelate_min");
}

std::vector<double> remover_left(OldDye kind, double minutes, const Draws& draws,
                                 std::size_t members) {
  HW_CHECK(minutes >= 0);
  const Band round = figure(left_id(kind));
  const Band efold = figure("efold_min");
  const double round_min = figure("round_min").mid;
  std::vector<double> left(members);
  for (std::size_t m = 0; m < members; ++m) {
    const double after = std::min(1.0, drawn(round, draws.normal(kStream, m)));
    const double tau = drawn(efold, draws.normal(kStream + 1, m));
    const double done = (1 - exp_portable(-minutes / tau)) / (1 - exp_portable(-round_min / tau));
    left[m] = exp_portable(log_portable(after) * done);
  }
  return left;
}

LiftMembers after_remover(const LiftMembers& canvas, OldDye kind, double minutes,
                          const Draws& draws) {
  LiftMembers hair = canvas;
  const Band wear = figure("wear");
  const double share = std::min(1.0, minutes / figure("round_min").mid);
  const auto left = remover_left(kind, minutes, draws, hair.size());
  for (std::size_t m = 0; m < hair.size(); ++m) {
    for (hair::DyeLayer& layer : hair.dyes) layer.amount[m] *= left[m];
    const double added = share * drawn(wear, draws.normal(kStream + 2, m));
    hair.wear[m] = std::min(kWearCap, hair.wear[m] + added);
  }
  return hair;
}

const std::vector<std::string>& remover_notes() {
  // Common practice, no source.
  static const std::vector<std::string> notes = {
      "A remover acts on old oxidative colour; of direct colour nothing certain comes off, and "
      "natural pigment stays, so what lies beneath shows warm.",
      "Rinse as long as its label asks, then try a little developer on a strand: colour that comes "
      "back was not rinsed out.",
      "Read each zone again before anything else goes on: how much comes off is not known "
      "beforehand.",
  };
  return notes;
}

HairFacts after_chelating(HairFacts facts) {
  facts.mineral_build_up = false;
  return facts;
}

}  // namespace hw::process
