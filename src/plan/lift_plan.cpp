#include "huewright/plan/lift_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "huewright/hair/head.h"
#include "huewright/process/warmth.h"
#include "option_search.h"
#include "plan_parts.h"
#include "visit_hair.h"

namespace hw::plan {
namespace {

using process::Refusal;
using process::RefusalKind;

/// Without those that already stand against the head, so that nothing is said twice.
void drop_repeated(std::vector<Refusal>& list, const std::vector<Refusal>& said) {
  std::erase_if(list, [&](const Refusal& one) {
    return std::any_of(said.begin(), said.end(), [&](const Refusal& r) { return r.id == one.id; });
  });
}

/// What every option without exception raises: it stands against the head, whatever is mixed.
std::vector<Refusal> raised_by_all(const std::vector<LiftOption>& options,
                                   std::vector<Refusal> LiftOption::*list) {
  std::vector<Refusal> common = options.front().*list;
  for (const LiftOption& option : options) {
    const std::vector<Refusal>& raised = option.*list;
    std::erase_if(common, [&](const Refusal& one) {
      return std::none_of(raised.begin(), raised.end(),
                          [&](const Refusal& r) { return r.id == one.id; });
    });
  }
  return common;
}

bool forbidden(const LiftOption& option) {
  return std::any_of(option.refusals.begin(), option.refusals.end(),
                     [](const Refusal& r) { return r.kind == RefusalKind::never; });
}

double most_wear(const LiftOption& option) {
  double most = 0;
  for (const ZoneOutcome& zone : option.zones) most = std::max(most, zone.wear_added);
  return most;
}

double worst_miss(const LiftOption& option) {
  double miss = 0;
  for (const ZoneOutcome& zone : option.zones) {
    if (!zone.already_there) miss = std::max(miss, zone.wished_level - zone.level.mid);
  }
  return miss;
}

double least_likely(const LiftOption& option) {
  double likelihood = 1;
  for (const ZoneOutcome& zone : option.zones) likelihood = std::min(likelihood, zone.likelihood);
  return likelihood;
}

/// Reaching options first, kindest to the fibre first; then those that come nearest. Wear that
/// nobody could tell apart counts as the same, and the simpler and shorter bowl comes first.
bool better(const LiftOption& a, const LiftOption& b) {
  const auto rank = [](const LiftOption& option) {
    constexpr double kSameWear = 0.01;  // share of cystine
    constexpr double kSameMiss = 0.1;   // level
    const double miss = option.reaches_all() ? 0 : std::max(0.0, worst_miss(option));
    return std::tuple(!option.reaches_all(), std::round(miss / kSameMiss),
                      std::round(most_wear(option) / kSameWear), option.applications,
                      option.minutes);
  };
  return rank(a) < rank(b);
}

std::string sentence_of(const LiftOption& option) {
  double wear = 0;
  for (const ZoneOutcome& zone : option.zones) wear = std::max(wear, zone.wear.high);
  const std::string strength = fmt::format("uses up to {:.0f} % of what the fibre can give",
                                           100 * std::min(1.0, wear / kWearLimit));
  if (option.minutes <= 0) return "Nothing to lift: leave the hair alone and protect it.";
  if (!option.reaches_all()) {
    return fmt::format("Ends about {:.1f} level short after {:.0f} min and {}.",
                       std::max(0.1, worst_miss(option)), option.minutes, strength);
  }
  return fmt::format(
      "Gets there in about {:.0f} min, within half a level {:.0f} times in 10, and {}.",
      option.minutes, 10 * least_likely(option), strength);
}

/// Says once what stands against the head, and parts the options from those that are forbidden.
void judge_head(LiftPlan& plan, std::vector<LiftOption>& all) {
  plan.refusals = raised_by_all(all, &LiftOption::refusals);
  plan.cautions = raised_by_all(all, &LiftOption::cautions);
  for (LiftOption& option : all) {
    option.sentence = sentence_of(option);
    const bool out = forbidden(option);
    drop_repeated(option.refusals, plan.refusals);
    drop_repeated(option.cautions, plan.cautions);
    (out ? plan.left_out : plan.options).push_back(std::move(option));
  }
}

std::vector<std::string> whys(const Case& head) {
  std::vector<std::string> lines;
  for (const process::ConstantNote& note : process::constant_notes()) {
    lines.push_back(fmt::format("{} {:g} ({:g} to {:g}) {}: {}, {}", note.name, note.central,
                                note.low, note.high, note.unit, note.grade, note.source));
  }
  lines.push_back(fmt::format("{} members, seed {}", head.members, head.seed));
  return lines;
}

}  // namespace

bool LiftOption::reaches_all() const {
  return std::all_of(zones.begin(), zones.end(),
                     [](const ZoneOutcome& z) { return z.reaches || z.already_there; });
}

bool LiftPlan::refused() const {
  if (!refusals.empty() || options.empty()) return true;
  return std::any_of(options.begin(), options.end(),
                     [](const LiftOption& o) { return !o.refusals.empty(); });
}

double wet_strength_left(double x0, double x, bool reshaped, double interaction) {
  constexpr double kLossPerCystine = 0.87;  // work to 20 % strain: one point, x taken as 0.45
  const double left = (1 - kLossPerCystine * x) / (1 - kLossPerCystine * x0);
  return reshaped ? left * interaction : left;
}

process::LiftMembers one_member(const process::LiftMembers& members, std::size_t m) {
  return some_members(members, {&m, 1});
}

Result<LiftPlan> plan_lift(const Case& head, Executor& executor) {
  const auto recipes = lift_recipes(head);
  if (!recipes) return tl::unexpected(recipes.error());
  auto beliefs = believe(head, executor);
  if (!beliefs) return tl::unexpected(beliefs.error());

  LiftPlan plan;
  plan.zones = *std::move(beliefs);
  warm_by_scalp(head, plan.zones);
  std::vector<LiftOption> all = search_options(head, plan.zones, *recipes, 1, executor);
  // What does not get there may do so with fresh mix at half time.
  std::vector<Recipe> again;
  for (const LiftOption& option : all) {
    if (!option.reaches_all() && option.recipe.mix.has_persulfate) again.push_back(option.recipe);
  }
  for (LiftOption& option : search_options(head, plan.zones, again, 2, executor)) {
    all.push_back(std::move(option));
  }
  judge_head(plan, all);
  std::stable_sort(plan.options.begin(), plan.options.end(), better);
  plan.whys = whys(head);
  return plan;
}

}  // namespace hw::plan
