#include "huewright/plan/belief.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "huewright/base/elementary.h"
#include "huewright/hair/head.h"
#include "huewright/process/warmth.h"
#include "learned_prior.h"
#include "pigment_origin.h"
#include "plan_tables.h"
#include "reading.h"

namespace hw::plan {
namespace {

constexpr double kNormal90 = 1.2815515655446004;  // 90 % quantile of the standard normal

/// Streams of random draws; a zone adds its own offset.
enum Stream : std::uint64_t {
  kRateStream = 1000,
  kBiasStream,
  kStrandStream,
  kZoneRateStream,
  kPheoStream,
  kNaturalStream,
  kLighteningStream,
  kPorosityStream,
  kPickStream,
  kServiceStream = 1100,
  kCandidateStream = 2000,
};
constexpr std::uint64_t kZoneStreams = 10000;

/// What every zone of the head shares.
struct HeadDraws {
  std::vector<process::LiftConstants> constants;
  std::vector<double> rate, bias, strand_um;
  std::vector<double> natural_melanin;  ///< of an untouched zone, once one is known
  std::vector<double> log_evidence;     ///< of later untouched zones, given the first
};

double lognormal(double central, double ratio90, double normal) {
  return central * exp_portable(normal / kNormal90 * log_portable(ratio90));
}

struct Porous {
  double opened, spread;
};
Porous porous(Porosity porosity) {
  static const Table table = [] {
    auto parsed = parse_table(tables::porosity, "plan/porosity.csv");
    HW_CHECK(parsed.has_value() && parsed->rows() == 4);
    return *std::move(parsed);
  }();
  const auto row = static_cast<std::size_t>(porosity);
  return {*table.number(row, "opened"), *table.number(row, "spread")};
}

/// Past services of a zone, by id, with how often.
std::vector<std::pair<const PastService*, int>> services(const ZoneCase& zone) {
  const process::TextureServices& texture = zone.facts.texture;
  std::vector<std::pair<const PastService*, int>> list;
  const auto add = [&](const char* id, int times) {
    if (times > 0) list.emplace_back(&past_service(id), times);
  };
  add("untouched", 1);
  add("permanent_colour", zone.past.permanent_colours);
  add("demi_colour", zone.past.demi_colours);
  add("lightened", zone.past.lightened);
  add("permed", texture.permed);
  add("relaxed_hydroxide", texture.relaxed_hydroxide);
  add("relaxed_other", texture.relaxed_other);
  add("texturised", texture.texturised);
  add("smoothed", texture.smoothed);
  return list;
}

/// Opening and wear of each member from the zone's past.
void draw_past(const ZoneCase& zone, const Draws& draws, std::uint64_t base,
               process::LiftMembers& members) {
  const Porous word = porous(zone.porosity);
  const auto list = services(zone);
  for (std::size_t m = 0; m < members.size(); ++m) {
    double opened = lognormal(word.opened, word.spread, draws.normal(base + kPorosityStream, m));
    double wear_sq = 0;
    std::uint64_t stream = base + kServiceStream;
    for (const auto& [service, times] : list) {
      const double z = draws.normal(++stream, m);
      opened *= lognormal(pow_portable(service->opened, times), service->opened_spread, z);
      const double worn = draws.normal(++stream, m);
      const double edge = worn < 0 ? service->wear_low : service->wear_high;
      const double x = lognormal(service->wear, edge / service->wear, std::abs(worn));
      wear_sq += times * x * x;
    }
    members.opened[m] = std::min(opened, kOpenedMost);
    members.wear[m] = std::min(process::kWearCap, std::sqrt(wear_sq));
  }
}

Unknown unknown_of(const ZoneCase& zone) {
  if (zone.past.old_colour) return Unknown::dye;
  return zone.past.lightened > 0 ? Unknown::exposure : Unknown::melanin;
}

/// Fills the hair of member m for one value of the zone's unknown.
void set_candidate(const ZoneCase& zone, Unknown unknown, double value, const HeadDraws& head,
                   const Draws& draws, std::uint64_t base, std::size_t m, ZoneOrigin& origin,
                   process::LiftMembers& members) {
  // Natural melanin where no untouched zone tells it: level 1 to 4 [% of mass], log-uniform.
  constexpr Window kNatural{0.7, 3.5};
  const double pheo_share = 0.01 + 0.07 * draws.uniform(base + kPheoStream, m);
  double melanin = value;
  if (unknown != Unknown::melanin) {
    melanin = !head.natural_melanin.empty()
                  ? head.natural_melanin[m]
                  : kNatural.low * pow_portable(kNatural.high / kNatural.low,
                                                draws.uniform(base + kNaturalStream, m));
  }
  origin.found[m] = value;
  origin.natural_percent[m] = melanin;
  origin.pheo_share[m] = pheo_share;
  // Coloured over: the readings decide the dye, the earlier lightening keeps its prior.
  constexpr Window kLightening{8, 60};  // standard minutes, log-uniform; guess
  if (zone.past.lightened > 0) {
    origin.exposure[m] =
        unknown == Unknown::exposure
            ? value
            : kLightening.low * pow_portable(kLightening.high / kLightening.low,
                                             draws.uniform(base + kLighteningStream, m));
  }
  set_pigment(origin, m, members);
}

/// Wear of an earlier lightening is at least what its exposure cost.
void add_exposure_wear(const HeadDraws& head, const std::vector<double>& exposure,
                       process::LiftMembers& members) {
  for (std::size_t m = 0; m < members.size(); ++m) {
    const double kappa = head.constants[m].wear_per_root_min;
    members.wear[m] =
        std::min(process::kWearCap, std::max(members.wear[m], kappa * std::sqrt(exposure[m])));
  }
}

std::vector<colour::HairLab> colours_now(const process::LiftMembers& members,
                                         process::Whites whites) {
  std::vector<colour::HairLab> labs(members.size());
  lift_colours(members, process::starting_moment(members), labs, whites);
  return labs;
}

double surface_of(const Draws& draws, std::uint64_t stream, std::size_t m) {
  // Seen between 0.0175 and 0.031; scanavez_2000 and a chemist's readings of Japanese black hair.
  constexpr double kSurfaceSd = 0.003;
  return std::clamp(hair::kSurfaceTerm + kSurfaceSd * draws.normal(stream, m),
                    hair::kSurfaceTermLow, hair::kSurfaceTermHigh);
}

constexpr std::size_t kCandidates = 24;

/// Log-likelihoods of stratified candidates, [candidate][member].
using Likelihoods = std::vector<std::vector<double>>;

struct Trial {
  const ZoneCase& zone;
  const hair::Ladder& ladder;
  Unknown unknown;
  Window window;
  std::uint64_t base;
  bool jitter;
};

double candidate_value(const Trial& trial, const Draws& draws, std::size_t k, std::size_t m) {
  const double within = trial.jitter ? draws.uniform(trial.base + kCandidateStream + k, m) : 0.5;
  const double at = (static_cast<double>(k) + within) / kCandidates;
  return trial.window.low * pow_portable(trial.window.high / trial.window.low, at);
}

void set_trial(const Trial& trial, const HeadDraws& head, const Draws& draws, std::size_t k,
               std::size_t m, ZoneOrigin& origin, process::LiftMembers& members) {
  members.surface_term[m] = surface_of(draws, trial.base + kCandidateStream + 500 + k, m);
  set_candidate(trial.zone, trial.unknown, candidate_value(trial, draws, k, m), head, draws,
                trial.base, m, origin, members);
}

Likelihoods try_candidates(const Trial& trial, const HeadDraws& head, const Draws& draws,
                           const ZoneBelief& belief, Executor& executor) {
  Likelihoods all(kCandidates, std::vector<double>(belief.members.size()));
  executor.run(kCandidates, [&](std::size_t k) {
    process::LiftMembers mine = belief.members;
    ZoneOrigin origin = belief.origin;
    for (std::size_t m = 0; m < mine.size(); ++m) set_trial(trial, head, draws, k, m, origin, mine);
    const auto labs = colours_now(mine, process::Whites::left_out);  // an eye reads the others
    for (std::size_t m = 0; m < mine.size(); ++m) {
      all[k][m] = log_likelihood(trial.zone.readings, labs[m], head.bias[m], trial.ladder) +
                  log_learned(trial.zone, trial.unknown, origin.found[m]);
      if (trial.unknown == Unknown::melanin && !head.natural_melanin.empty()) {
        all[k][m] += log_alike(origin.found[m], head.natural_melanin[m]);
      }
    }
  });
  return all;
}

/// The part of the window in which any member finds its readings believable.
Window narrowed(const Trial& trial, const Likelihoods& all) {
  constexpr double kFarFetched = 10;  // this far below a member's best in ln likelihood
  double low = 1;
  double high = 0;
  for (std::size_t m = 0; m < all.front().size(); ++m) {
    double best = all[0][m];
    for (std::size_t k = 1; k < kCandidates; ++k) best = std::max(best, all[k][m]);
    for (std::size_t k = 0; k < kCandidates; ++k) {
      if (all[k][m] < best - kFarFetched) continue;
      low = std::min(low, static_cast<double>(k) / kCandidates);
      high = std::max(high, static_cast<double>(k + 1) / kCandidates);
    }
  }
  const double ratio = trial.window.high / trial.window.low;
  return {trial.window.low * pow_portable(ratio, low),
          trial.window.low * pow_portable(ratio, high)};
}

/// Keeps one candidate of each member, by likelihood. Returns false when hardly any member can
/// explain the readings.
bool keep_candidates(const Trial& trial, const Likelihoods& all, const HeadDraws& head,
                     const Draws& draws, ZoneBelief& belief, std::vector<double>& log_evidence) {
  constexpr double kUnbelievable = -40;  // ln likelihood: about nine standard deviations off
  std::size_t lost = 0;
  const std::size_t count = belief.members.size();
  for (std::size_t m = 0; m < count; ++m) {
    double best = all[0][m];
    for (std::size_t k = 1; k < kCandidates; ++k) best = std::max(best, all[k][m]);
    lost += best < kUnbelievable;
    double sum = 0;
    std::array<double, kCandidates> cumulative{};
    for (std::size_t k = 0; k < kCandidates; ++k) {
      sum += exp_portable(all[k][m] - best);
      cumulative[k] = sum;
    }
    log_evidence[m] = best + log_portable(sum);
    const double at = sum * draws.uniform(trial.base + kPickStream, m);
    std::size_t pick = 0;
    while (pick + 1 < kCandidates && cumulative[pick] < at) ++pick;
    set_trial(trial, head, draws, pick, m, belief.origin, belief.members);
  }
  return 2 * lost < count;
}

ZoneOrigin blank_origin(Unknown unknown, const HeadDraws& head) {
  const std::vector<double> none(head.rate.size(), 0);
  const bool from_head = unknown != Unknown::melanin && !head.natural_melanin.empty();
  return {unknown, none, none, none, none, from_head, head.rate, none, head.bias};
}

Result<ZoneBelief> believe_zone(const Case& head_case, const ZoneCase& zone, std::size_t index,
                                HeadDraws& head, Executor& executor) {
  const Draws draws(head_case.seed);
  const std::uint64_t base = kZoneStreams * (index + 1);
  ZoneBelief belief;
  belief.name = zone.name;
  process::LiftMembers& members = belief.members;
  members.constants = head.constants;
  members.resize(head_case.members);
  members.strand_um = head.strand_um;
  if (zone.past.old_colour) {
    members.dyes = {{hair::old_colour_absorption(zone.past.old_colour->tone),
                     std::vector<double>(members.size(), 0)}};
  }
  for (std::size_t m = 0; m < members.size(); ++m) {
    members.rate[m] =
        head.rate[m] * exp_portable(kZoneRateSd * draws.normal(base + kZoneRateStream, m));
  }
  draw_past(zone, draws, base, members);

  const Unknown unknown = unknown_of(zone);
  belief.origin = blank_origin(unknown, head);
  Trial trial{zone, head_case.ladder, unknown, whole_window(unknown), base, false};
  trial.window = narrowed(trial, try_candidates(trial, head, draws, belief, executor));
  trial.jitter = true;
  const Likelihoods all = try_candidates(trial, head, draws, belief, executor);
  std::vector<double> evidence(members.size(), 0);
  if (!keep_candidates(trial, all, head, draws, belief, evidence)) {
    return fail(ErrorCode::conflict, "no hair could give all readings of this zone at once",
                fmt::format("zones[{}] \"{}\"", index, zone.name),
                "check the readings, or tell the zone's past (old_colour, lightened)");
  }
  if (unknown == Unknown::exposure) add_exposure_wear(head, belief.origin.found, members);
  if (unknown == Unknown::melanin && head.natural_melanin.empty()) {
    head.natural_melanin = belief.origin.found;
  } else if (unknown == Unknown::melanin) {
    for (std::size_t m = 0; m < members.size(); ++m) head.log_evidence[m] += evidence[m];
  }

  if (unknown == Unknown::melanin) belief.origin.rest = rest_scores(belief);

  members.white_share = zone.white_percent / 100;
  belief.white_percent = zone.white_percent;
  belief.pigmented = colours_now(members, process::Whites::left_out);
  for (const auto& lab : belief.pigmented) {
    belief.level_now.push_back(head_case.ladder.level_of(lab.l));
  }
  belief.now = colours_now(members, process::Whites::mixed_in);
  return belief;
}

}  // namespace

const PastService& past_service(const std::string& id) {
  static const std::vector<PastService> all = [] {
    const auto table = parse_table(tables::past_services, "plan/past_services.csv");
    HW_CHECK(table.has_value());
    std::vector<PastService> list;
    for (std::size_t row = 0; row < table->rows(); ++row) {
      list.push_back({*table->text(row, "id"), *table->number(row, "opened"),
                      *table->number(row, "opened_spread"), *table->number(row, "wear"),
                      *table->number(row, "wear_low"), *table->number(row, "wear_high")});
    }
    return list;
  }();
  const auto at = std::find_if(all.begin(), all.end(), [&](const auto& s) { return s.id == id; });
  HW_CHECK(at != all.end());
  return *at;
}

Result<std::vector<ZoneBelief>> believe(const Case& head_case, Executor& executor) {
  const Draws draws(head_case.seed);
  const HeadPriors& priors = head_case.priors;
  HeadDraws head;
  head.constants = process::draw_constants(draws, head_case.members);
  for (std::size_t m = 0; m < head_case.members; ++m) {
    head.rate.push_back(
        exp_portable(priors.ln_rate_mean + priors.ln_rate_sd * draws.normal(kRateStream, m)));
    head.bias.push_back(priors.reader_bias_mean +
                        priors.reader_bias_sd * draws.normal(kBiasStream, m));
    head.strand_um.push_back(
        std::clamp(head_case.strand_um + head_case.strand_sd_um * draws.normal(kStrandStream, m),
                   20.0, 180.0));
  }
  head.log_evidence.assign(head_case.members, 0);
  std::vector<ZoneBelief> beliefs(head_case.zones.size());
  // Untouched zones first: their melanin is what coloured and lightened zones started from.
  for (const bool untouched : {true, false}) {
    for (std::size_t i = 0; i < head_case.zones.size(); ++i) {
      const ZoneCase& zone = head_case.zones[i];
      if ((unknown_of(zone) == Unknown::melanin) != untouched) continue;
      if (zone.readings.empty()) {
        return fail(ErrorCode::missing, "a zone without a reading cannot be planned",
                    fmt::format("zones[{}].readings", i), "read its level, dry, in daylight");
      }
      auto belief = believe_zone(head_case, zone, i, head, executor);
      if (!belief) return tl::unexpected(belief.error());
      beliefs[i] = *std::move(belief);
    }
  }
  return kept_together(head_case, std::move(beliefs), head.log_evidence);
}

void warm_by_scalp(const Case& head, std::vector<ZoneBelief>& zones) {
  for (std::size_t i = 0; i < zones.size(); ++i) {
    const ZoneCase& zone = head.zones[i];
    const double middle = (zone.from_cm + zone.to_cm) / 2;
    const double warmth =
        process::scalp_warmth_c(hair::resting_cm(middle, head.shrinkage), head.room_c);
    for (double& c : zones[i].members.warmth_c) c = warmth;
  }
}

}  // namespace hw::plan
