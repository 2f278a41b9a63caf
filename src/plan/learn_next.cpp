#include "huewright/plan/learn_next.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace hw::plan {
namespace {

/// The reading that would teach it; empty: of one client alone, or not of levels.
std::string reading_of(const Factor& factor) {
  switch (factor.kind) {
    case FactorKind::salon_rate:
      return "A check while a bowl lifts, read dry";
    case FactorKind::reader_bias:
      return fmt::format("One strand read by {} and by an instrument", factor.name);
    case FactorKind::wet_look:
      return "One strand read wet and again dry";
    case FactorKind::shade_strength:  // speaks of L*
    case FactorKind::client_rate:
    case FactorKind::salon_amount:
    case FactorKind::client_pigment:
    case FactorKind::client_rest:
      break;
  }
  return {};
}

}  // namespace

bool is_of_salon(FactorKind kind) {
  return kind != FactorKind::client_rate && kind != FactorKind::client_pigment &&
         kind != FactorKind::client_rest;
}

std::vector<LearnNext> learn_next(const Learned& learned) {
  std::vector<LearnNext> all;
  for (const Factor& factor : learned.factors) {
    const std::string reading = reading_of(factor);
    if (reading.empty() || factor.facts == 0 || !(factor.sd_reading > 0)) continue;
    const double in_units = factor.sd_reading / factor.per_unit;
    const NormalBelief after = updated(factor.learned, factor.learned.mean, in_units);
    LearnNext next{factor.kind,
                   factor.name,
                   factor.learned.sd * factor.per_unit,
                   1 - after.sd / factor.learned.sd,
                   {}};
    next.sentence = fmt::format("{}: takes {:.1f} % off what is open, {:.2f} levels now.", reading,
                                100 * next.share_off, next.doubt_levels);
    all.push_back(std::move(next));
  }
  std::ranges::stable_sort(all, std::ranges::greater{}, [](const LearnNext& next) {
    return next.doubt_levels * next.share_off;
  });
  return all;
}

}  // namespace hw::plan
