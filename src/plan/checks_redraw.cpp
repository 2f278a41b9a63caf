#include <algorithm>
#include <cmath>

#include "checks_parts.h"
#include "huewright/base/elementary.h"
#include "huewright/base/random.h"
#include "pigment_origin.h"
#include "reading.h"
#include "student_t.h"

namespace hw::plan {
namespace {

/// Where each thing that is drawn anew stands in a member's row.
struct Layout {
  std::size_t zones = 0;
  bool wet = false;
  static constexpr std::size_t kRate = 0, kBias = 1;
  [[nodiscard]] std::size_t wet_look() const { return 2; }
  [[nodiscard]] std::size_t zone_rate(std::size_t z) const { return 2 + (wet ? 1 : 0) + 2 * z; }
  /// Place of the zone's unknown in its window, as a logit: −∞ to ∞.
  [[nodiscard]] std::size_t found(std::size_t z) const { return zone_rate(z) + 1; }
  [[nodiscard]] std::size_t size() const { return 2 + (wet ? 1 : 0) + 2 * zones; }
};

/// The zone whose pigment other zones of the head started from, or none.
std::size_t source_of(const HeadMembers& members) {
  for (std::size_t z = 0; z < members.zones.size(); ++z) {
    if (members.zones[z].origin.unknown == Unknown::melanin) return z;
  }
  return members.zones.size();
}

double place_in_window(Unknown unknown, double found) {
  constexpr double kEdge = 1e-6;  // a candidate never lies nearer to an end of its window
  const Window window = whole_window(unknown);
  const double share = log_portable(found / window.low) / log_portable(window.high / window.low);
  const double inside = std::clamp(share, kEdge, 1 - kEdge);
  return log_portable(inside / (1 - inside));
}

double found_at(Unknown unknown, double place) {
  const Window window = whole_window(unknown);
  return window.low * pow_portable(window.high / window.low, (1 / (1 + exp_portable(-place))));
}

std::vector<double> row_of(const HeadMembers& members, const Layout& layout, std::size_t m) {
  std::vector<double> row(layout.size());
  const ZoneOrigin& first = members.zones.front().origin;
  row[Layout::kRate] = log_portable(first.head_rate[m]);
  row[Layout::kBias] = first.reader_bias[m];
  if (layout.wet) row[layout.wet_look()] = members.wet_look[m];
  for (std::size_t z = 0; z < layout.zones; ++z) {
    const ZoneBelief& zone = members.zones[z];
    row[layout.zone_rate(z)] = log_portable(zone.members.rate[m] / zone.origin.head_rate[m]);
    row[layout.found(z)] = place_in_window(zone.origin.unknown, zone.origin.found[m]);
  }
  return row;
}

/// Builds member m from its row; what the row does not hold stays.
void set_member(const std::vector<double>& row, const Layout& layout, std::size_t source,
                std::size_t m, HeadMembers& members) {
  const double head_rate = exp_portable(row[Layout::kRate]);
  members.bias[0][m] = row[Layout::kBias];
  if (layout.wet) members.wet_look[m] = row[layout.wet_look()];
  for (std::size_t z = 0; z < layout.zones; ++z) {
    ZoneOrigin& origin = members.zones[z].origin;
    process::LiftMembers& hair = members.zones[z].members;
    origin.head_rate[m] = head_rate;
    origin.reader_bias[m] = row[Layout::kBias];
    hair.rate[m] = head_rate * exp_portable(row[layout.zone_rate(z)]);
    origin.found[m] = found_at(origin.unknown, row[layout.found(z)]);
    if (origin.unknown == Unknown::melanin) origin.natural_percent[m] = origin.found[m];
    if (origin.natural_from_head) {
      origin.natural_percent[m] = found_at(Unknown::melanin, row[layout.found(source)]);
    }
    if (origin.unknown == Unknown::exposure) origin.exposure[m] = origin.found[m];
    set_pigment(origin, m, hair);
  }
}

double log_normal_density(double x, double mean, double sd) {
  const double z = (x - mean) / sd;
  return -0.5 * z * z;
}

/// ln of the prior of a row, up to a constant.
double log_prior(const std::vector<double>& row, const Layout& layout, const HeadPriors& priors) {
  double sum =
      log_normal_density(row[Layout::kRate], priors.ln_rate_mean, priors.ln_rate_sd) +
      log_normal_density(row[Layout::kBias], priors.reader_bias_mean, priors.reader_bias_sd);
  if (layout.wet) {
    sum += log_normal_density(row[layout.wet_look()], priors.wet_look_mean_sd, priors.wet_look_sd);
  }
  for (std::size_t z = 0; z < layout.zones; ++z) {
    sum += log_normal_density(row[layout.zone_rate(z)], 0, kZoneRateSd);
    // Flat in the logarithm of the unknown: a logistic in its logit.
    const double place = row[layout.found(z)];
    sum += -place - 2 * log_portable(1 + exp_portable(-place));
  }
  return sum;
}

/// ln of prior and first readings' likelihood of each member, up to a constant.
std::vector<double> log_standing(const Walk& by, const Layout& layout, const HeadMembers& members) {
  std::vector<std::vector<double>> of_zone(layout.zones, std::vector<double>(members.size()));
  by.executor.run(layout.zones, [&](std::size_t z) {
    const process::LiftMembers& hair = members.zones[z].members;
    std::vector<colour::HairLab> labs(members.size());
    process::lift_colours(hair, process::starting_moment(hair), labs, process::Whites::left_out);
    for (std::size_t m = 0; m < labs.size(); ++m) {
      of_zone[z][m] =
          log_likelihood(by.head.zones[z].readings, labs[m], members.bias[0][m], by.head.ladder);
    }
  });
  std::vector<double> sums(members.size());
  for (std::size_t m = 0; m < sums.size(); ++m) {
    sums[m] = log_prior(row_of(members, layout, m), layout, by.head.priors);
    for (const auto& zone : of_zone) sums[m] += zone[m];
  }
  return sums;
}

/// Puts trial members in place where a draw lets them. Returns how many moved.
std::size_t accept(const Walk& by, const Layout& layout, double power, const Draws& draws,
                   std::uint64_t stream, const HeadMembers& trial, std::vector<double>& standing,
                   Walkers& walkers) {
  const auto seen = at_readings(trial, by.readings, by.executor);
  const auto checks = log_likelihoods(trial, by.readings, seen, by.head.ladder);
  const auto first = log_standing(by, layout, trial);
  std::size_t moved = 0;
  for (std::size_t m = 0; m < checks.size(); ++m) {
    const double gain = first[m] - standing[m] + power * (checks[m] - walkers.checks[m]);
    if (!(log_portable(draws.uniform(stream, m)) < gain)) continue;
    copy_member(trial, m, walkers.members, m);
    walkers.checks[m] = checks[m];
    standing[m] = first[m];
    ++moved;
  }
  return moved;
}

}  // namespace

void walk(const Walk& by, double power, int round, Walkers& walkers) {
  constexpr std::uint64_t kStream = 5'000'000;  // this function's own streams start here
  constexpr std::uint64_t kStreamsPerRound = 10'000, kStreamsPerStep = 1000;
  constexpr int kSteps = 3;
  constexpr double kStepScale = 2.38;  // over √d: the best for a normal; bib: roberts_gelman_1997
  const Layout layout{by.before.zones.size(), by.wet_matters};
  const Draws draws(by.head.seed);
  const std::size_t source = source_of(by.before);
  const std::size_t count = by.before.size();
  std::vector<double> standing = log_standing(by, layout, walkers.members);
  std::uint64_t stream = kStream + kStreamsPerRound * static_cast<std::uint64_t>(round);

  std::vector<std::vector<double>> rows(count);
  for (std::size_t m = 0; m < count; ++m) rows[m] = row_of(walkers.members, layout, m);
  const StudentSteps steps(covariance_of(rows),
                           kStepScale / std::sqrt(static_cast<double>(layout.size())));
  for (int step = 0; step < kSteps; ++step) {
    HeadMembers trial = walkers.members;
    for (std::size_t m = 0; m < count; ++m) {
      auto row = row_of(walkers.members, layout, m);
      steps.add(row, draws, stream + 1, m);
      set_member(row, layout, source, m, trial);
    }
    accept(by, layout, power, draws, stream, trial, standing, walkers);
    stream += kStreamsPerStep;
  }
  // All that the rows do not hold: constants, opening, wear, surface, strand.
  HeadMembers trial = walkers.members;
  for (std::size_t m = 0; m < count; ++m) {
    const auto row = row_of(walkers.members, layout, m);
    copy_member(by.before, draws.below(count, stream + 1, m), trial, m);
    set_member(row, layout, source, m, trial);
  }
  accept(by, layout, power, draws, stream, trial, standing, walkers);
}

}  // namespace hw::plan
