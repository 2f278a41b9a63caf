#include "course_search.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string_view>

#include "course_judge.h"
#include "course_make.h"
#include "course_pick.h"
#include "huewright/colour/difference.h"
#include "huewright/plan/amounts.h"

namespace hw::plan {
namespace {

using process::Refusal;
using process::RefusalKind;

/// Keeps of `common` what `findings` raises too.
void intersect(std::vector<Refusal>& common, const std::vector<Refusal>& findings) {
  std::erase_if(common, [&](const Refusal& one) {
    return std::none_of(findings.begin(), findings.end(),
                        [&](const Refusal& other) { return other.id == one.id; });
  });
}

/// What every member of a list raises, without cautions.
std::vector<Refusal> common_refusals(const std::vector<std::vector<Refusal>>& lists) {
  if (lists.empty()) return {};
  std::vector<Refusal> common = lists.front();
  for (const auto& list : lists) intersect(common, list);
  std::erase_if(common, [](const Refusal& one) { return one.kind == RefusalKind::caution; });
  return common;
}

/// Rules about one bowl or the shade in it, not about the person or the hair: another may escape
/// them.
constexpr std::string_view kOfBowls[] = {"mix_peroxide_over_limit",
                                         "scalp_developer_over_limit",
                                         "off_scalp_lightener_on_scalp",
                                         "second_scalp_lightener_today",
                                         "lightener_over_label",
                                         "lightener_over_total_minutes",
                                         "heat_on_persulfate",
                                         "relaxed_more_than_soap_cap",
                                         "wear_over_limit",
                                         "wet_strength_below_half",
                                         "added_without_label",
                                         "protein_treatment_blended",
                                         "skin_test_missing",
                                         "skin_test_unread",
                                         "skin_test_read_early",
                                         "skin_test_of_another_colour",
                                         "skin_test_lapsed",
                                         "skin_test_colour_changed",
                                         "skin_test_each_use"};

/// What stands against the head: refusals that all raise, and those about person or hair that any
/// raises.
std::vector<Refusal> of_the_head(const std::vector<std::vector<Refusal>>& lists) {
  std::vector<std::vector<Refusal>> found = {common_refusals(lists)};
  for (const auto& list : lists) {
    std::vector<Refusal> about_head;
    for (const Refusal& one : list) {
      const bool bowl =
          std::find(std::begin(kOfBowls), std::end(kOfBowls), one.id) != std::end(kOfBowls);
      if (!bowl && one.kind != RefusalKind::caution) about_head.push_back(one);
    }
    found.push_back(std::move(about_head));
  }
  return process::merged(found);
}

void leave_out(Standing& standing, const std::string& name, const std::vector<Refusal>& findings) {
  const bool told = std::any_of(standing.left_out.begin(), standing.left_out.end(),
                                [&](const LeftOut& one) { return one.name == name; });
  if (told) return;
  LeftOut out{name, findings};
  std::erase_if(out.refusals, [](const Refusal& one) { return one.kind == RefusalKind::caution; });
  standing.left_out.push_back(std::move(out));
}

/// A bowl of an option on all zones, to ask the rules about.
CourseBowl probe(const Case& head, const ColourOption& option) {
  CourseBowl bowl;
  bowl.deposit = bowl_of(head, option, false);
  bowl.pours = {{option.shades.front(), 1}};
  bowl.parts = {{option.solver.front().id, process::PartKind::colour, 1}};
  if (option.developer != nullptr) {
    bowl.parts.push_back(
        {option.developer->id, process::PartKind::developer, option.developer_parts});
  }
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    BowlZone zone;
    zone.zone = z;
    bowl.zones.push_back(zone);
    bowl.on_scalp = bowl.on_scalp || head.zones[z].from_cm <= 0;
  }
  return bowl;
}

/// Miss of zones that no bowl goes on.
double miss_of(const process::LiftMembers& hair, const Target& target) {
  double sum = 0;
  const auto labs = colours_of(hair, process::Whites::mixed_in);
  for (const auto& lab : labs) sum += colour::delta_e_2000(target.centre, lab);
  return sum / static_cast<double>(labs.size());
}

constexpr double kRoundALift =
    75;                         // min to mix, rinse, wash and detangle; data/plan/day_blocks.csv
constexpr double kNever = 1e6;  // CIEDE2000 of what is not offered

double short_miss(const LiftTry& lift) {
  return kShortLevel * std::max(0.0, lift.short_by);
}

/// Different bowls that a lift takes.
std::size_t lift_bowls(const LiftTry& lift) {
  std::set<std::size_t> recipes;
  for (std::size_t z = 0; z < lift.zones.size(); ++z) {
    if (!lift.zones[z].outcome.already_there) recipes.insert(lift.recipe[z]);
  }
  return recipes.size();
}

/// As Course::harsh_percent, before there are bowls.
double harsh_percent(const Case& head, const LiftTry& lift, const Kitchen& kitchen) {
  double harsh = 0;
  for (std::size_t z = 0; z < lift.zones.size(); ++z) {
    if (lift.zones[z].outcome.already_there || lift.recipe[z] >= kitchen.recipes.size()) continue;
    harsh =
        std::max(harsh, harsh_on(head, head.zones[z], kitchen.recipes[lift.recipe[z]].recipe.mix));
  }
  return harsh;
}

/// One lift and one colour on a few members.
RoughCourse judged(const Case& head, const LiftTry& lift, const Kitchen& kitchen,
                   std::size_t option) {
  InlineExecutor here;  // courses are what runs side by side
  RoughCourse rough{lift, option, 0, 0};
  HeadHair canvas;
  std::vector<bool> lifted;
  for (const ZoneLift& zone : lift.zones) {
    canvas.push_back(zone.canvas);
    lifted.push_back(!zone.outcome.already_there);
  }
  const ColourOption& colour = kitchen.options[option];
  // Hair that was lifted today takes developer of 20 volume at most: common practice, no source.
  constexpr double kAfterLift = 6;
  if (lift.lifts() && colour.developer != nullptr &&
      colour.developer->peroxide->value() > kAfterLift) {
    rough.expected_de00 = rough.score = kNever;
    return rough;
  }
  const auto zones = zones_to_colour(head, canvas, lifted);
  const std::vector<double> mass = zone_mass_g(head);
  double whole = 0;
  double inside = 0;
  for (std::size_t z = 0; z < canvas.size(); ++z) {
    whole += mass[z];
    if (std::find(zones.begin(), zones.end(), z) != zones.end())
      inside += mass[z];
    else
      rough.expected_de00 += mass[z] * miss_of(canvas[z], kitchen.wish[z]);
  }
  if (!zones.empty()) {
    const auto formula =
        solve(head, canvas, zones, kitchen.wish, colour, lift.lifts(), false, here);
    if (!formula) {
      rough.expected_de00 = rough.score = kNever;
      return rough;
    }
    rough.expected_de00 += inside * formula->expected_de00;
  }
  rough.expected_de00 /= whole;
  rough.score = score_of(rough.expected_de00, lift.wear_high,
                         lift.minutes + colour.minutes + (lift.lifts() ? kRoundALift : 0),
                         lift_bowls(lift), lift.slack_min) +
                tender_cost(harsh_percent(head, lift, kitchen));
  return rough;
}

/// Words that tell courses apart before they have bowls: recipe kind, class, tested or not.
std::string sort_of(const RoughCourse& rough, const Kitchen& kitchen) {
  std::string sort = rough.option < kitchen.options.size() ? words_of(kitchen.options[rough.option])
                                                           : std::string("lift");
  sort += rough.option < kitchen.options.size() && kitchen.options[rough.option].tested_only
              ? " tested"
              : "";
  if (!rough.lift.lifts()) return sort + " none";
  for (std::size_t z = 0; z < rough.lift.zones.size(); ++z) {
    if (rough.lift.zones[z].outcome.already_there) continue;
    const LiftRecipe& recipe = kitchen.recipes[rough.lift.recipe[z]];
    const bool soap = recipe.recipe.mix.shampoo.value() > 0;
    sort += recipe.recipe.mix.has_persulfate ? (soap ? " soap" : " lightener") : " shampoo";
    return sort + (recipe.applications > 1 ? " twice" : "");
  }
  return sort;
}

/// The best, at most two of a sort, until `most` are there.
std::vector<RoughCourse> few(std::vector<RoughCourse> all, const Kitchen& kitchen,
                             std::size_t most) {
  std::stable_sort(all.begin(), all.end(),
                   [](const RoughCourse& a, const RoughCourse& b) { return a.score < b.score; });
  std::map<std::string, int> seen;
  std::vector<RoughCourse> best;
  bool unlifted = false;
  bool ready = false;  // nothing in it waits for a skin test
  for (RoughCourse& one : all) {
    if (one.score >= kNever) break;
    const bool plain = !one.lift.lifts();
    const bool tested =
        one.option < kitchen.options.size() && kitchen.options[one.option].tested_only;
    // The best that lifts nothing, and the best of what is tested, are always worked out.
    const bool wanted = (plain && !unlifted) || (tested && !ready);
    if (!wanted && (best.size() >= most || seen[sort_of(one, kitchen)] >= 2)) continue;
    ++seen[sort_of(one, kitchen)];
    unlifted = unlifted || plain;
    ready = ready || tested;
    best.push_back(std::move(one));
  }
  return best;
}

/// The lifts worth a colour, with those that are forbidden told of.
std::vector<LiftTry> permitted_lifts(const Case& head, const HeadHair& rough,
                                     const Kitchen& kitchen, Standing& standing, Search& search,
                                     Executor& executor) {
  const auto tries = try_lifts(head, rough, kitchen.recipes, lift_aims(head), executor);
  search.examined += tries.size();
  std::vector<std::vector<Refusal>> findings;
  for (const LiftTry& lift : tries) {
    if (!lift.lifts()) continue;
    findings.push_back(lift.findings);
    if (lift.forbidden()) {
      leave_out(standing, kitchen.recipes[lift.recipe.front()].recipe.words, lift.findings);
    }
  }
  for (const Refusal& one : of_the_head(findings)) standing.refusals.push_back(one);
  constexpr std::size_t kOfEachWish = 6;
  std::vector<LiftTry> lifts;
  for (const std::size_t i : worth_colouring(tries, kOfEachWish)) lifts.push_back(tries[i]);
  return lifts;
}

}  // namespace

Result<Kitchen> stock_kitchen(const Case& head, const HeadHair& hair, Standing& standing) {
  Kitchen kitchen;
  kitchen.recipes = distinct_recipes(head);
  if (!head.target) {
    if (!kitchen.recipes.empty()) return kitchen;
    return fail(ErrorCode::unreachable, "the shelf can mix no lift", "shelf",
                "add a developer, and a lightener or a shampoo, or name a target and colours");
  }
  for (const ZoneCase& zone : head.zones) kitchen.wish.push_back(*target_of(head, zone));
  auto options = colour_options(head);
  if (!options) return tl::unexpected(options.error());
  if (options->empty()) {
    return fail(ErrorCode::unreachable, "no colour on the shelf to reach a target with", "shelf",
                "add products of kind colour with class, level and tone, and a developer");
  }
  std::vector<std::vector<Refusal>> oxidative;
  for (ColourOption& option : *options) {
    const auto findings = judge_colour(head, probe(head, option), hair, hair);
    if (option.oxidative()) oxidative.push_back(findings);
    if (process::forbids(findings)) {
      leave_out(standing, words_of(option), findings);
      continue;
    }
    kitchen.options.push_back(std::move(option));
  }
  for (const Refusal& one : of_the_head(oxidative)) standing.refusals.push_back(one);
  return kitchen;
}

Result<Search> search_courses(const Case& head, const HeadHair& rough, const Kitchen& kitchen,
                              std::size_t most, Standing& standing, Executor& executor) {
  Search search;
  auto lifts = permitted_lifts(head, rough, kitchen, standing, search, executor);
  lifts.insert(lifts.begin(), no_lift(head, rough));
  std::vector<RoughCourse> all;
  if (!head.target) {
    for (const LiftTry& lift : lifts) {
      if (!lift.lifts() && lifts.size() > 1) continue;
      RoughCourse one{lift, 0, short_miss(lift), 0};
      one.score = score_of(one.expected_de00, lift.wear_high, lift.minutes, lift_bowls(lift),
                           lift.slack_min) +
                  tender_cost(harsh_percent(head, lift, kitchen));
      all.push_back(std::move(one));
    }
  } else {
    const std::size_t colours = kitchen.options.size();
    all.resize(lifts.size() * colours);
    executor.run(all.size(), [&](std::size_t task) {
      all[task] = judged(head, lifts[task / colours], kitchen, task % colours);
    });
    search.examined += all.size();
  }
  search.best = few(std::move(all), kitchen, most);
  return search;
}

}  // namespace hw::plan
