#pragma once
// The parts of a check: what each member says of a reading, and drawing members anew.
#include <span>
#include <vector>

#include "huewright/plan/checks.h"

namespace hw::plan {

/// Everything that the readings of a visit may move, one entry per member in every array.
struct HeadMembers {
  std::vector<ZoneBelief> zones;
  std::vector<double> wet_look;           ///< in sds of hair::moisture_shift
  std::vector<std::vector<double>> bias;  ///< by reader [levels]; 0 is who read the zones
  [[nodiscard]] std::size_t size() const { return wet_look.size(); }
};

/// A reading with its places looked up.
struct PlacedReading {
  const CheckReading* reading = nullptr;
  std::size_t zone = 0;
  std::size_t reader = 0;
  const ZoneRun* run = nullptr;  ///< null: nothing was applied yet
};

struct Placed {
  std::vector<PlacedReading> readings;
  std::size_t readers = 1;
};
/// Looks up zones, runs and readers; the reader "" read the zones. Errors: as check().
[[nodiscard]] Result<Placed> place(std::span<const ZoneBelief> zones, std::span<const ZoneRun> runs,
                                   std::span<const CheckReading> readings);
/// The members of a head with what belongs to its readers and to this day.
[[nodiscard]] HeadMembers before_checks(const Case& head, std::span<const ZoneBelief> zones,
                                        std::size_t readers);

/// Dry colour and wear of every member at one reading.
struct AtReading {
  std::vector<colour::HairLab> dry;
  std::vector<double> wear;
};

/// Simulates the members to each reading.
[[nodiscard]] std::vector<AtReading> at_readings(const HeadMembers& members,
                                                 std::span<const PlacedReading> readings,
                                                 Executor& executor);

/// Level of a dry L* as the reader of member m calls it, without scatter [level].
[[nodiscard]] double called_level(const HeadMembers& members, const PlacedReading& reading,
                                  double dry_lstar, std::size_t m, const hair::Ladder& ladder);

/// One number for each zone and member.
using ByZone = std::vector<std::vector<double>>;
/// ln of the likelihood of each zone's readings for each member, up to a constant.
[[nodiscard]] ByZone log_likelihoods(const HeadMembers& members,
                                     std::span<const PlacedReading> readings,
                                     std::span<const AtReading> at, const hair::Ladder& ladder);
/// Sums over the zones, for each member.
[[nodiscard]] std::vector<double> over_zones(const ByZone& values);

/// Weights that sum to 1, from `share` times their logarithms.
[[nodiscard]] std::vector<double> normalised(std::span<const double> log_weights, double share = 1);
/// (Σw)²/Σw²: how many members count [1–N].
[[nodiscard]] double effective_number(std::span<const double> weights);

/// Systematic resampling: member m stands N·w times in the list, give or take less than one.
/// offset: 0–1.
[[nodiscard]] std::vector<std::size_t> systematic(std::span<const double> weights, double offset);
/// The picked entries, in that order.
template <class T>
void take(const std::vector<std::size_t>& picked, std::vector<T>& values) {
  if (values.empty()) return;
  std::vector<T> taken;
  taken.reserve(picked.size());
  for (const std::size_t m : picked) taken.push_back(values[m]);
  values = std::move(taken);
}
/// The picked members, in that order.
void keep(const std::vector<std::size_t>& picked, HeadMembers& members);
/// Member i of one zone put in the place of member m of another belief of it.
void copy_zone_member(const ZoneBelief& from, std::size_t i, ZoneBelief& to, std::size_t m);
/// Likewise for all of a head with the same zones.
void copy_member(const HeadMembers& from, std::size_t i, HeadMembers& to, std::size_t m);
/// The zones with today's colours filled in.
[[nodiscard]] std::vector<ZoneBelief> finished(const Case& head, HeadMembers members);

/// What walks during a check, and what it is judged by.
struct Walk {
  const Case& head;
  const HeadMembers& before;  ///< the members before the checks
  std::span<const PlacedReading> readings;
  bool wet_matters;
  Executor& executor;
};
/// Members that are equally likely under the prior times the checks' likelihood to a power.
struct Walkers {
  HeadMembers members;
  ByZone checks;  ///< ln likelihood of the checks
};
/// Metropolis steps that leave prior · likelihood^power as it is: of rate, bias, wet look and each
/// zone's own rate and pigment by a Student t fitted to the members, for the head and then zone by
/// zone; and of all else, taken from a member of before the checks. round: names the streams of
/// random numbers.
void walk(const Walk& by, double power, int round, Walkers& walkers);

}  // namespace hw::plan
