#include "zone_lift.h"

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

void fill_outcome(const Case& head, const ZoneStart& start, const LiftMoment& end,
                  ZoneOutcome& outcome) {
  std::vector<colour::HairLab> labs(start.members.size());
  const auto levels = levels_at(head, start.members, end, labs);
  const std::vector<colour::HairLab> pigmented = labs;
  process::lift_colours(start.members, end, labs);  // as seen, white strands among them
  std::vector<double> lstar(labs.size());
  double near = 0;
  for (std::size_t m = 0; m < labs.size(); ++m) {
    const double share = 1.0 / static_cast<double>(labs.size());
    lstar[m] = labs[m].l;
    near += std::abs(levels[m] - outcome.wished_level) <= 0.5 ? share : 0;
    outcome.wear_added += (end.wear[m] - start.members.wear[m]) * share;
  }
  outcome.level = band_of(levels);
  outcome.lstar = band_of(lstar);
  outcome.wear = band_of(end.wear);
  outcome.likelihood = near;
  outcome.nearest_member =
      nearest_to(levels, outcome.level.mid, start.level_now, quantile(start.level_now, 0.5));
  outcome.lab = labs[outcome.nearest_member];
  outcome.pigmented = pigmented[outcome.nearest_member];
}

}  // namespace

std::vector<Application> applications_of(const Case& head, const ZoneCase& zone,
                                         const Recipe& recipe, int applications, double minutes) {
  Application one;
  one.peroxide_percent = recipe.mix.peroxide.value();
  one.powder_percent = recipe.mix.powder.value();
  one.alkaline = recipe.mix.has_persulfate;
  one.mix_per_hair = pick_up_of(head, true);
  one.temperature_c = head.room_c;
  one.water_per_hair = zone.water_held_g_per_g;
  const double half = recipe.longest_min / applications;
  std::vector<Application> list;
  for (int i = 0; i < applications; ++i) {
    one.minutes = std::min(minutes - i * half, half);
    if (one.minutes > 1e-9) list.push_back(one);
  }
  return list;
}

ZoneLift left_alone(const Case& head, const ZoneStart& start, double wish) {
  ZoneLift lift;
  lift.outcome.zone = start.zone.name;
  lift.outcome.wished_level = wish;
  lift.outcome.already_there = true;
  fill_outcome(head, start, process::starting_moment(start.members), lift.outcome);
  lift.canvas = start.members;
  return lift;
}

ZoneLift stopped_at(const Case& head, const ZoneStart& start, const Recipe& recipe,
                    int applications, double wish, double minutes) {
  InlineExecutor executor;  // zones and recipes are what runs side by side
  ZoneLift lift;
  ZoneOutcome& outcome = lift.outcome;
  outcome.zone = start.zone.name;
  outcome.wished_level = wish;
  outcome.stop_min = {minutes, minutes, minutes};
  const auto stopped =
      simulate_lift(start.members, applications_of(head, start.zone, recipe, applications, minutes),
                    minutes, executor);
  fill_outcome(head, start, stopped.back(), outcome);
  outcome.reaches = outcome.level.mid >= wish;
  outcome.strength_left_low =
      strength_left_low(head, start.zone, start.members.wear, stopped.back().wear);
  lift.canvas = process::canvas_after(start.members, stopped.back());
  return lift;
}

std::vector<ZoneLift> lift_zone(const Case& head, const ZoneStart& start, const Recipe& recipe,
                                int applications, std::span<const double> wishes) {
  InlineExecutor executor;  // zones and recipes are what runs side by side
  const double longest = recipe.longest_min;
  std::vector<LiftMoment> whole;
  std::vector<ZoneLift> lifts;
  for (const double wish : wishes) {
    if (quantile(start.level_now, 0.5) >= wish - kNearEnough) {
      lifts.push_back(left_alone(head, start, wish));
      continue;
    }
    if (whole.empty()) {
      const auto list = applications_of(head, start.zone, recipe, applications, longest);
      whole = simulate_lift(start.members, list, kEveryMin, executor);
    }
    const Arrival found = arrival(head, start.members, whole, wish);
    ZoneLift lift = stopped_at(head, start, recipe, applications, wish,
                               std::clamp(found.stop_min.mid, 1.0, longest));
    lift.outcome.reaches = found.reaches;
    lift.outcome.stop_min.low = found.stop_min.low;
    lift.outcome.stop_min.high = found.stop_min.high;
    lifts.push_back(std::move(lift));
  }
  return lifts;
}

std::vector<Refusal> judge_lift(const Case& head, const ZoneCase& zone, const Recipe& recipe,
                                int applications, const ZoneOutcome& outcome) {
  if (outcome.already_there) return {};
  const double minutes = outcome.stop_min.mid;
  process::HairFacts hair = zone.facts;
  hair.wear_high_90 = outcome.wear.high;
  hair.wet_strength_ratio = outcome.strength_left_low;
  // Fresh mix on the roots is a second lightener on the scalp.
  const bool second = minutes > recipe.longest_min / applications;
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

double strength_left_low(const Case& head, const ZoneCase& zone, std::span<const double> before,
                         std::span<const double> after) {
  constexpr std::uint64_t kStream = 900;
  constexpr double kInteractionLow = 0.75;  // to 1: tate_kamath_1993, first oxidation after a wave
  const process::TextureServices& past = zone.facts.texture;
  const bool reshaped =
      past.relaxed_hydroxide || past.relaxed_other || past.permed || past.texturised;
  const Draws draws(head.seed);
  std::vector<double> left(after.size());
  for (std::size_t m = 0; m < left.size(); ++m) {
    const double interaction = kInteractionLow + (1 - kInteractionLow) * draws.uniform(kStream, m);
    left[m] = wet_strength_left(before[m], after[m], reshaped, interaction);
  }
  return quantile(left, 0.1);
}

}  // namespace hw::plan
