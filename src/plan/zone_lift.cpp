#include "zone_lift.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>
#include <utility>

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

/// A recipe left on for its longest time, read row by row: one run for every wish.
class WholeRun {
 public:
  WholeRun(const Case& head, const ZoneStart& start, std::span<const Application> applications)
      : moments_([&] {
          InlineExecutor executor;  // zones and recipes are what runs side by side
          return simulate_lift(start.members, applications, kEveryMin, executor);
        }()) {
    const std::size_t members = start.members.size();
    by_member_.assign(members, std::vector<double>(moments_.size()));
    std::vector<double> levels(members);
    for (std::size_t i = 0; i < moments_.size(); ++i) {
      process::lift_lightness(start.members, moments_[i], levels, process::Whites::left_out);
      for (std::size_t m = 0; m < members; ++m) {
        by_member_[m][i] = levels[m] = head.ladder.level_of(levels[m]);
      }
      minutes_.push_back(moments_[i].minute_total);
      medians_.push_back(quantile(levels, 0.5));
    }
  }

  [[nodiscard]] Arrival arrival(double wish) const {
    std::vector<double> stops;
    for (const auto& levels : by_member_) stops.push_back(crossing(minutes_, levels, wish));
    Arrival found;
    found.reaches = *std::max_element(medians_.begin(), medians_.end()) >= wish;
    found.stop_min = band_of(stops);
    found.stop_min.mid = std::round(crossing(minutes_, medians_, wish));
    return found;
  }

  /// Minutes between which the likely level is within half a level of the wish.
  [[nodiscard]] std::pair<double, double> window(double wish) const {
    constexpr double kHalf = 0.5;
    return {crossing(minutes_, medians_, wish - kHalf), crossing(minutes_, medians_, wish + kHalf)};
  }

  /// The hair at a minute, between two rows.
  [[nodiscard]] LiftMoment at(double minute) const {
    std::size_t next = 0;
    while (next + 1 < minutes_.size() && minutes_[next] < minute) ++next;
    if (next == 0) return moments_.front();
    const double share =
        std::min(1.0, (minute - minutes_[next - 1]) / (minutes_[next] - minutes_[next - 1]));
    LiftMoment moment = moments_[next];
    moment.minute_total = minute;
    using Row = std::vector<double> LiftMoment::*;
    for (const Row row : {&LiftMoment::eumelanin_left, &LiftMoment::pheomelanin_left,
                          &LiftMoment::warm, &LiftMoment::dye_left, &LiftMoment::wear,
                          &LiftMoment::opened, &LiftMoment::dye_opened, &LiftMoment::exposure}) {
      for (std::size_t m = 0; m < (moment.*row).size(); ++m) {
        const double before = (moments_[next - 1].*row)[m];
        (moment.*row)[m] = before + share * ((moment.*row)[m] - before);
      }
    }
    return moment;
  }

 private:
  std::vector<LiftMoment> moments_;
  std::vector<double> minutes_;
  std::vector<double> medians_;
  std::vector<std::vector<double>> by_member_;  ///< levels
};

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
  if (start.members.white_share > 0) {  // as seen, white strands among them
    process::lift_colours(start.members, end, labs);
  }
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

namespace {

/// What a zone is when it has come to `end`, stopped at `minutes`.
ZoneLift ended(const Case& head, const ZoneStart& start, const LiftMoment& end, double wish,
               double minutes) {
  ZoneLift lift;
  ZoneOutcome& outcome = lift.outcome;
  outcome.zone = start.zone.name;
  outcome.wished_level = wish;
  outcome.stop_min = {minutes, minutes, minutes};
  fill_outcome(head, start, end, outcome);
  outcome.reaches = outcome.level.mid >= wish;
  outcome.strength_left_low = strength_left_low(head, start.zone, start.members.wear, end.wear);
  lift.canvas = process::canvas_after(start.members, end);
  return lift;
}

}  // namespace

ZoneLift stopped_at(const Case& head, const ZoneStart& start, const Recipe& recipe,
                    int applications, double wish, double minutes) {
  InlineExecutor executor;
  const auto stopped =
      simulate_lift(start.members, applications_of(head, start.zone, recipe, applications, minutes),
                    minutes, executor);
  return ended(head, start, stopped.back(), wish, minutes);
}

std::vector<ZoneLift> lift_zone(const Case& head, const ZoneStart& start, const Recipe& recipe,
                                int applications, std::span<const double> wishes, Stops stops) {
  const double longest = recipe.longest_min;
  std::optional<WholeRun> whole;
  std::vector<ZoneLift> lifts;
  for (const double wish : wishes) {
    if (quantile(start.level_now, 0.5) >= wish - kNearEnough) {
      lifts.push_back(left_alone(head, start, wish));
      continue;
    }
    if (!whole) {
      whole.emplace(head, start, applications_of(head, start.zone, recipe, applications, longest));
    }
    const Arrival found = whole->arrival(wish);
    const double minutes = std::clamp(found.stop_min.mid, 1.0, longest);
    ZoneLift lift = stops == Stops::simulated
                        ? stopped_at(head, start, recipe, applications, wish, minutes)
                        : ended(head, start, whole->at(minutes), wish, minutes);
    lift.outcome.reaches = found.reaches;
    lift.outcome.stop_min.low = found.stop_min.low;
    lift.outcome.stop_min.high = found.stop_min.high;
    std::tie(lift.outcome.least_min, lift.outcome.most_min) = whole->window(wish);
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
