// From what was learned to the priors of the next visit and bowl.
#include <algorithm>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "huewright/base/elementary.h"
#include "huewright/plan/learn.h"
#include "plan_tables.h"

namespace hw::plan {
namespace {

double squared(double x) {
  return x * x;
}

double sd_of(double variance_one, double variance_two, double covariance) {
  return std::sqrt(std::max(0.0, variance_one + variance_two + 2 * covariance));
}

/// What is known of one who has a name, or the spread of all.
NormalBelief known_or_any(const Learned& learned, FactorKind kind, const std::string& name) {
  const Factor* known = name.empty() ? nullptr : learned.find(kind, name);
  return known != nullptr ? known->learned : NormalBelief{0, factor_prior(kind).sd_between};
}

/// Covariance of two factors; 0 where one is not known.
double between(const Learned& learned, const Factor* one, const Factor* two) {
  if (one == nullptr || two == nullptr) return 0;
  const auto i = static_cast<std::size_t>(one - learned.factors.data());
  const auto j = static_cast<std::size_t>(two - learned.factors.data());
  return learned.covariance[i * learned.factors.size() + j];
}

void scale(colour::Spectrum& spectrum, double by) {
  for (double& value : spectrum) value *= by;
}

}  // namespace

const FactorPrior& factor_prior(FactorKind kind) {
  static const std::vector<FactorPrior> priors = [] {
    const auto table = parse_table(tables::learn_priors, "plan/learn_priors.csv");
    HW_CHECK(table.has_value() && table->rows() == 8);
    std::vector<FactorPrior> list;
    for (std::size_t row = 0; row < table->rows(); ++row) {
      list.push_back({*table->number(row, "sd_between"), *table->number(row, "sd_visit")});
    }
    return list;
  }();
  return priors[static_cast<std::size_t>(kind)];
}

HeadPriors priors_for(const Learned& learned, const std::string& client, const std::string& salon,
                      const std::string& reader) {
  const auto of_visit = [](FactorKind kind) { return factor_prior(kind).sd_visit; };
  const NormalBelief own = known_or_any(learned, FactorKind::client_rate, client);
  const NormalBelief house = known_or_any(learned, FactorKind::salon_rate, salon);
  const NormalBelief eye = known_or_any(learned, FactorKind::reader_bias, reader);
  const NormalBelief wet = known_or_any(learned, FactorKind::wet_look, salon);
  const double together = between(learned, learned.find(FactorKind::client_rate, client),
                                  learned.find(FactorKind::salon_rate, salon));
  HeadPriors priors;
  priors.ln_rate_mean = own.mean + house.mean;
  priors.ln_rate_sd = std::hypot(sd_of(squared(own.sd), squared(house.sd), together),
                                 of_visit(FactorKind::client_rate));
  priors.reader_bias_mean = eye.mean;
  priors.reader_bias_sd = std::hypot(eye.sd, of_visit(FactorKind::reader_bias));
  priors.wet_look_mean_sd = wet.mean;
  priors.wet_look_sd = std::hypot(wet.sd, of_visit(FactorKind::wet_look));
  return priors;
}

std::string factor_name(const std::string& client, const std::string& zone) {
  return client + " / " + zone;
}

std::optional<NormalBelief> pigment_for(const Learned& learned, const std::string& client,
                                        const std::string& zone) {
  const Factor* known = learned.find(FactorKind::client_pigment, factor_name(client, zone));
  if (client.empty() || known == nullptr) return std::nullopt;
  return NormalBelief{
      known->learned.mean,
      std::hypot(known->learned.sd, factor_prior(FactorKind::client_pigment).sd_visit)};
}

namespace {

/// A quantity of the next visit as a sum of learned factors, and what of it is new that day.
struct Sum {
  std::vector<std::size_t> factors;
  double mean = 0, of_day = 0;  ///< of_day: variance, that of factors nobody knows included
};

Sum sum_of(const Learned& learned, std::span<const std::pair<FactorKind, std::string>> parts) {
  Sum made;
  for (const auto& [kind, name] : parts) {
    made.of_day += squared(factor_prior(kind).sd_visit);
    const Factor* known = name.empty() ? nullptr : learned.find(kind, name);
    if (known == nullptr) {
      made.of_day += squared(factor_prior(kind).sd_between);
      continue;
    }
    made.factors.push_back(static_cast<std::size_t>(known - learned.factors.data()));
    made.mean += known->learned.mean;
  }
  return made;
}

/// The normal belief over rate, bias, and what is known of the zones.
std::optional<JointPrior> together(const Learned& learned, std::span<const ZoneCase> zones,
                                   const VisitNames& names) {
  using Part = std::pair<FactorKind, std::string>;
  const std::vector<Part> rate = {{FactorKind::client_rate, names.client},
                                  {FactorKind::salon_rate, names.salon}};
  const std::vector<Part> bias = {{FactorKind::reader_bias, names.reader}};
  std::vector<Sum> sums = {sum_of(learned, rate), sum_of(learned, bias)};
  JointPrior made;
  for (const ZoneCase& zone : zones) {
    if (!zone.ln_pigment) continue;
    made.zones.push_back(zone.name);
    const std::string name = factor_name(names.client, zone.name);
    for (const FactorKind kind : {FactorKind::client_pigment, FactorKind::client_rest}) {
      const std::vector<Part> part = {{kind, name}};
      sums.push_back(sum_of(learned, part));
    }
  }
  if (made.zones.empty()) return std::nullopt;
  for (std::size_t i = 0; i < sums.size(); ++i) {
    made.mean.push_back(sums[i].mean);
    for (std::size_t j = 0; j < sums.size(); ++j) {
      double covariance = i == j ? sums[i].of_day : 0;
      for (const std::size_t f : sums[i].factors) {
        for (const std::size_t g : sums[j].factors) {
          covariance += learned.covariance[f * learned.factors.size() + g];
        }
      }
      made.covariance.push_back(covariance);
    }
  }
  return made;
}

}  // namespace

Case with_learned(Case head, const Learned& learned, const VisitNames& names) {
  head.priors = priors_for(learned, names.client, names.salon, names.reader);
  for (ZoneCase& zone : head.zones) zone.ln_pigment = pigment_for(learned, names.client, zone.name);
  head.priors.together = together(learned, head.zones, names);
  head.shade_strengths = shade_strengths(learned);
  head.salon.amount_factor = amount_factor_for(learned, names.salon);
  return head;
}

NormalBelief shade_strength_for(const Learned& learned, const std::string& shade) {
  const NormalBelief now = known_or_any(learned, FactorKind::shade_strength, shade);
  return {now.mean, std::hypot(now.sd, factor_prior(FactorKind::shade_strength).sd_visit)};
}

std::vector<std::pair<std::string, NormalBelief>> shade_strengths(const Learned& learned) {
  std::vector<std::pair<std::string, NormalBelief>> list;
  for (const Factor& factor : learned.factors) {
    if (factor.kind != FactorKind::shade_strength) continue;
    list.emplace_back(factor.name, shade_strength_for(learned, factor.name));
  }
  return list;
}

process::Shade with_learned(process::Shade shade, const NormalBelief& strength) {
  const FactorPrior& prior = factor_prior(FactorKind::shade_strength);
  const double day = squared(prior.sd_visit);
  const double stays = squared(strength.sd) - day;  // variance of what stays, facts counted
  if (!(stays > 0 && stays < squared(prior.sd_between))) return shade;
  // What the facts said: the belief with the doubt about shades in general taken out again.
  const double by_facts = 1 / stays - 1 / squared(prior.sd_between);
  const double weighted = strength.mean / stays;
  const double own = squared(shade.strength_sd_ln);
  if (!(own > day)) return shade;  // a shade known better than one tube from the next
  const double certainty = 1 / (own - day) + by_facts;
  const double by = exp_portable(weighted / certainty);
  scale(shade.full, by);
  for (process::Colourant& colourant : shade.colourants) scale(colourant.full, by);
  shade.strength_sd_ln = std::sqrt(1 / certainty + day);
  return shade;
}

process::Shade with_learned(process::Shade shade, const Case& head) {
  const auto& all = head.shade_strengths;
  const auto own = std::find_if(all.begin(), all.end(),
                                [&](const auto& known) { return known.first == shade.id; });
  return own == all.end() ? shade : with_learned(std::move(shade), own->second);
}

double amount_factor_for(const Learned& learned, const std::string& salon) {
  constexpr double kLeast = 0.2, kMost = 5;  // as Salon::amount_factor
  const NormalBelief now = known_or_any(learned, FactorKind::salon_amount, salon);
  return std::clamp(exp_portable(now.mean), kLeast, kMost);
}

}  // namespace hw::plan
