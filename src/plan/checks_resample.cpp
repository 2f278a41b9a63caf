#include <array>

#include "checks_parts.h"

namespace hw::plan {

namespace {

constexpr std::array kOfHair = {&process::LiftMembers::eumelanin_percent,
                                &process::LiftMembers::pheomelanin_percent,
                                &process::LiftMembers::warm_percent,
                                &process::LiftMembers::base_share,
                                &process::LiftMembers::strand_um,
                                &process::LiftMembers::opened,
                                &process::LiftMembers::wear,
                                &process::LiftMembers::rate,
                                &process::LiftMembers::warmth_c,
                                &process::LiftMembers::surface_term};
constexpr std::array kOfOrigin = {&ZoneOrigin::found,      &ZoneOrigin::natural_percent,
                                  &ZoneOrigin::pheo_share, &ZoneOrigin::exposure,
                                  &ZoneOrigin::head_rate,  &ZoneOrigin::rest,
                                  &ZoneOrigin::reader_bias};

}  // namespace

std::vector<std::size_t> systematic(std::span<const double> weights, double offset) {
  std::vector<std::size_t> picked;
  picked.reserve(weights.size());
  const auto count = static_cast<double>(weights.size());
  double sum = 0;
  std::size_t next = 0;
  for (std::size_t m = 0; m < weights.size(); ++m) {
    sum += weights[m] * count;
    while (next < weights.size() && static_cast<double>(next) + offset < sum) {
      picked.push_back(m);
      ++next;
    }
  }
  while (picked.size() < weights.size()) picked.push_back(picked.back());  // rounding of the sum
  return picked;
}

void keep(const std::vector<std::size_t>& picked, HeadMembers& members) {
  for (ZoneBelief& zone : members.zones) {
    take(picked, zone.members.constants);
    for (const auto field : kOfHair) take(picked, zone.members.*field);
    for (const auto field : kOfOrigin) take(picked, zone.origin.*field);
    for (hair::DyeLayer& dye : zone.members.dyes) take(picked, dye.amount);
  }
  take(picked, members.wet_look);
  for (auto& bias : members.bias) take(picked, bias);
}

void copy_zone_member(const ZoneBelief& from, std::size_t i, ZoneBelief& to, std::size_t m) {
  to.members.constants[m] = from.members.constants[i];
  for (const auto field : kOfHair) (to.members.*field)[m] = (from.members.*field)[i];
  for (const auto field : kOfOrigin) (to.origin.*field)[m] = (from.origin.*field)[i];
  for (std::size_t d = 0; d < to.members.dyes.size(); ++d) {
    to.members.dyes[d].amount[m] = from.members.dyes[d].amount[i];
  }
}

void copy_member(const HeadMembers& from, std::size_t i, HeadMembers& to, std::size_t m) {
  for (std::size_t z = 0; z < to.zones.size(); ++z) {
    copy_zone_member(from.zones[z], i, to.zones[z], m);
  }
  to.wet_look[m] = from.wet_look[i];
  for (std::size_t r = 0; r < to.bias.size(); ++r) to.bias[r][m] = from.bias[r][i];
}

std::vector<ZoneBelief> finished(const Case& head, HeadMembers members) {
  for (ZoneBelief& zone : members.zones) {
    const process::LiftMoment start = process::starting_moment(zone.members);
    process::lift_colours(zone.members, start, zone.pigmented, process::Whites::left_out);
    process::lift_colours(zone.members, start, zone.now);
    for (std::size_t m = 0; m < zone.level_now.size(); ++m) {
      zone.level_now[m] = head.ladder.level_of(zone.pigmented[m].l);
    }
  }
  return std::move(members.zones);
}

}  // namespace hw::plan
