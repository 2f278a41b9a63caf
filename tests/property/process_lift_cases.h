#pragma once
// Heads and bowls that the lift tests share.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "huewright/base/random.h"
#include "huewright/base/statistics.h"
#include "huewright/hair/ladder.h"
#include "huewright/process/lift.h"

namespace hw::process::test {

inline constexpr double kPheomelaninShare = 0.05;  // brown hair, borges_2001

/// `members` hypotheses about hair of exactly this L*; one member means the central constants.
inline LiftMembers hair_of(std::size_t members, double lstar, double strand_um,
                           std::uint64_t seed = 1) {
  LiftMembers hair;
  hair.resize(members);
  if (members > 1) hair.constants = draw_constants(Draws(seed), members);
  const auto exact = exact_hair(lstar, kPheomelaninShare, Micrometres{strand_um});
  if (!exact) {
    ADD_FAILURE() << one_line(exact.error());
    return hair;
  }
  for (std::size_t m = 0; m < members; ++m) {
    hair.strand_um[m] = strand_um;
    hair.eumelanin_percent[m] = exact->melanin_percent * (1 - kPheomelaninShare);
    hair.pheomelanin_percent[m] = exact->melanin_percent * kPheomelaninShare;
    hair.surface_term[m] = exact->surface_term;
  }
  return hair;
}

inline LiftMembers hair_of_level(std::size_t members, double level, double strand_um = 73,
                                 std::uint64_t seed = 1) {
  return hair_of(members, hair::default_ladder().lstar_of(level), strand_um, seed);
}

/// A bowl by what is in its ready mix, at 22 °C, 3 g/g, uncovered, on dry hair.
inline Application bowl_of(double peroxide_percent, double powder_percent, double minutes) {
  Application bowl;
  bowl.peroxide_percent = peroxide_percent;
  bowl.powder_percent = powder_percent;
  bowl.alkaline = powder_percent > 0;
  bowl.minutes = minutes;
  return bowl;
}

/// 1 part lightener, 2 parts developer of this strength, and parts of shampoo and water.
inline Application lightener_bowl(double developer_percent, double minutes, double shampoo = 0,
                                  double water = 0) {
  const double parts = 3 + shampoo + water;
  return bowl_of(2 * developer_percent / parts, 100 / parts, minutes);
}

inline std::vector<LiftMoment> run(const LiftMembers& hair, const std::vector<Application>& bowls,
                                   double every_min = 1000, const LiftSteps& steps = {}) {
  InlineExecutor executor;
  return simulate_lift(hair, bowls, every_min, executor, steps);
}

inline std::vector<colour::HairLab> labs_of(const LiftMembers& hair, const LiftMoment& moment) {
  std::vector<colour::HairLab> labs(hair.size());
  lift_colours(hair, moment, labs);
  return labs;
}

inline std::vector<double> lstars_of(const LiftMembers& hair, const LiftMoment& moment) {
  std::vector<double> lstars;
  for (const auto& lab : labs_of(hair, moment)) lstars.push_back(lab.l);
  return lstars;
}

inline double mean_lstar(const LiftMembers& hair, const LiftMoment& moment) {
  return mean(lstars_of(hair, moment));
}

/// Level [1–10] of the mean L* at the end of a course of bowls.
inline double level_after(const LiftMembers& hair, const std::vector<Application>& bowls) {
  return hair::default_ladder().level_of(mean_lstar(hair, run(hair, bowls).back()));
}

/// Dark plus warm pigment of one member [% of mass].
inline double pigment_of(const LiftMembers& hair, const LiftMoment& moment, std::size_t m) {
  return hair.eumelanin_percent[m] * (moment.eumelanin_left[m] + moment.warm[m]) +
         (hair.pheomelanin_percent[m] + hair.warm_percent[m]) * moment.pheomelanin_left[m];
}

/// One random head and bowl of a numbered case: everything within what a salon meets.
struct Case {
  LiftMembers hair;
  Application bowl;
};
inline Case random_case(std::uint64_t number, std::size_t members) {
  const Draws random(0xca5e);
  std::uint64_t stream = 0;
  const auto between = [&](double low, double high) {
    return low + (high - low) * random.uniform(++stream, number);
  };
  Case one;
  one.hair.resize(members);
  one.hair.constants = draw_constants(Draws(number + 1), members);
  const double eumelanin = between(0.1, 3);
  const double pheomelanin = between(0, 0.2);
  const double warm = between(0, 1) < 0.3 ? between(0, 0.4) : 0;
  const double strand_um = between(40, 120);
  const double opened = between(1, 6);
  const double wear = between(0, 0.3);
  for (std::size_t m = 0; m < members; ++m) {
    one.hair.eumelanin_percent[m] = eumelanin;
    one.hair.pheomelanin_percent[m] = pheomelanin;
    one.hair.warm_percent[m] = warm;
    one.hair.strand_um[m] = strand_um;
    one.hair.opened[m] = opened;
    one.hair.wear[m] = wear;
  }
  one.bowl = bowl_of(between(1, 8), between(0, 1) < 0.2 ? 0 : between(10, 50), 60);
  one.bowl.mix_per_hair = between(0.7, 4);
  one.bowl.temperature_c = between(18, 38);
  one.bowl.water_per_hair = between(0, 1);
  one.bowl.covered = between(0, 1) < 0.3;
  return one;
}

}  // namespace hw::process::test
