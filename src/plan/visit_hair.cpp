#include "visit_hair.h"

#include <algorithm>
#include <numeric>

namespace hw::plan {

using process::LiftMembers;

LiftMembers some_members(const LiftMembers& members, std::span<const std::size_t> picked) {
  LiftMembers some;
  some.resize(picked.size());
  for (std::size_t i = 0; i < picked.size(); ++i) some.constants[i] = members.constants[picked[i]];
  for (auto array : {&LiftMembers::eumelanin_percent, &LiftMembers::pheomelanin_percent,
                     &LiftMembers::warm_percent, &LiftMembers::base_share, &LiftMembers::strand_um,
                     &LiftMembers::opened, &LiftMembers::wear, &LiftMembers::rate,
                     &LiftMembers::warmth_c, &LiftMembers::surface_term}) {
    for (std::size_t i = 0; i < picked.size(); ++i) (some.*array)[i] = (members.*array)[picked[i]];
  }
  if (!members.dye_opened.empty()) {
    some.dye_opened.resize(picked.size());
    for (std::size_t i = 0; i < picked.size(); ++i) {
      some.dye_opened[i] = members.dye_opened[picked[i]];
    }
  }
  for (const hair::DyeLayer& dye : members.dyes) {
    hair::DyeLayer layer{dye.absorption, {}};
    for (const std::size_t m : picked) layer.amount.push_back(dye.amount[m]);
    some.dyes.push_back(std::move(layer));
  }
  some.white_share = members.white_share;
  return some;
}

HeadHair thinned(const HeadHair& hair, std::size_t keep) {
  const std::size_t count = hair.front().size();
  if (count <= keep) return hair;
  std::vector<std::size_t> picked(keep);
  for (std::size_t i = 0; i < keep; ++i) picked[i] = i * count / keep;
  HeadHair thin;
  for (const LiftMembers& zone : hair) thin.push_back(some_members(zone, picked));
  return thin;
}

HeadHair hair_of(std::span<const ZoneBelief> zones) {
  HeadHair hair;
  for (const ZoneBelief& zone : zones) hair.push_back(zone.members);
  return hair;
}

std::vector<colour::HairLab> colours_of(const LiftMembers& members, process::Whites whites) {
  std::vector<colour::HairLab> labs(members.size());
  process::lift_colours(members, process::starting_moment(members), labs, whites);
  return labs;
}

std::vector<double> levels_of(const Case& head, std::span<const colour::HairLab> labs) {
  std::vector<double> levels(labs.size());
  for (std::size_t m = 0; m < labs.size(); ++m) levels[m] = head.ladder.level_of(labs[m].l);
  return levels;
}

std::vector<std::size_t> near_quantile(std::span<const colour::HairLab> labs, double p) {
  std::vector<std::size_t> order(labs.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return labs[a].l < labs[b].l; });
  const std::size_t count = std::max<std::size_t>(1, labs.size() / 20);
  const auto middle = static_cast<std::size_t>(p * static_cast<double>(labs.size() - 1));
  const std::size_t first =
      std::min(middle > count / 2 ? middle - count / 2 : 0, labs.size() - count);
  return {order.begin() + static_cast<std::ptrdiff_t>(first),
          order.begin() + static_cast<std::ptrdiff_t>(first + count)};
}

colour::HairLab mean_of(std::span<const colour::HairLab> labs,
                        std::span<const std::size_t> picked) {
  colour::HairLab mean{};
  const double share = 1.0 / static_cast<double>(picked.size());
  for (const std::size_t m : picked) {
    mean = {mean.l + share * labs[m].l, mean.a + share * labs[m].a, mean.b + share * labs[m].b};
  }
  return mean;
}

ColourBand colour_band(const Case& head, std::span<const colour::HairLab> labs) {
  ColourBand band;
  band.level = band_of(levels_of(head, labs));
  band.lab = mean_of(labs, near_quantile(labs, 0.5));
  band.lab_low = mean_of(labs, near_quantile(labs, 0.1));
  band.lab_high = mean_of(labs, near_quantile(labs, 0.9));
  return band;
}

}  // namespace hw::plan
