// The strands of the drill and its constants.
#include "huewright/plan/drill.h"

#include <algorithm>
#include <cmath>

#include "figures.h"
#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "huewright/base/random.h"
#include "huewright/hair/tress.h"
#include "plan_tables.h"

namespace hw::plan {
namespace {

constexpr std::array<std::string_view, 2> kWarmths{"natural", "warm"};

double constant(std::string_view name) {
  static const Table table = embedded_table(tables::drill, "plan/drill.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (*table.text(row, "name") == name) return *table.number(row, "value");
  }
  HW_CHECK(false);
  return 0;
}

enum Stream : std::uint64_t { kLevelStream, kWarmthStream, kStrandStream };

/// Below what the central surface lets a strand reach, its floor.
colour::HairLab colour_of(double lstar, double warm_share, Micrometres strand_um) {
  constexpr double kBlackest = 5;  // % of hair mass, past which nothing darkens to the eye
  hair::Strand strand;
  strand.strand_um = strand_um;
  const double percent = hair::melanin_for_lstar(lstar, warm_share, strand_um, strand.surface_term)
                             .value_or(kBlackest);
  strand.eumelanin_percent = percent * (1 - warm_share);
  strand.pheomelanin_percent = percent * warm_share;
  return hair::tress_lab(strand);
}

}  // namespace

const DrillConstants& drill_constants() {
  static const DrillConstants kAll = [] {
    DrillConstants all;
    all.screen_sd = constant("screen_sd");
    all.spread_sd = constant("spread_sd");
    all.spread_weight = constant("spread_weight");
    all.offset_weight = constant("offset_weight");
    all.level_low = constant("level_low");
    all.level_high = constant("level_high");
    all.strand_low = constant("strand_low");
    all.strand_high = constant("strand_high");
    all.warm_share = {constant("share_natural"), constant("share_warm")};
    return all;
  }();
  return kAll;
}

std::string_view name_of(DrillWarmth warmth) {
  return kWarmths[static_cast<std::size_t>(warmth)];
}

Result<DrillWarmth> drill_warmth_named(std::string_view word) {
  const auto* at = std::ranges::find(kWarmths, word);
  if (at == kWarmths.end()) {
    return fail(ErrorCode::unknown_name, "\"" + std::string(word) + "\" is no warmth of a drill",
                {}, "give natural or warm");
  }
  return static_cast<DrillWarmth>(at - kWarmths.begin());
}

DrillStrand drill_strand(std::uint64_t seed, const hair::Ladder& ladder) {
  const DrillConstants& k = drill_constants();
  const Draws draws(seed);
  constexpr double kTenths = 10;
  DrillStrand strand;
  strand.level = k.level_low + (k.level_high - k.level_low) * draws.uniform(kLevelStream, 0);
  strand.level = std::round(strand.level * kTenths) / kTenths;
  strand.warmth = static_cast<DrillWarmth>(draws.below(kWarmths.size(), kWarmthStream, 0));
  strand.strand_um = Micrometres(
      std::round(k.strand_low + (k.strand_high - k.strand_low) * draws.uniform(kStrandStream, 0)));
  strand.lab = colour_of(ladder.lstar_of(strand.level),
                         k.warm_share[static_cast<std::size_t>(strand.warmth)], strand.strand_um);
  return strand;
}

}  // namespace hw::plan
