#include "pigment_origin.h"

#include <algorithm>
#include <cmath>

#include "huewright/base/elementary.h"
#include "huewright/process/kinetics.h"

namespace hw::plan {

Window whole_window(Unknown unknown) {
  switch (unknown) {
    case Unknown::melanin:
      return {0.02, hair::kMelaninMax};  // % of mass
    case Unknown::exposure:
      return {1, 200};  // standard minutes
    case Unknown::dye:
      break;
  }
  return {1, 1500};  // 1/cm
}

double log_learned(const ZoneCase& zone, Unknown unknown, double found) {
  constexpr double kOtherHair = 0.01;  // chance that it does not apply, guess
  if (!zone.ln_pigment || unknown != Unknown::melanin) return 0;
  const double off = (log_portable(found) - zone.ln_pigment->mean) / zone.ln_pigment->sd;
  return log_portable(exp_portable(std::max(-0.5 * off * off, -700.0)) + kOtherHair);
}

double log_alike(double found, double other) {
  constexpr double kSpread = 0.3;      // ln, between zones of one head: half a level or so; guess
  constexpr double kOtherHair = 0.05;  // chance that it does not apply, guess
  const double off = log_portable(found / other) / kSpread;
  return log_portable(exp_portable(std::max(-0.5 * off * off, -700.0)) + kOtherHair);
}

void set_pigment(const ZoneOrigin& origin, std::size_t m, process::LiftMembers& members) {
  const double melanin = origin.natural_percent[m];
  const double pheo = melanin * origin.pheo_share[m];
  const double eu = melanin - pheo;
  members.eumelanin_percent[m] = eu;
  members.pheomelanin_percent[m] = pheo;
  members.warm_percent[m] = 0;
  members.base_share[m] = 0;
  if (origin.unknown == Unknown::dye) members.dyes[0].amount[m] = origin.found[m];
  const double exposure = origin.exposure[m];
  if (exposure <= 0) return;
  const process::LiftConstants& k = members.constants[m];
  const process::TwoStep dark =
      process::two_step(k.dark_rate_per_min, k.warm_rate_per_min, exposure);
  const double left = std::exp(-k.warm_rate_per_min * exposure);
  members.eumelanin_percent[m] = eu * dark.a;
  members.pheomelanin_percent[m] = 0;
  members.warm_percent[m] = eu * k.warm_yield * dark.b + pheo * left;
  members.base_share[m] =
      1 - std::min(1.0, (members.eumelanin_percent[m] + members.warm_percent[m]) / melanin);
}

}  // namespace hw::plan
