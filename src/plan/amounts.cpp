#include "huewright/plan/amounts.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "huewright/base/check.h"
#include "huewright/hair/fibre.h"
#include "huewright/hair/head.h"

namespace hw::plan {
namespace {

/// Share of the scalp of each section the case names.
std::map<std::string, double> section_shares(const Case& head) {
  std::map<std::string, double> shares;
  for (const ZoneCase& zone : head.zones) shares[zone.section] = 0;
  constexpr double kAnyLength = 10;  // cm; the shares do not depend on it
  const auto usual = hair::usual_head(kAnyLength);
  HW_CHECK(usual.has_value());
  double known = 0;
  std::size_t unknown = 0;
  for (auto& [name, share] : shares) {
    for (const hair::Section& section : usual->sections) {
      if (section.name == name) share = section.area_share;
    }
    known += share;
    unknown += share == 0 ? 1 : 0;
  }
  // Names of her own share what is left; a head told in parts is still a whole head.
  for (auto& [name, share] : shares) {
    if (share == 0) share = std::max(0.1, 1 - known) / static_cast<double>(unknown);
  }
  double sum = 0;
  for (const auto& [name, share] : shares) sum += share;
  for (auto& [name, share] : shares) share /= sum;
  return shares;
}

double length_of(const Case& head, const std::string& section) {
  double length = 0;
  for (const ZoneCase& zone : head.zones) {
    if (zone.section == section) length = std::max(length, zone.to_cm);
  }
  return length;
}

}  // namespace

std::vector<double> zone_mass_g(const Case& head) {
  constexpr double kGramsPerTexCm = 1e-5;  // tex is grams per kilometre
  const double tex = hair::tex({.diameter_um = head.strand_um});
  const auto shares = section_shares(head);
  std::vector<double> grams;
  for (const ZoneCase& zone : head.zones) {
    // The share of strands that reach a depth falls in a straight line so that the mean strand is
    // cut_factor of the longest (hair/head.h).
    const double length = length_of(head, zone.section);
    const double fall = 2 * (1 - head.cut_factor) / length;
    const double middle = (zone.from_cm + zone.to_cm) / 2;
    const double strands =
        head.scalp_area_cm2 * head.hairs_per_cm2 * shares.at(zone.section) * (1 - fall * middle);
    grams.push_back(strands * (zone.to_cm - zone.from_cm) * tex * kGramsPerTexCm);
  }
  return grams;
}

std::vector<double> zone_scalp_cm2(const Case& head) {
  const auto shares = section_shares(head);
  std::vector<double> scalp;
  for (const ZoneCase& zone : head.zones) {
    scalp.push_back(zone.from_cm <= 0 ? head.scalp_area_cm2 * shares.at(zone.section) : 0);
  }
  return scalp;
}

}  // namespace hw::plan
