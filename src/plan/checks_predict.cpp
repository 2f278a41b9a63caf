#include <algorithm>
#include <cmath>

#include "checks_parts.h"
#include "huewright/base/elementary.h"
#include "huewright/hair/words.h"
#include "reading.h"

namespace hw::plan {
namespace {

// Trade columns place a warm stage within about one level of each other.
constexpr double kToneSdLevels = 1;

double squared(double x) {
  return x * x;
}

/// Spread of minutes at which a run is looked at: the widest that meets every reading.
double every_minutes(std::span<const double> on_hair) {
  constexpr double kSame = 0.05;  // min; nobody reads hair more finely
  for (const double step : {5.0, 2.5, 1.0}) {
    const bool meets = std::all_of(on_hair.begin(), on_hair.end(), [&](double minute) {
      return std::abs(minute - step * std::round(minute / step)) < kSame;
    });
    if (meets) return step;
  }
  return 0.5;
}

/// Bowls of a run up to a minute of the visit.
std::vector<process::Application> bowls_until(const ZoneRun& run, double minute) {
  std::vector<process::Application> list;
  for (const RunBowl& bowl : run.bowls) {
    process::Application part = bowl.application;
    part.minutes = std::min(part.minutes, minute - bowl.at_min);
    if (part.minutes > 1e-9) list.push_back(part);
  }
  return list;
}

double total_minutes(std::span<const process::Application> bowls) {
  double sum = 0;
  for (const process::Application& bowl : bowls) sum += bowl.minutes;
  return sum;
}

AtReading seen_at(const process::LiftMembers& members, const process::LiftMoment& moment) {
  AtReading at;
  at.dry.resize(members.size());
  process::lift_colours(members, moment, at.dry, process::Whites::left_out);
  at.wear = moment.wear;
  return at;
}

/// All readings of one run: simulated once, looked at where they fall.
void follow_run(const process::LiftMembers& members, std::span<const PlacedReading> readings,
                std::span<const std::size_t> which, std::vector<AtReading>& out) {
  const ZoneRun* run = readings[which.front()].run;
  double last = 0;
  for (const std::size_t i : which) last = std::max(last, readings[i].reading->minute);
  std::vector<process::Application> bowls;
  if (run != nullptr) bowls = bowls_until(*run, last);
  if (bowls.empty()) {
    for (const std::size_t i : which) {
      out[i] = seen_at(members, process::starting_moment(members));
    }
    return;
  }
  std::vector<double> on_hair;
  for (const std::size_t i : which) {
    on_hair.push_back(total_minutes(bowls_until(*run, readings[i].reading->minute)));
  }
  InlineExecutor alone;  // zones are what runs side by side
  const auto moments = process::simulate_lift(members, bowls, every_minutes(on_hair), alone);
  for (std::size_t k = 0; k < which.size(); ++k) {
    const auto nearest =
        std::min_element(moments.begin(), moments.end(), [&](const auto& one, const auto& two) {
          return std::abs(one.minute_total - on_hair[k]) < std::abs(two.minute_total - on_hair[k]);
        });
    out[which[k]] = seen_at(members, *nearest);
  }
}

/// Chance of a stretch answer at a wear: ordered logistic. Guesses, round the caution at a wear of
/// 0.25 and the limit of 0.40; healthy wet hair stretches 40 to 50 % and springs back.
double log_stretch(Stretch answer, double wear) {
  constexpr double kSlow = 0.27, kStays = 0.38, kSnaps = 0.46;  // share of cystine
  constexpr double kScale = 0.06;
  const auto beyond = [&](double edge) { return 1 / (1 + exp_portable((edge - wear) / kScale)); };
  const double slow = beyond(kSlow), stays = beyond(kStays), snaps = beyond(kSnaps);
  switch (answer) {
    case Stretch::springs:
      return log_portable(1 - slow);
    case Stretch::slow:
      return log_portable(slow - stays);
    case Stretch::stays:
      return log_portable(stays - snaps);
    case Stretch::snaps:
      break;
  }
  return log_portable(snaps);
}

double stage_level(const std::string& tone, const hair::Ladder& ladder) {
  for (const hair::WarmStage& stage : hair::warm_stages()) {
    if (stage.name == tone) return ladder.level_of(stage.middle.l);
  }
  return ladder.level_of(hair::warm_stages().back().middle.l);
}

double log_likelihood_of(const HeadMembers& members, const PlacedReading& placed,
                         const AtReading& at, std::size_t m, const hair::Ladder& ladder) {
  const CheckReading& reading = *placed.reading;
  const colour::HairLab& dry = at.dry[m];
  double sum = reading.stretch ? log_stretch(*reading.stretch, at.wear[m]) : 0;
  if (reading.lab) {
    const hair::MoistureShift wet = hair::moisture_shift(reading.seen);
    const double l = dry.l + wet.lstar + wet.sd * members.wet_look[m];
    return sum - 0.5 * (squared((reading.lab->l - l) / kInstrumentLstarSd) +
                        squared((reading.lab->a - dry.a) / kInstrumentChromaSd) +
                        squared((reading.lab->b - dry.b) / kInstrumentChromaSd));
  }
  if (reading.level) {
    const double off = *reading.level - called_level(members, placed, dry.l, m, ladder);
    sum -= 0.5 * squared(off / kEyeSdLevels);
  } else if (!reading.tone.empty()) {
    const double off =
        stage_level(reading.tone, ladder) - called_level(members, placed, dry.l, m, ladder);
    sum -= 0.5 * squared(off / kToneSdLevels);
  }
  return sum;
}

}  // namespace

double called_level(const HeadMembers& members, const PlacedReading& reading, double dry_lstar,
                    std::size_t m, const hair::Ladder& ladder) {
  const hair::MoistureShift wet = hair::moisture_shift(reading.reading->seen);
  return ladder.level_of(dry_lstar + wet.lstar + wet.sd * members.wet_look[m]) +
         members.bias[reading.reader][m];
}

std::vector<AtReading> at_readings(const HeadMembers& members,
                                   std::span<const PlacedReading> readings, Executor& executor) {
  // Readings of one zone and run are followed together.
  std::vector<std::vector<std::size_t>> groups;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const auto& group) {
      const PlacedReading& first = readings[group.front()];
      return first.zone == readings[i].zone && first.run == readings[i].run;
    });
    if (same == groups.end()) {
      groups.push_back({i});
    } else {
      same->push_back(i);
    }
  }
  std::vector<AtReading> out(readings.size());
  executor.run(groups.size(), [&](std::size_t g) {
    const PlacedReading& first = readings[groups[g].front()];
    const process::LiftMembers& own = members.zones[first.zone].members;
    if (first.reading->strand_test) {
      process::LiftMembers away = own;
      std::fill(away.warmth_c.begin(), away.warmth_c.end(), 0);  // a cut or hanging strand
      follow_run(away, readings, groups[g], out);
    } else {
      follow_run(own, readings, groups[g], out);
    }
  });
  return out;
}

ByZone log_likelihoods(const HeadMembers& members, std::span<const PlacedReading> readings,
                       std::span<const AtReading> at, const hair::Ladder& ladder) {
  ByZone sums(members.zones.size(), std::vector<double>(members.size(), 0));
  for (std::size_t i = 0; i < readings.size(); ++i) {
    std::vector<double>& sum = sums[readings[i].zone];
    for (std::size_t m = 0; m < sum.size(); ++m) {
      sum[m] += log_likelihood_of(members, readings[i], at[i], m, ladder);
    }
  }
  return sums;
}

std::vector<double> over_zones(const ByZone& values) {
  std::vector<double> sums(values.front().size(), 0);
  for (const auto& zone : values) {
    for (std::size_t m = 0; m < sums.size(); ++m) sums[m] += zone[m];
  }
  return sums;
}

std::vector<double> normalised(std::span<const double> log_weights, double share) {
  const double top = *std::max_element(log_weights.begin(), log_weights.end());
  std::vector<double> weights(log_weights.size());
  double sum = 0;
  for (std::size_t m = 0; m < weights.size(); ++m) {
    weights[m] = exp_portable(std::max(share * (log_weights[m] - top), -700.0));
    sum += weights[m];
  }
  for (double& w : weights) w /= sum;
  return weights;
}

double effective_number(std::span<const double> weights) {
  double sum = 0, squares = 0;
  for (const double w : weights) {
    sum += w;
    squares += w * w;
  }
  return sum * sum / squares;
}

}  // namespace hw::plan
