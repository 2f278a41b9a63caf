#include <algorithm>
#include <cmath>

#include "checks_parts.h"
#include "huewright/base/elementary.h"
#include "huewright/base/random.h"
#include "learned_prior.h"
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

/// ln of the prior of what the zones share, and of what was learned together, up to a constant.
double log_head_prior(const HeadMembers& members, bool wet, std::size_t m, const HeadPriors& priors,
                      const std::optional<LearnedTogether>& learned) {
  const ZoneOrigin& first = members.zones.front().origin;
  double sum = learned ? learned->log_density(members.zones, m)
                       : log_normal_density(log_portable(first.head_rate[m]), priors.ln_rate_mean,
                                            priors.ln_rate_sd) +
                             log_normal_density(members.bias[0][m], priors.reader_bias_mean,
                                                priors.reader_bias_sd);
  if (wet) {
    sum += log_normal_density(members.wet_look[m], priors.wet_look_mean_sd, priors.wet_look_sd);
  }
  return sum;
}

/// ln of the prior of what is a zone's own, up to a constant.
double log_zone_prior(const ZoneBelief& zone, std::size_t m) {
  const double own = log_portable(zone.members.rate[m] / zone.origin.head_rate[m]);
  // Flat in the logarithm of the unknown: a logistic in its logit.
  const double place = place_in_window(zone.origin.unknown, zone.origin.found[m]);
  return log_normal_density(own, 0, kZoneRateSd) - place -
         2 * log_portable(1 + exp_portable(-place));
}

/// What members are judged by, but for the prior of what zones share: ln of each zone's own prior
/// and first readings, and of its checks.
struct Scores {
  ByZone first, checks;
};

Scores scores_of(const Walk& by, const HeadMembers& members,
                 const std::optional<LearnedTogether>& learned) {
  Scores scores;
  scores.first.assign(members.zones.size(), std::vector<double>(members.size()));
  by.executor.run(members.zones.size(), [&](std::size_t z) {
    const ZoneBelief& zone = members.zones[z];
    std::vector<colour::HairLab> labs(members.size());
    process::lift_colours(zone.members, process::starting_moment(zone.members), labs,
                          process::Whites::left_out);
    for (std::size_t m = 0; m < labs.size(); ++m) {
      scores.first[z][m] =
          log_zone_prior(zone, m) +
          (learned && learned->holds(z)
               ? 0
               : log_learned(by.head.zones[z], zone.origin.unknown, zone.origin.found[m])) +
          log_likelihood(by.head.zones[z].readings, labs[m], members.bias[0][m], by.head.ladder);
    }
  });
  const auto seen = at_readings(members, by.readings, by.executor);
  scores.checks = log_likelihoods(members, by.readings, seen, by.head.ladder);
  return scores;
}

/// Steps of the members, judged and taken.
class Walking {
 public:
  Walking(const Walk& by, double power, int round, Walkers& walkers)
      : by_(by),
        power_(power),
        walkers_(walkers),
        draws_(by.head.seed),
        layout_{by.before.zones.size(), by.wet_matters},
        source_(source_of(by.before)),
        learned_(LearnedTogether::of(by.head.priors, by.before.zones)),
        stream_(kStream + kStreamsPerRound * static_cast<std::uint64_t>(round)),
        now_(scores_of(by, walkers.members, learned_)) {}

  /// What the rows hold, all of it at once.
  void step_head() {
    const auto rows = rows_now();
    const StudentSteps steps(covariance_of(rows), over_root(kHeadStep, layout_.size()));
    HeadMembers trial = walkers_.members;
    for (std::size_t m = 0; m < count(); ++m) {
      auto row = rows[m];
      steps.add(row, draws_, stream_ + 1, m);
      set_member(row, layout_, source_, m, trial);
    }
    take_whole(trial, false);
  }

  /// Each zone's own rate and pigment; zones that share no pigment are judged by themselves.
  void step_zones() {
    const auto rows = rows_now();
    HeadMembers trial = walkers_.members;
    auto moved = rows;
    for (std::size_t z = 0; z < layout_.zones; ++z) {
      constexpr std::uint64_t kStreamsPerZone = 8;
      std::vector<std::vector<double>> own(count());
      for (std::size_t m = 0; m < count(); ++m) {
        own[m] = {rows[m][layout_.zone_rate(z)], rows[m][layout_.found(z)]};
      }
      const StudentSteps steps(covariance_of(own), over_root(kZoneStep, 2));
      for (std::size_t m = 0; m < count(); ++m) {
        steps.add(own[m], draws_, stream_ + 100 + kStreamsPerZone * z, m);
        moved[m][layout_.zone_rate(z)] = own[m][0];
        moved[m][layout_.found(z)] = own[m][1];
      }
    }
    for (std::size_t m = 0; m < count(); ++m) set_member(moved[m], layout_, source_, m, trial);
    take_by_zone(trial);
  }

  /// All that the rows do not hold: constants, opening, wear, surface, strand.
  void step_rest() {
    HeadMembers trial = walkers_.members;
    for (std::size_t m = 0; m < count(); ++m) {
      const auto row = row_of(walkers_.members, layout_, m);
      copy_member(by_.before, draws_.below(count(), stream_ + 1, m), trial, m);
      set_member(row, layout_, source_, m, trial);
    }
    take_whole(trial, true);
  }

 private:
  static constexpr std::uint64_t kStream = 5'000'000;  // this class's own streams start here
  static constexpr std::uint64_t kStreamsPerRound = 10'000, kStreamsPerStep = 1000;

  [[nodiscard]] std::size_t count() const { return by_.before.size(); }
  /// Steps in sds of the members, over √d. The best for a normal of many quantities is 2.38 (bib:
  /// roberts_gelman_1997); shorter here, since a member's own constants leave its quantities
  /// less room than all members together have. Set by trial: a fifth to a third of steps are taken.
  static constexpr double kHeadStep = 1.5, kZoneStep = 0.8;
  static double over_root(double step, std::size_t d) {
    return step / std::sqrt(static_cast<double>(d));
  }

  [[nodiscard]] std::vector<std::vector<double>> rows_now() const {
    std::vector<std::vector<double>> rows(count());
    for (std::size_t m = 0; m < count(); ++m) rows[m] = row_of(walkers_.members, layout_, m);
    return rows;
  }

  [[nodiscard]] double gain(const Scores& later, std::size_t z, std::size_t m) const {
    return later.first[z][m] - now_.first[z][m] + power_ * (later.checks[z][m] - now_.checks[z][m]);
  }

  void take_zone(const HeadMembers& trial, const Scores& later, std::size_t z, std::size_t m) {
    copy_zone_member(trial.zones[z], m, walkers_.members.zones[z], m);
    now_.first[z][m] = later.first[z][m];
    now_.checks[z][m] = later.checks[z][m];
  }

  /// from_before: the rest was drawn from the members before the checks, and so by its own prior.
  void take_whole(const HeadMembers& trial, bool from_before) {
    const HeadMembers& now = walkers_.members;
    const Scores later = scores_of(by_, trial, learned_);
    for (std::size_t m = 0; m < count(); ++m) {
      double sum = log_head_prior(trial, layout_.wet, m, by_.head.priors, learned_) -
                   log_head_prior(now, layout_.wet, m, by_.head.priors, learned_);
      if (from_before && learned_) {
        sum += learned_->log_rest(now.zones, m) - learned_->log_rest(trial.zones, m);
      }
      sum += log_pigments(trial, m) - log_pigments(now, m);
      for (std::size_t z = 0; z < layout_.zones; ++z) sum += gain(later, z, m);
      if (!(log_portable(draws_.uniform(stream_, m)) < sum)) continue;
      for (std::size_t z = 0; z < layout_.zones; ++z) take_zone(trial, later, z, m);
      copy_member(trial, m, walkers_.members, m);
    }
    finish_step();
  }

  void take_by_zone(const HeadMembers& trial) {
    const Scores later = scores_of(by_, trial, learned_);
    for (std::size_t m = 0; m < count(); ++m) {
      // Untouched zones go together, and with the first of them what began as it did.
      double together = log_pigments(trial, m) - log_pigments(walkers_.members, m);
      if (learned_) {
        together += learned_->log_density(trial.zones, m) -
                    learned_->log_density(walkers_.members.zones, m);
      }
      for (std::size_t z = 0; z < layout_.zones; ++z) {
        if (goes_with_source(z)) together += gain(later, z, m);
      }
      for (std::size_t z = 0; z < layout_.zones; ++z) {
        const bool with = goes_with_source(z);
        const double chance = draws_.uniform(stream_ + 2 + (with ? 0 : z + 1), m);
        if (log_portable(chance) < (with ? together : gain(later, z, m))) {
          take_zone(trial, later, z, m);
        }
      }
    }
    finish_step();
  }

  [[nodiscard]] bool is_untouched(std::size_t z) const {
    return by_.before.zones[z].origin.unknown == Unknown::melanin;
  }

  /// ln of how well the pigments of untouched zones go with that of the first, up to a constant.
  [[nodiscard]] double log_pigments(const HeadMembers& members, std::size_t m) const {
    double sum = 0;
    for (std::size_t z = 0; z < layout_.zones; ++z) {
      if (z == source_ || !is_untouched(z)) continue;
      sum += log_alike(members.zones[z].origin.found[m], members.zones[source_].origin.found[m]);
    }
    return sum;
  }

  [[nodiscard]] bool goes_with_source(std::size_t z) const {
    return is_untouched(z) || by_.before.zones[z].origin.natural_from_head;
  }

  void finish_step() {
    walkers_.checks = now_.checks;
    stream_ += kStreamsPerStep;
  }

  const Walk& by_;
  double power_;
  Walkers& walkers_;
  Draws draws_;
  Layout layout_;
  std::size_t source_;
  std::optional<LearnedTogether> learned_;
  std::uint64_t stream_;
  Scores now_;
};

}  // namespace

void walk(const Walk& by, double power, int round, Walkers& walkers) {
  Walking walking(by, power, round, walkers);
  walking.step_head();
  walking.step_zones();
  walking.step_rest();
  walking.step_zones();
}

}  // namespace hw::plan
