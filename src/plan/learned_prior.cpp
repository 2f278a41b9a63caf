#include "learned_prior.h"

#include <algorithm>
#include <cmath>

#include "checks_parts.h"
#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "huewright/base/random.h"
#include "huewright/base/statistics.h"

namespace hw::plan {
namespace {

/// Where things stand in a row: rate, bias, then pigment and rest of each zone.
constexpr std::size_t kRate = 0, kBias = 1;
constexpr std::size_t pigment_place(std::size_t k) {
  return 2 + 2 * k;
}
constexpr std::size_t rest_place(std::size_t k) {
  return 3 + 2 * k;
}

std::vector<double> picked_of(const std::vector<double>& all,
                              const std::vector<std::size_t>& places) {
  std::vector<double> part;
  for (const std::size_t i : places) part.push_back(all[i]);
  return part;
}

Square picked_of(const Square& all, const std::vector<std::size_t>& places) {
  Square part(places.size());
  for (std::size_t i = 0; i < places.size(); ++i) {
    for (std::size_t j = 0; j < places.size(); ++j) part(i, j) = all(places[i], places[j]);
  }
  return part;
}

std::vector<std::size_t> rest_places(std::size_t zones) {
  std::vector<std::size_t> places;
  for (std::size_t k = 0; k < zones; ++k) places.push_back(rest_place(k));
  return places;
}

double log_normal(double x, double mean, double sd) {
  const double z = (x - mean) / sd;
  return -0.5 * z * z - log_portable(sd);
}

}  // namespace

Gaussian::Gaussian(std::vector<double> mean, const Square& covariance) : mean_(std::move(mean)) {
  auto root = cholesky(covariance);
  HW_CHECK(root.has_value());
  root_ = *std::move(root);
  for (std::size_t i = 0; i < root_.d; ++i) log_root_ += log_portable(root_(i, i));
}

double Gaussian::log_density(const std::vector<double>& at) const {
  std::vector<double> z(root_.d);
  double squares = 0;
  for (std::size_t i = 0; i < root_.d; ++i) {
    double sum = at[i] - mean_[i];
    for (std::size_t k = 0; k < i; ++k) sum -= root_(i, k) * z[k];
    z[i] = sum / root_(i, i);
    squares += z[i] * z[i];
  }
  return -0.5 * squares - log_root_;
}

LearnedTogether::LearnedTogether(std::vector<std::size_t> zones, std::vector<double> mean,
                                 Square covariance)
    : zones_(std::move(zones)),
      mean_(std::move(mean)),
      all_(mean_, covariance),
      rest_(picked_of(mean_, rest_places(zones_.size())),
            picked_of(covariance, rest_places(zones_.size()))) {
  for (std::size_t i = 0; i < covariance.d; ++i) sd_.push_back(std::sqrt(covariance(i, i)));
}

std::optional<LearnedTogether> LearnedTogether::of(const HeadPriors& priors,
                                                   std::span<const ZoneBelief> zones) {
  if (!priors.together) return std::nullopt;
  const JointPrior& known = *priors.together;
  std::vector<std::size_t> mine;
  std::vector<std::size_t> places = {kRate, kBias};
  for (std::size_t k = 0; k < known.zones.size(); ++k) {
    const auto zone = std::find_if(zones.begin(), zones.end(), [&](const ZoneBelief& belief) {
      return belief.name == known.zones[k] && belief.origin.unknown == Unknown::melanin;
    });
    if (zone == zones.end()) continue;
    mine.push_back(static_cast<std::size_t>(zone - zones.begin()));
    places.push_back(pigment_place(k));
    places.push_back(rest_place(k));
  }
  if (mine.empty()) return std::nullopt;
  Square covariance(known.mean.size());
  covariance.at = known.covariance;
  return LearnedTogether(std::move(mine), picked_of(known.mean, places),
                         picked_of(covariance, places));
}

std::vector<double> LearnedTogether::at(std::span<const ZoneBelief> zones, std::size_t m) const {
  const ZoneOrigin& first = zones.front().origin;
  std::vector<double> row = {log_portable(first.head_rate[m]), first.reader_bias[m]};
  for (const std::size_t z : zones_) {
    row.push_back(log_portable(zones[z].origin.found[m]));
    row.push_back(zones[z].origin.rest[m]);
  }
  return row;
}

double LearnedTogether::log_density(std::span<const ZoneBelief> zones, std::size_t m) const {
  return all_.log_density(at(zones, m));
}

double LearnedTogether::log_rest(std::span<const ZoneBelief> zones, std::size_t m) const {
  return rest_.log_density(picked_of(at(zones, m), rest_places(zones_.size())));
}

double LearnedTogether::log_ratio(std::span<const ZoneBelief> zones, std::size_t m) const {
  const auto row = at(zones, m);
  double sum = all_.log_density(row) - log_normal(row[kRate], mean_[kRate], sd_[kRate]) -
               log_normal(row[kBias], mean_[kBias], sd_[kBias]);
  for (std::size_t k = 0; k < zones_.size(); ++k) {
    const std::size_t p = pigment_place(k), r = rest_place(k);
    sum -= log_normal(row[p], mean_[p], sd_[p]) + log_normal(row[r], 0, 1);
  }
  return sum;
}

bool LearnedTogether::holds(std::size_t zone) const {
  return std::find(zones_.begin(), zones_.end(), zone) != zones_.end();
}

std::vector<double> rest_scores(const ZoneBelief& zone) {
  // The bowl that rates are stated at, for as long as most lightener stays.
  process::Application bowl;
  bowl.peroxide_percent = process::kStandardPeroxidePercent;
  bowl.powder_percent = process::kStandardPowderPercent;
  bowl.minutes = 35;
  process::LiftMembers hair = zone.members;
  double middle = 0;
  for (const double found : zone.origin.found) {
    middle += log_portable(found) / static_cast<double>(zone.origin.found.size());
  }
  const double melanin = exp_portable(middle);
  for (std::size_t m = 0; m < hair.size(); ++m) {
    hair.rate[m] = 1;
    hair.warmth_c[m] = 0;
    hair.pheomelanin_percent[m] = melanin * zone.origin.pheo_share[m];
    hair.eumelanin_percent[m] = melanin - hair.pheomelanin_percent[m];
  }
  InlineExecutor alone;
  const auto moments = process::simulate_lift(hair, {&bowl, 1}, bowl.minutes, alone);
  std::vector<colour::HairLab> labs(hair.size());
  process::lift_colours(hair, moments.back(), labs, process::Whites::left_out);
  std::vector<double> scores;
  for (const auto& lab : labs) scores.push_back(lab.l);
  const double centre = mean(scores);
  double squares = 0;
  for (const double l : scores) squares += (l - centre) * (l - centre);
  const double sd = std::sqrt(squares / static_cast<double>(scores.size()));
  for (double& score : scores) score = sd > 0 ? (score - centre) / sd : 0;
  return scores;
}

std::vector<ZoneBelief> kept_together(const Case& head, std::vector<ZoneBelief> zones,
                                      std::span<const double> log_evidence) {
  constexpr double kOtherHair = 0.02;  // share kept whatever was learned: guess
  constexpr std::uint64_t kStream = 6'300'000;
  const auto learned = LearnedTogether::of(head.priors, zones);
  const auto untouched = std::count_if(zones.begin(), zones.end(), [](const ZoneBelief& zone) {
    return zone.origin.unknown == Unknown::melanin;
  });
  if (!learned && untouched < 2) return zones;
  const std::size_t count = zones.front().members.size();
  std::vector<double> log_weights(log_evidence.begin(), log_evidence.end());
  for (std::size_t m = 0; learned && m < count; ++m) log_weights[m] += learned->log_ratio(zones, m);
  auto weights = normalised(log_weights);
  for (double& w : weights) w = (1 - kOtherHair) * w + kOtherHair / static_cast<double>(count);
  HeadMembers members;
  members.bias = {zones.front().origin.reader_bias};
  members.wet_look.assign(count, 0);
  members.zones = std::move(zones);
  keep(systematic(weights, Draws(head.seed).uniform(kStream, 0)), members);
  return finished(head, std::move(members));
}

}  // namespace hw::plan
