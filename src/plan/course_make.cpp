#include "course_make.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "course_judge.h"
#include "course_pick.h"
#include "course_steps.h"
#include "huewright/base/random.h"
#include "huewright/colour/difference.h"
#include "huewright/plan/amounts.h"
#include "huewright/plan/bowl_groups.h"

namespace hw::plan {
namespace {

/// Bowls of a lift: zones of one recipe share a bowl.
void add_lift_bowls(const Case& head, const LiftTry& lift, std::span<const LiftRecipe> recipes,
                    int visit, Course& course) {
  std::vector<std::size_t> done;
  for (std::size_t first = 0; first < lift.zones.size(); ++first) {
    if (lift.zones[first].outcome.already_there) continue;
    const std::size_t which = lift.recipe[first];
    if (std::find(done.begin(), done.end(), which) != done.end()) continue;
    done.push_back(which);
    const LiftRecipe& recipe = recipes[which];
    CourseBowl bowl;
    bowl.visit = visit;
    bowl.purpose = Purpose::lift;
    bowl.mixes = recipe.applications;
    bowl.peroxide_percent = recipe.recipe.mix.peroxide.value();
    bowl.powder_percent = recipe.recipe.mix.powder.value();
    bowl.label_min = recipe.recipe.label_min;
    for (const RecipePart& part : recipe.recipe.parts) {
      bowl.parts.push_back({part.product.empty() ? "water" : part.product, part.kind, part.parts});
    }
    for (std::size_t z = first; z < lift.zones.size(); ++z) {
      const ZoneOutcome& outcome = lift.zones[z].outcome;
      if (outcome.already_there || lift.recipe[z] != which) continue;
      BowlZone zone;
      zone.zone = z;
      zone.stop_min = outcome.stop_min;
      zone.least_min = std::min(outcome.least_min, outcome.stop_min.mid);
      zone.most_min = std::max(outcome.most_min, outcome.stop_min.mid);
      bowl.zones.push_back(zone);
      bowl.applications.push_back(applications_of(head, head.zones[z], recipe.recipe,
                                                  recipe.applications, outcome.stop_min.mid));
      bowl.on_scalp = bowl.on_scalp || head.zones[z].from_cm <= 0;
      course.harsh_percent =
          std::max(course.harsh_percent, harsh_on(head, head.zones[z], recipe.recipe.mix));
    }
    course.bowls.push_back(std::move(bowl));
  }
}

/// Zones that share a bowl, and its formula.
struct BowlOf {
  std::vector<std::size_t> zones;
  Formula formula;
};

/// One bowl for all, or one for some of them each where that is worth its trouble.
Result<std::vector<BowlOf>> share_bowls(const Case& head, const HeadHair& canvas,
                                        const std::vector<std::size_t>& zones,
                                        std::span<const Target> wish, const ColourOption& option,
                                        bool after_lift, Executor& executor) {
  const process::DepositBowl bowl = bowl_of(head, option, after_lift);
  auto seen = formula_zones(head, canvas, zones, bowl, executor);
  for (std::size_t i = 0; i < zones.size(); ++i) seen[i].target = wish[zones[i]].centre;
  const auto part = [&](std::size_t first, std::size_t count) {
    const auto from = zones.begin() + static_cast<std::ptrdiff_t>(first);
    return std::vector<std::size_t>(from, from + static_cast<std::ptrdiff_t>(count));
  };
  auto grouping = group_bowls(
      option.solver, seen,
      [&](std::size_t first, std::size_t count) {
        return formula_rules(head, option, part(first, count));
      },
      executor);
  if (!grouping) return tl::unexpected(grouping.error());
  std::vector<BowlOf> bowls;
  for (BowlGroup& group : grouping->groups) {
    bowls.push_back({part(group.first, group.count), std::move(group.formula)});
  }
  return bowls;
}

}  // namespace

CourseBowl colour_bowl(const Case& head, const ColourOption& option, const Formula& formula,
                       const process::DepositBowl& deposit, const std::vector<std::size_t>& zones,
                       int visit) {
  CourseBowl bowl;
  bowl.visit = visit;
  double colour_g = formula.clear_g;
  for (const FormulaPour& pour : formula.pours) {
    bowl.parts.push_back({option.solver[pour.shade].id, process::PartKind::colour, pour.grams});
    colour_g += pour.grams;
  }
  if (formula.clear_g > 0) {
    bowl.parts.push_back({option.clear, process::PartKind::colour, formula.clear_g});
  }
  if (option.developer != nullptr) {
    bowl.parts.push_back(
        {option.developer->id, process::PartKind::developer, colour_g * option.developer_parts});
    bowl.peroxide_percent =
        option.developer->peroxide->value() * option.developer_parts / (1 + option.developer_parts);
  }
  bowl.purpose = Purpose::deposit;
  bowl.deposit = deposit;
  bowl.pours = poured(option, formula, colour_g);
  for (const std::size_t z : zones) {
    BowlZone zone;
    zone.zone = z;
    zone.stop_min = {deposit.minutes, deposit.minutes, deposit.minutes};
    bowl.zones.push_back(zone);
    bowl.on_scalp = bowl.on_scalp || head.zones[z].from_cm <= 0;
  }
  return bowl;
}

Draft begun(const HeadHair& hair) {
  return {{}, hair, hair, hair};
}

Result<Formula> solve(const Case& head, const HeadHair& canvas,
                      const std::vector<std::size_t>& zones, std::span<const Target> wish,
                      const ColourOption& option, bool after_lift, bool full, Executor& executor) {
  const process::DepositBowl bowl = bowl_of(head, option, after_lift);
  auto seen = formula_zones(head, canvas, zones, bowl, executor);
  for (std::size_t i = 0; i < zones.size(); ++i) seen[i].target = wish[zones[i]].centre;
  const FormulaRules rules = formula_rules(head, option, zones);
  if (!full) return quick_formula(option.solver, seen, rules);
  auto found = find_formulas(option.solver, seen, rules, executor);
  if (!found) return tl::unexpected(found.error());
  return found->best.front();
}

namespace {

/// Fills where that is due, then the colour; what the rules say of both.
Result<std::vector<process::Refusal>> colour_zones(const Case& head, const Stage& stage,
                                                   const std::vector<std::size_t>& zones,
                                                   std::span<const Target> wish,
                                                   const std::vector<bool>& lifted, int visit,
                                                   const HeadHair& before, Draft& draft,
                                                   Executor& executor) {
  std::vector<std::vector<process::Refusal>> findings;
  const bool after_lift = stage.lift.lifts();
  if (!after_lift) {
    findings.push_back(judge_unlifted(head, draft.now, zones, wish, stage.option->dye_class));
  }
  const HeadHair canvas = draft.now;
  if (auto fill = fill_first(head, wish, lifted, visit, draft.now, executor)) {
    findings.push_back(judge_colour(head, *fill, before, draft.now));
    draft.course.bowls.push_back(*std::move(fill));
  }
  const process::DepositBowl deposit = bowl_of(head, *stage.option, after_lift);
  auto bowls = share_bowls(head, draft.now, zones, wish, *stage.option, after_lift, executor);
  if (!bowls) return tl::unexpected(bowls.error());
  for (const BowlOf& one : *bowls) {
    CourseBowl bowl = colour_bowl(head, *stage.option, one.formula, deposit, one.zones, visit);
    double colour_g = one.formula.clear_g;
    for (const FormulaPour& pour : one.formula.pours) colour_g += pour.grams;
    bowl.purpose = purpose_of(head, canvas, one.zones, wish,
                              colour_g > 0 ? one.formula.clear_g / colour_g : 0);
    add_colour_notes(head, canvas, bowl, wish, lifted, draft.course.notes);
    for (const std::size_t z : one.zones) {
      draft.now[z] =
          process::deposit(draft.now[z], deposit, bowl.pours, Draws(head.seed), executor);
    }
    findings.push_back(judge_colour(head, bowl, before, draft.now));
    draft.course.bowls.push_back(std::move(bowl));
  }
  return process::merged(findings);
}

}  // namespace

Result<void> add_stage(const Case& head, const Stage& stage, std::span<const LiftRecipe> recipes,
                       std::span<const Target> wish, int visit, Draft& draft, Executor& executor) {
  const HeadHair before = draft.now;
  std::vector<bool> lifted;
  for (std::size_t z = 0; z < before.size(); ++z) {
    lifted.push_back(!stage.lift.zones[z].outcome.already_there);
    draft.now[z] = stage.lift.zones[z].canvas;
  }
  if (visit == 1) {
    draft.lifted = draft.now;
    draft.course.origin = {stage.lift.recipe, stage.lift.wish, {}};
    if (stage.option != nullptr) draft.course.origin.option = stage.option->index;
  }
  add_lift_bowls(head, stage.lift, recipes, visit, draft.course);
  draft.course.slack_min = std::min(draft.course.slack_min, stage.lift.slack_min);
  draft.course.zones.resize(before.size());
  for (std::size_t z = 0; z < before.size(); ++z) {
    CourseZone& zone = draft.course.zones[z];
    if (visit == 1) zone.left_alone = !lifted[z];
    if (visit > 1) zone.left_alone = zone.left_alone && !lifted[z];
    if (!lifted[z]) {
      constexpr double kNoticed = 0.5;  // level
      const ZoneOutcome& alone = stage.lift.zones[z].outcome;
      if (stage.lift.lifts() && alone.wished_level - alone.level.mid > kNoticed) {
        draft.course.notes.push_back(fmt::format(
            "The {} stay as they are: no lift of this shelf may go on them.", alone.zone));
      }
      continue;
    }
    zone.reached_half = stage.lift.zones[z].outcome.likelihood;
    zone.after_lift = colour_band(head, colours_of(draft.now[z], process::Whites::left_out));
  }
  std::vector<std::vector<process::Refusal>> findings = {stage.lift.findings};
  if (stage.option != nullptr) {
    const auto zones = zones_to_colour(head, draft.now, lifted);
    if (!zones.empty()) {
      auto coloured =
          colour_zones(head, stage, zones, wish, lifted, visit, before, draft, executor);
      if (!coloured) return tl::unexpected(coloured.error());
      findings.push_back(*std::move(coloured));
    }
  }
  findings.push_back(draft.course.refusals);
  findings.push_back(draft.course.cautions);
  draft.course.refusals.clear();
  draft.course.cautions.clear();
  for (const process::Refusal& finding : process::merged(findings)) {
    (finding.kind == process::RefusalKind::caution ? draft.course.cautions : draft.course.refusals)
        .push_back(finding);
  }
  draft.course.draft = !draft.course.refusals.empty();
  draft.course.visits = visit;
  return {};
}

}  // namespace hw::plan
