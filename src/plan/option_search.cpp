#include "option_search.h"

#include <algorithm>
#include <cmath>

#include "huewright/base/random.h"

namespace hw::plan {
namespace {

using process::Application;
using process::LiftMoment;
using process::Refusal;

constexpr double kEveryMin = 2.5;     // rows searched; levels are read between them
constexpr double kNearEnough = 0.25;  // level; a zone this close to its wish is left alone

/// Depth of the pigmented strands: white ones need no lift and would only hide how dark the rest
/// is.
std::vector<double> levels_at(const Case& head, const process::LiftMembers& members,
                              const LiftMoment& moment, std::vector<colour::HairLab>& labs) {
  process::lift_colours(members, moment, labs, process::Whites::left_out);
  std::vector<double> levels(labs.size());
  for (std::size_t m = 0; m < labs.size(); ++m) levels[m] = head.ladder.level_of(labs[m].l);
  return levels;
}

/// Minute at which a rising series passes the wish; NaN-free: `longest` when it never does.
double crossing(const std::vector<double>& minutes, const std::vector<double>& levels,
                double wish) {
  for (std::size_t i = 0; i < levels.size(); ++i) {
    if (levels[i] < wish) continue;
    if (i == 0) return 0;
    const double share = (wish - levels[i - 1]) / (levels[i] - levels[i - 1]);
    return minutes[i - 1] + share * (minutes[i] - minutes[i - 1]);
  }
  return minutes.back();
}

/// When each member, and the median, gets to the wish.
struct Arrival {
  Band stop_min;
  bool reaches = false;
};

Arrival arrival(const Case& head, const process::LiftMembers& members,
                const std::vector<LiftMoment>& moments, double wish) {
  std::vector<double> minutes;
  std::vector<double> medians;
  std::vector<std::vector<double>> by_member(members.size());
  std::vector<colour::HairLab> labs(members.size());
  for (const LiftMoment& moment : moments) {
    const auto levels = levels_at(head, members, moment, labs);
    minutes.push_back(moment.minute_total);
    medians.push_back(quantile(levels, 0.5));
    for (std::size_t m = 0; m < levels.size(); ++m) by_member[m].push_back(levels[m]);
  }
  std::vector<double> stops(members.size());
  for (std::size_t m = 0; m < members.size(); ++m) stops[m] = crossing(minutes, by_member[m], wish);
  Arrival found;
  found.reaches = *std::max_element(medians.begin(), medians.end()) >= wish;
  found.stop_min = band_of(stops);
  found.stop_min.mid = std::round(crossing(minutes, medians, wish));
  return found;
}

std::size_t nearest_to(const std::vector<double>& values, double target,
                       const std::vector<double>& also, double also_target) {
  std::size_t best = 0;
  double least = 1e300;
  for (std::size_t m = 0; m < values.size(); ++m) {
    const double off = std::abs(values[m] - target) + std::abs(also[m] - also_target);
    if (off < least) {
      least = off;
      best = m;
    }
  }
  return best;
}

void fill_outcome(const Case& head, const ZoneBelief& belief, const LiftMoment& end,
                  ZoneOutcome& outcome) {
  std::vector<colour::HairLab> labs(belief.members.size());
  const auto levels = levels_at(head, belief.members, end, labs);
  const std::vector<colour::HairLab> pigmented = labs;
  process::lift_colours(belief.members, end, labs);  // as seen, white strands among them
  std::vector<double> lstar(labs.size());
  double near = 0;
  for (std::size_t m = 0; m < labs.size(); ++m) {
    const double share = 1.0 / static_cast<double>(labs.size());
    lstar[m] = labs[m].l;
    near += std::abs(levels[m] - outcome.wished_level) <= 0.5 ? share : 0;
    outcome.wear_added += (end.wear[m] - belief.members.wear[m]) * share;
  }
  outcome.level = band_of(levels);
  outcome.lstar = band_of(lstar);
  outcome.wear = band_of(end.wear);
  outcome.likelihood = near;
  outcome.nearest_member =
      nearest_to(levels, outcome.level.mid, belief.level_now, quantile(belief.level_now, 0.5));
  outcome.lab = labs[outcome.nearest_member];
  outcome.pigmented = pigmented[outcome.nearest_member];
}

/// Low edge of the wet strength left, over members.
double strength_low(const ZoneCase& zone, const ZoneBelief& belief, const LiftMoment& end,
                    std::uint64_t seed) {
  constexpr std::uint64_t kStream = 900;
  constexpr double kInteractionLow = 0.75;  // to 1: tate_kamath_1993, first oxidation after a wave
  const process::TextureServices& past = zone.facts.texture;
  const bool reshaped =
      past.relaxed_hydroxide || past.relaxed_other || past.permed || past.texturised;
  const Draws draws(seed);
  std::vector<double> left(end.wear.size());
  for (std::size_t m = 0; m < left.size(); ++m) {
    const double interaction = kInteractionLow + (1 - kInteractionLow) * draws.uniform(kStream, m);
    left[m] = wet_strength_left(belief.members.wear[m], end.wear[m], reshaped, interaction);
  }
  return quantile(left, 0.1);
}

std::vector<Refusal> judge(const Case& head, const ZoneCase& zone, const LiftOption& option,
                           const ZoneOutcome& outcome) {
  if (outcome.already_there) return {};
  const Recipe& recipe = option.recipe;
  const double minutes = outcome.stop_min.mid;
  process::HairFacts hair = zone.facts;
  hair.wear_high_90 = outcome.wear.high;
  hair.wet_strength_ratio = outcome.strength_left_low;
  // Fresh mix on the roots is a second lightener on the scalp.
  const bool second = minutes > recipe.longest_min / option.applications;
  if (second && zone.from_cm <= 0 && recipe.mix.has_persulfate) {
    hair.lightened_on_scalp_today = true;
  }
  process::ApplicationFacts facts;
  facts.bowl = recipe.bowl;
  facts.bowl.on_scalp = zone.from_cm <= 0;
  facts.mix = recipe.mix;
  facts.minutes = Minutes(minutes);
  if (recipe.label_min) facts.label_max_minutes = Minutes(*recipe.label_min);
  return check_application(head.person, hair, facts, head.settings);
}

ZoneOutcome search_zone(const Case& head, const ZoneCase& zone, const ZoneBelief& belief,
                        const LiftOption& option) {
  InlineExecutor executor;  // zones and options are what runs side by side
  ZoneOutcome outcome;
  outcome.zone = zone.name;
  outcome.wished_level = wished_level_of(head, zone);
  if (quantile(belief.level_now, 0.5) >= outcome.wished_level - kNearEnough) {
    outcome.already_there = true;
    fill_outcome(head, belief, process::starting_moment(belief.members), outcome);
    return outcome;
  }
  const double longest = option.recipe.longest_min;
  const auto whole = simulate_lift(belief.members, applications_of(option, head, zone, longest),
                                   kEveryMin, executor);
  const Arrival found = arrival(head, belief.members, whole, outcome.wished_level);
  outcome.reaches = found.reaches;
  outcome.stop_min = found.stop_min;
  const double stop = std::clamp(found.stop_min.mid, 1.0, longest);
  outcome.stop_min.mid = stop;
  const auto stopped =
      simulate_lift(belief.members, applications_of(option, head, zone, stop), longest, executor);
  fill_outcome(head, belief, stopped.back(), outcome);
  outcome.strength_left_low = strength_low(zone, belief, stopped.back(), head.seed);
  return outcome;
}

/// Starts, whole time, and what the rules say of an option whose zones are known.
void finish(const Case& head, LiftOption& option) {
  std::vector<std::vector<Refusal>> findings;
  option.minutes = 0;
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    option.minutes = std::max(option.minutes, option.zones[i].stop_min.mid);
    findings.push_back(judge(head, head.zones[i], option, option.zones[i]));
  }
  for (ZoneOutcome& zone : option.zones) zone.start_min = option.minutes - zone.stop_min.mid;
  for (const Refusal& finding : process::merged(findings)) {
    (finding.kind == process::RefusalKind::caution ? option.cautions : option.refusals)
        .push_back(finding);
  }
}

}  // namespace

std::vector<Application> applications_of(const LiftOption& option, const Case& head,
                                         const ZoneCase& zone, double minutes) {
  Application one;
  one.peroxide_percent = option.recipe.mix.peroxide.value();
  one.powder_percent = option.recipe.mix.powder.value();
  one.alkaline = option.recipe.mix.has_persulfate;
  one.mix_per_hair = pick_up_of(head, true);
  one.temperature_c = head.room_c;
  one.water_per_hair = zone.water_held_g_per_g;
  const double half = option.recipe.longest_min / option.applications;
  std::vector<Application> list;
  for (int i = 0; i < option.applications; ++i) {
    one.minutes = std::min(minutes - i * half, half);
    if (one.minutes > 1e-9) list.push_back(one);
  }
  return list;
}

std::vector<LiftOption> search_options(const Case& head, const std::vector<ZoneBelief>& beliefs,
                                       std::span<const Recipe> recipes, int applications,
                                       Executor& executor) {
  // Two recipes of the same chemistry and time do the same to the hair: searched once.
  std::vector<LiftOption> options;
  std::vector<std::size_t> same_as;
  std::vector<std::size_t> distinct;
  for (const Recipe& recipe : recipes) {
    LiftOption option;
    option.recipe = recipe;
    option.applications = applications;
    option.zones.resize(head.zones.size());
    const auto known = std::find_if(distinct.begin(), distinct.end(), [&](std::size_t i) {
      const Recipe& other = options[i].recipe;
      return other.mix.peroxide == recipe.mix.peroxide && other.mix.powder == recipe.mix.powder &&
             other.longest_min == recipe.longest_min;
    });
    same_as.push_back(known == distinct.end() ? options.size() : *known);
    if (known == distinct.end()) distinct.push_back(options.size());
    options.push_back(std::move(option));
  }
  executor.run(distinct.size() * head.zones.size(), [&](std::size_t task) {
    LiftOption& option = options[distinct[task / head.zones.size()]];
    const std::size_t zone = task % head.zones.size();
    option.zones[zone] = search_zone(head, head.zones[zone], beliefs[zone], option);
  });
  for (std::size_t i = 0; i < options.size(); ++i) {
    options[i].zones = options[same_as[i]].zones;
    finish(head, options[i]);
  }
  return options;
}

}  // namespace hw::plan
