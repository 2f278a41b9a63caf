#include "cases.h"

#include "huewright/base/random.h"

namespace hw::bench {
namespace {

constexpr std::uint64_t kSeed = 1;
// Level 3 on the melanin ladder, 5 % of it pheomelanin; the hair of a common head.
constexpr double kEumelaninPercent = 1.05;
constexpr double kPheomelaninPercent = 0.055;
constexpr double kStrandUm = 73;

}  // namespace

process::Application one_hour() {
  process::Application bowl;
  bowl.peroxide_percent = process::kStandardPeroxidePercent;
  bowl.powder_percent = process::kStandardPowderPercent;
  bowl.minutes = 60;
  return bowl;
}

process::LiftMembers one_zone(std::size_t members) {
  constexpr std::uint64_t kWidthStream = 1;
  constexpr double kStrandSpreadUm = 12;  // half width: fine to coarse strands of one head
  const Draws draws(kSeed);
  process::LiftMembers zone;
  zone.resize(members);
  zone.constants = process::draw_constants(draws, members);
  for (std::size_t m = 0; m < members; ++m) {
    zone.eumelanin_percent[m] = kEumelaninPercent;
    zone.pheomelanin_percent[m] = kPheomelaninPercent;
    zone.strand_um[m] = kStrandUm + kStrandSpreadUm * (2 * draws.uniform(kWidthStream, m) - 1);
  }
  return zone;
}

process::LiftMembers one_strand() {
  constexpr double kScalpWarmthC = 10;  // above a film of 22 °C
  constexpr double kTipOpened = 1.5;
  process::LiftMembers strand;
  strand.resize(kChartPoints);
  for (std::size_t m = 0; m < kChartPoints; ++m) {
    const double along = static_cast<double>(m) / static_cast<double>(kChartPoints - 1);
    strand.eumelanin_percent[m] = kEumelaninPercent;
    strand.pheomelanin_percent[m] = kPheomelaninPercent;
    strand.strand_um[m] = kStrandUm;
    strand.warmth_c[m] = kScalpWarmthC * (1 - along) * (1 - along);
    strand.opened[m] = 1 + (kTipOpened - 1) * along;
  }
  return strand;
}

std::vector<std::vector<colour::HairLab>> all_colours(const process::LiftMembers& members,
                                                      std::span<const process::LiftMoment> moments,
                                                      Executor& executor) {
  std::vector<std::vector<colour::HairLab>> colours(moments.size());
  executor.run(moments.size(), [&](std::size_t i) {
    colours[i].resize(members.size());
    process::lift_colours(members, moments[i], colours[i]);
  });
  return colours;
}

}  // namespace hw::bench
