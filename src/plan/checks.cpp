#include "huewright/plan/checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "checks_parts.h"
#include "huewright/base/random.h"
#include "huewright/hair/words.h"
#include "reading.h"

namespace hw::plan {
namespace {

constexpr int kMostRounds = 3;            // of drawing anew
constexpr double kFarOff = 4;             // sds: nobody misreads by that much and means it
constexpr double kEnoughShare = 1 / 3.0;  // of the members must count

constexpr std::uint64_t kResampleStream = 6'200'000;

struct NamedStretch {
  const char* name;
  Stretch stretch;
};
constexpr std::array kStretches = {
    NamedStretch{"springs", Stretch::springs}, NamedStretch{"slow", Stretch::slow},
    NamedStretch{"stays", Stretch::stays}, NamedStretch{"snaps", Stretch::snaps}};

/// The members after some readings, equally likely.
struct Weighed {
  HeadMembers members;
  double effective = 0;  ///< least number that counted at a weighing
  int rounds = 0;
};

/// The largest power of the likelihood, beyond `from`, at which enough members count.
double next_power(std::span<const double> checks, double from, double enough) {
  constexpr int kHalvings = 30;
  if (effective_number(normalised(checks, 1 - from)) >= enough) return 1;
  double low = from, high = 1;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = (low + high) / 2;
    const bool fine = effective_number(normalised(checks, middle - from)) >= enough;
    (fine ? low : high) = middle;
  }
  return low;
}

Weighed weigh(const Case& head, const HeadMembers& before, std::span<const PlacedReading> readings,
              std::span<const AtReading> at, Executor& executor) {
  const bool wet_matters = std::any_of(readings.begin(), readings.end(), [](const auto& placed) {
    return placed.reading->seen != hair::Moisture::dry;
  });
  const Walk by{head, before, readings, wet_matters, executor};
  const Draws draws(head.seed);
  const double enough = kEnoughShare * static_cast<double>(before.size());
  Walkers walkers{before, log_likelihoods(before, readings, at, head.ladder)};
  Weighed made;
  made.effective = effective_number(normalised(over_zones(walkers.checks)));
  double power = 0;
  while (power < 1) {
    const bool last = made.rounds == kMostRounds;
    const std::vector<double> checks = over_zones(walkers.checks);
    const double next = last ? 1 : next_power(checks, power, enough);
    const auto picked =
        systematic(normalised(checks, next - power),
                   draws.uniform(kResampleStream, static_cast<std::uint64_t>(made.rounds)));
    keep(picked, walkers.members);
    for (auto& zone : walkers.checks) take(picked, zone);
    const bool enough_at_once = made.rounds == 0 && next == 1;
    power = next;
    if (enough_at_once) break;
    walk(by, power, made.rounds, walkers);
    ++made.rounds;
  }
  made.members = std::move(walkers.members);
  return made;
}

std::vector<ReadingForecast> forecasts_of(const HeadMembers& before,
                                          std::span<const PlacedReading> readings,
                                          std::span<const AtReading> at,
                                          const hair::Ladder& ladder) {
  std::vector<ReadingForecast> list(readings.size());
  for (std::size_t i = 0; i < readings.size(); ++i) {
    double sum = 0, squares = 0;
    for (std::size_t m = 0; m < before.size(); ++m) {
      const double level = called_level(before, readings[i], at[i].dry[m].l, m, ladder);
      sum += level;
      squares += level * level;
    }
    const auto count = static_cast<double>(before.size());
    list[i].expected_level = sum / count;
    const double spread = std::max(0.0, squares / count - std::pow(sum / count, 2));
    list[i].sd_level = std::hypot(std::sqrt(spread), kEyeSdLevels);
    if (const auto& level = readings[i].reading->level; level) {
      list[i].sds_off = (*level - list[i].expected_level) / list[i].sd_level;
    }
  }
  return list;
}

std::vector<ZoneCheck> zone_checks(std::span<const ZoneBelief> zones,
                                   std::span<const CheckReading> readings) {
  std::vector<ZoneCheck> list;
  for (const ZoneBelief& zone : zones) {
    ZoneCheck made{zone.name, false, false};
    bool wet = false, dry = false;
    for (const CheckReading& reading : readings) {
      if (reading.zone != zone.name) continue;
      made.rinse_now |= !reading.strand_test && reading.stretch &&
                        (*reading.stretch == Stretch::stays || *reading.stretch == Stretch::snaps);
      const bool depth = reading.level || reading.lab || !reading.tone.empty();
      wet |= depth && reading.seen == hair::Moisture::wet;
      dry |= depth && reading.seen != hair::Moisture::wet;
    }
    made.only_wet = wet && !dry;
    list.push_back(std::move(made));
  }
  return list;
}

}  // namespace

Result<Checked> check(const Case& head, std::span<const ZoneBelief> zones,
                      std::span<const ZoneRun> runs, std::span<const CheckReading> readings,
                      Executor& executor) {
  auto placed = place(zones, runs, readings);
  if (!placed) return tl::unexpected(placed.error());
  Checked checked;
  checked.checks = zone_checks(zones, readings);
  if (readings.empty()) {
    checked.zones.assign(zones.begin(), zones.end());
    checked.effective = static_cast<double>(zones.front().members.size());
    return checked;
  }
  const HeadMembers before = before_checks(head, zones, placed->readers);
  const auto at = at_readings(before, placed->readings, executor);
  Weighed all = weigh(head, before, placed->readings, at, executor);
  checked.zones = finished(head, std::move(all.members));
  checked.effective = all.effective;
  checked.rounds = all.rounds;
  checked.forecasts = forecasts_of(before, placed->readings, at, head.ladder);
  checked.believable =
      std::all_of(checked.forecasts.begin(), checked.forecasts.end(),
                  [](const auto& forecast) { return std::abs(forecast.sds_off) <= kFarOff; });

  std::vector<PlacedReading> not_wet;
  std::vector<AtReading> at_not_wet;
  for (std::size_t i = 0; i < at.size(); ++i) {
    if (placed->readings[i].reading->seen == hair::Moisture::wet) continue;
    not_wet.push_back(placed->readings[i]);
    at_not_wet.push_back(at[i]);
  }
  if (not_wet.size() < at.size()) {
    Weighed dry = weigh(head, before, not_wet, at_not_wet, executor);
    checked.without_wet = finished(head, std::move(dry.members));
  }
  return checked;
}

double never_later(double by_all, std::optional<double> by_dry) {
  return by_dry ? std::min(by_all, *by_dry) : by_all;
}

std::vector<std::string> tone_words() {
  std::vector<std::string> words;
  for (const hair::WarmStage& stage : hair::warm_stages()) words.push_back(stage.name);
  return words;
}

Result<Stretch> stretch_named(const std::string& name) {
  for (const NamedStretch& known : kStretches) {
    if (known.name == name) return known.stretch;
  }
  return fail(ErrorCode::unknown_name, fmt::format("no stretch is called \"{}\"", name), "stretch",
              "springs, slow, stays or snaps");
}

}  // namespace hw::plan
