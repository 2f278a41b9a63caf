#include "formula_lanes.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "huewright/colour/few_bands.h"

namespace hw::plan {
namespace {

FormulaGrid make_grid(const colour::FewBands& few) {
  FormulaGrid grid{few.size(), few.first, few.stride, few.x, few.y, few.z, {}, {}};
  const colour::Spectrum white = hair::base_absorption(hair::kWhiteBase);
  for (std::size_t i = 0; i < few.size(); ++i) grid.bare.push_back(white[few.band(i)]);
  grid.white = {few.white.x, few.white.y, few.white.z};
  return grid;
}

colour::FewBands every_band() {
  const colour::Viewing& light = colour::daylight_10deg();
  const auto list = [](const colour::Spectrum& s) {
    return std::vector<double>(s.begin(), s.end());
  };
  return {0, 1, list(light.x), list(light.y), list(light.z), light.white};
}

/// What a lane is of: zone and member.
struct LaneOf {
  std::size_t zone, member;
};

void fill_hair(FormulaBlock& block, std::span<const LaneOf> lanes,
               std::span<const FormulaZone> zones) {
  for (std::size_t lane = 0; lane < lanes.size(); ++lane) {
    const FormulaZone& zone = zones[lanes[lane].zone];
    const std::size_t m = lanes[lane].member;
    block.zone[lane] = lanes[lane].zone;
    block.uptake[lane] = zone.uptake[m];
    block.depth[lane] = hair::kTressD * std::sqrt(zone.canvas.radius_cm[m]);
    block.surface[lane] = zone.canvas.surface_term[m];
    block.white_share[lane] = zone.canvas.white_share;
    block.any_white = block.any_white || zone.canvas.white_share > 0;
    block.target_l[lane] = zone.target.l;
    block.target_a[lane] = zone.target.a;
    block.target_b[lane] = zone.target.b;
  }
}

/// Absorption [1/cm] of each lane's pigmented strands, dyes that are there included.
void fill_canvas(FormulaBlock& block, std::span<const LaneOf> lanes,
                 std::span<const FormulaZone> zones, const FormulaGrid& grid) {
  static const colour::Spectrum base = hair::base_absorption(hair::kLiftedBase);
  block.canvas.assign(grid.count * block.count, 0);
  alignas(64) std::array<double, kBlockLanes> amount{};
  const auto add_layer = [&](const colour::Spectrum& spectrum) {
    for (std::size_t band = 0; band < grid.count; ++band) {
      formula_layer(block.count, amount.data(), spectrum[grid.first + band * grid.stride],
                    block.canvas.data() + band * block.count);
    }
  };
  const auto add = [&](const auto& amount_of, const colour::Spectrum& spectrum) {
    for (std::size_t lane = 0; lane < lanes.size(); ++lane) {
      amount[lane] = amount_of(zones[lanes[lane].zone].canvas, lanes[lane].member);
    }
    add_layer(spectrum);
  };
  using hair::TressMembers;
  add([](const TressMembers& c, std::size_t m) { return c.eumelanin_percent[m]; },
      hair::eumelanin_per_percent());
  add([](const TressMembers& c, std::size_t m) { return c.pheo_like_percent[m]; },
      hair::pheomelanin_per_percent());
  add([](const TressMembers& c, std::size_t m) { return c.base_share[m]; }, base);
  // Old dyes differ from zone to zone: each layer is added where it lies.
  for (std::size_t zone = lanes.front().zone; zone <= lanes.back().zone; ++zone) {
    for (const hair::DyeLayer& dye : zones[zone].canvas.dyes) {
      for (std::size_t lane = 0; lane < lanes.size(); ++lane) {
        amount[lane] = lanes[lane].zone == zone ? dye.amount[lanes[lane].member] : 0;
      }
      add_layer(dye.absorption);
    }
  }
}

}  // namespace

BlockBands FormulaGrid::bands() const {
  return {count, x.data(), y.data(), z.data(), bare.data(), white.data()};
}

BlockHair FormulaBlock::hair() const {
  return {count,          canvas.data(),      uptake.data(), depth.data(),
          surface.data(), white_share.data(), any_white};
}

BlockTarget FormulaBlock::target() const {
  return {target_l.data(), target_a.data(), target_b.data()};
}

const FormulaGrid& fine_grid() {
  static const FormulaGrid grid = make_grid(every_band());
  return grid;
}

const FormulaGrid& coarse_grid() {
  static const FormulaGrid grid = make_grid(colour::daylight_10nm());
  return grid;
}

const FormulaGrid& rough_grid() {
  static const FormulaGrid grid = make_grid(colour::daylight_20nm());
  return grid;
}

SearchSpectrum sampled(const colour::Spectrum& fine, const FormulaGrid& grid) {
  HW_CHECK(grid.count <= kSearchBands);
  SearchSpectrum spectrum{};
  for (std::size_t i = 0; i < grid.count; ++i) spectrum[i] = fine[grid.first + i * grid.stride];
  return spectrum;
}

std::size_t block_count(std::size_t zones, std::size_t members) {
  return (zones * members + kBlockLanes - 1) / kBlockLanes;
}

FormulaBlock make_block(std::span<const FormulaZone> zones, std::span<const std::size_t> members,
                        std::size_t index, const FormulaGrid& grid) {
  const std::size_t first = index * kBlockLanes;
  const std::size_t used = std::min(kBlockLanes, zones.size() * members.size() - first);
  FormulaBlock block;
  block.count = (used + kLaneStep - 1) / kLaneStep * kLaneStep;
  std::array<LaneOf, kBlockLanes> of{};
  for (std::size_t lane = 0; lane < block.count; ++lane) {
    const std::size_t i = first + std::min(lane, used - 1);
    of[lane] = {i / members.size(), members[i % members.size()]};
    block.weight[lane] = lane < used ? 1 / static_cast<double>(members.size()) : 0;
  }
  fill_hair(block, {of.data(), block.count}, zones);
  fill_canvas(block, {of.data(), block.count}, zones, grid);
  return block;
}

FormulaLanes lanes_of(std::span<const FormulaZone> zones, std::span<const std::size_t> members,
                      const FormulaGrid& grid) {
  FormulaLanes lanes;
  lanes.grid = &grid;
  double whole = 0;
  for (const FormulaZone& zone : zones) whole += zone.weight;
  for (const FormulaZone& zone : zones) lanes.zone_weight.push_back(zone.weight / whole);
  const std::size_t count = block_count(zones.size(), members.size());
  lanes.blocks.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    lanes.blocks.push_back(make_block(zones, members, i, grid));
  }
  return lanes;
}

std::vector<std::size_t> all_members(std::span<const FormulaZone> zones) {
  std::vector<std::size_t> members(zones.front().canvas.size());
  std::iota(members.begin(), members.end(), std::size_t{0});
  return members;
}

std::vector<std::size_t> representatives(std::span<const FormulaZone> zones) {
  std::vector<std::size_t> order = all_members(zones);
  if (order.size() <= kRepresentatives) return order;
  // Depth: lightness of the canvas, less what a member takes up: 10 L* for each e-fold of uptake.
  constexpr double kLstarPerLog = 10;   // own estimate; only the order counts
  constexpr double kLstarOfRoot = 116;  // CIELAB, without its offset
  const FormulaGrid& grid = rough_grid();
  const SearchSpectrum nothing{};
  std::vector<double> depth(order.size(), 0);
  std::size_t seen = 0;
  for (std::size_t i = 0; i < block_count(zones.size(), order.size()); ++i) {
    const FormulaBlock block = make_block(zones, order, i, grid);
    BlockXyz xyz;
    formula_colours(block.hair(), grid.bands(), nothing.data(), xyz);
    for (std::size_t lane = 0; lane < block.count && block.weight[lane] > 0; ++lane) {
      const double lstar = kLstarOfRoot * std::cbrt(xyz.y[lane] / grid.white[1]);
      depth[seen++ % order.size()] += lstar - kLstarPerLog * log_portable(block.uptake[lane]);
    }
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return depth[a] < depth[b]; });
  std::vector<std::size_t> chosen;
  for (std::size_t i = 0; i < kRepresentatives; ++i) {
    chosen.push_back(order[(2 * i + 1) * order.size() / (2 * kRepresentatives)]);
  }
  return chosen;
}

void add_zone_de00(const FormulaBlock& block, const FormulaGrid& grid, const double* bowl,
                   double* zones) {
  alignas(64) double difference[kBlockLanes];
  BlockXyz xyz;
  formula_colours(block.hair(), grid.bands(), bowl, xyz);
  formula_differences(block.count, block.target(), grid.white.data(), xyz, difference);
  for (std::size_t m = 0; m < block.count; ++m) {
    zones[block.zone[m]] += block.weight[m] * difference[m];
  }
}

double expected_de00(const FormulaLanes& lanes, const double* bowl) {
  std::vector<double> zones(lanes.zone_weight.size(), 0);
  for (const FormulaBlock& block : lanes.blocks) {
    add_zone_de00(block, *lanes.grid, bowl, zones.data());
  }
  double sum = 0;
  for (std::size_t i = 0; i < zones.size(); ++i) sum += lanes.zone_weight[i] * zones[i];
  return sum;
}

double least_de00(const FormulaLanes& lanes, const double* least, const double* most) {
  const BlockBands bands = lanes.grid->bands();
  alignas(64) double bound[kBlockLanes];
  BlockXyz light;
  BlockXyz dark;
  double sum = 0;
  for (const FormulaBlock& block : lanes.blocks) {
    formula_colours(block.hair(), bands, least, light);
    formula_colours(block.hair(), bands, most, dark);
    formula_bound(block.count, block.target(), bands.white, light, dark, bound);
    for (std::size_t m = 0; m < block.count; ++m) {
      sum += lanes.zone_weight[block.zone[m]] * block.weight[m] * bound[m];
    }
  }
  return sum;
}

}  // namespace hw::plan
