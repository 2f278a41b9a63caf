#include "huewright/plan/colour_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "huewright/colour/difference.h"
#include "huewright/plan/amounts.h"

namespace hw::plan {
namespace {

using process::DyeClass;
using process::LiftMembers;

constexpr std::size_t kLiftsTried = 4;  // of the lift plan's best, besides no lift
constexpr std::array<std::size_t, 3> kWashes = {10, 20, 30};

/// Shades of one class on the shelf, and clear where it stands there.
struct ShadeShelf {
  std::vector<process::Shade> shades;
  std::vector<FormulaShade> solver;
  std::string clear;
};

Result<ShadeShelf> shades_of(const Case& head, DyeClass dye_class) {
  ShadeShelf shelf;
  for (const process::Product& product : head.shelf) {
    if (product.kind != process::PartKind::colour || product.dye_class != dye_class) continue;
    if (product.tone == "clear") {
      shelf.clear = product.id;
      continue;
    }
    auto shade = process::shade_from_words(product.id, dye_class, product.level, product.tone);
    if (!shade) return tl::unexpected(shade.error());
    FormulaShade solver{product.id, shade->full, 1e9, product.price_per_g};
    if (product.stock) solver.stock_g = product.stock->value();
    shelf.solver.push_back(solver);
    shelf.shades.push_back(*std::move(shade));
  }
  return shelf;
}

/// The developer of the shelf that a class wants: demi the mildest, permanent the nearest to 6 %.
const process::Product* developer_for(const Case& head, DyeClass dye_class) {
  if (dye_class == DyeClass::direct || dye_class == DyeClass::cationic) return nullptr;
  constexpr double kPermanentPercent = 6;  // 20 volume, the standard: exam material
  const double wanted = dye_class == DyeClass::demi ? 0 : kPermanentPercent;
  const process::Product* best = nullptr;
  for (const process::Product& product : head.shelf) {
    if (product.kind != process::PartKind::developer) continue;
    if (best == nullptr ||
        std::abs(product.peroxide->value() - wanted) < std::abs(best->peroxide->value() - wanted)) {
      best = &product;
    }
  }
  return best;
}

/// Every zone's hair when the colour bowl opens.
std::vector<LiftMembers> canvases(const Case& head, const LiftPlan& lifts, const LiftOption* lift,
                                  Executor& executor) {
  std::vector<LiftMembers> all;
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    const LiftMembers& members = lifts.zones[i].members;
    if (lift == nullptr || lift->zones[i].already_there) {
      all.push_back(members);
      continue;
    }
    const double stop = lift->zones[i].stop_min.mid;
    const auto applications = applications_of(*lift, head, head.zones[i], stop);
    const auto moments = process::simulate_lift(members, applications, stop, executor);
    all.push_back(process::canvas_after(members, moments.back()));
  }
  return all;
}

/// Mean of the members whose L* lies nearest a quantile: a twentieth of them.
colour::HairLab near_quantile(std::vector<colour::HairLab> labs, double p) {
  std::sort(labs.begin(), labs.end(), [](const auto& a, const auto& b) { return a.l < b.l; });
  const std::size_t count = std::max<std::size_t>(1, labs.size() / 20);
  const auto middle = static_cast<std::size_t>(p * static_cast<double>(labs.size() - 1));
  const std::size_t first =
      std::min(middle > count / 2 ? middle - count / 2 : 0, labs.size() - count);
  colour::HairLab mean{};
  for (std::size_t i = first; i < first + count; ++i) {
    const double share = 1.0 / static_cast<double>(count);
    mean = {mean.l + share * labs[i].l, mean.a + share * labs[i].a, mean.b + share * labs[i].b};
  }
  return mean;
}

std::vector<colour::HairLab> colours_of(const LiftMembers& members) {
  std::vector<colour::HairLab> labs(members.size());
  process::lift_colours(members, process::starting_moment(members), labs);
  return labs;
}

ColouredZone outcome_of(const Case& head, const std::string& name, const LiftMembers& coloured,
                        const colour::HairLab& target) {
  const auto labs = colours_of(coloured);
  ColouredZone zone;
  zone.zone = name;
  std::vector<double> levels;
  for (const auto& lab : labs) {
    const double share = 1.0 / static_cast<double>(labs.size());
    const double de = colour::delta_e_2000(target, lab);
    zone.expected_de00 += share * de;
    zone.within_3 += de <= 3 ? share : 0;
    levels.push_back(head.ladder.level_of(lab.l));
  }
  zone.level = band_of(levels);
  zone.lab = near_quantile(labs, 0.5);
  zone.lab_low = near_quantile(labs, 0.1);
  zone.lab_high = near_quantile(labs, 0.9);
  return zone;
}

/// The most poured shade decides how the bowl fades; lightened hair fades as bleached.
void add_fade(const Case& head, const LiftMembers& canvas, const LiftMembers& coloured,
              const process::Shade& main, const std::string& name, ColourStep& step) {
  constexpr double kLightenedWear = 0.1;  // share of cystine: beyond what untouched hair shows
  const double wear = quantile(canvas.wear, 0.5);
  const auto state =
      wear > kLightenedWear ? process::HairState::bleached : process::HairState::virgin;
  const auto constants = process::fade_constants(main.dye_class, main.family, state);
  const colour::HairLab fresh = near_quantile(colours_of(coloured), 0.5);
  for (const std::size_t wash : kWashes) {
    LiftMembers faded = coloured;
    const auto left = process::dye_left_members(constants, static_cast<double>(wash), {}, 0,
                                                Draws(head.seed), coloured.size());
    for (std::size_t d = canvas.dyes.size(); d < faded.dyes.size(); ++d) {
      for (std::size_t m = 0; m < left.size(); ++m) faded.dyes[d].amount[m] *= left[m];
    }
    const colour::HairLab lab = near_quantile(colours_of(faded), 0.5);
    step.fade.push_back(
        {wash, name, lab, colour::delta_e_2000(fresh, lab), colour::delta_e_76(fresh, lab)});
  }
}

process::DepositBowl bowl_for(const Case& head, DyeClass dye_class,
                              const process::Product* developer) {
  process::DepositBowl bowl;
  const process::ClassFacts& facts = process::class_facts(dye_class);
  bowl.dye_class = dye_class;
  bowl.developer_parts = bowl.label_parts = facts.developer_parts;
  bowl.developer_percent = developer != nullptr ? developer->peroxide->value() : 0;
  bowl.minutes = facts.label_min;
  bowl.temperature_c = head.room_c;
  bowl.mix_per_hair = pick_up_of(head, false);
  return bowl;
}

void judge(const Case& head, const process::DepositBowl& bowl, ColourStep& step) {
  process::ApplicationFacts facts;
  double colour_g = 0;
  double developer_g = 0;
  for (const ColourItem& item : step.items) {
    const bool developer = &item == &step.items.back() && bowl.developer_parts > 0;
    (developer ? developer_g : colour_g) += item.grams;
  }
  facts.bowl.parts = {{process::PartKind::colour, Grams(colour_g)}};
  if (developer_g > 0) {
    process::Part developer{process::PartKind::developer, Grams(developer_g)};
    developer.peroxide = Percent(bowl.developer_percent);
    facts.bowl.parts.push_back(developer);
  }
  facts.bowl.on_scalp = true;
  facts.minutes = Minutes(bowl.minutes);
  facts.is_oxidative_colour = developer_g > 0;
  const auto mix = process::mix_bowl(facts.bowl);
  if (!mix) return;
  facts.mix = *mix;
  step.peroxide_percent = mix->peroxide.value();
  std::vector<std::vector<process::Refusal>> findings;
  for (const ZoneCase& zone : head.zones) {
    findings.push_back(check_application(head.person, zone.facts, facts, head.settings));
  }
  for (const auto& finding : process::merged(findings)) {
    (finding.kind == process::RefusalKind::caution ? step.cautions : step.refusals)
        .push_back(finding);
  }
}

struct Kitchen {
  const Case& head;
  const Target& target;
  DyeClass dye_class;
  const ShadeShelf& shelf;
  const process::Product* developer;
};

std::vector<FormulaZone> formula_zones(const Kitchen& kitchen,
                                       const std::vector<LiftMembers>& canvas,
                                       const process::DepositBowl& bowl,
                                       const std::vector<double>& mass, Executor& executor) {
  std::vector<FormulaZone> zones;
  for (std::size_t i = 0; i < canvas.size(); ++i) {
    FormulaZone zone;
    zone.uptake = process::uptake(canvas[i], bowl);
    const LiftMembers ready = process::after_own_lift(canvas[i], bowl, executor);
    zone.canvas = process::tress_members(ready, process::starting_moment(ready));
    zone.target = kitchen.target.centre;
    zone.weight = mass[i];
    zones.push_back(std::move(zone));
  }
  return zones;
}

Result<ColourStep> colour_step(const Kitchen& kitchen, const std::vector<LiftMembers>& canvas,
                               Executor& executor) {
  const Case& head = kitchen.head;
  const process::DepositBowl bowl = bowl_for(head, kitchen.dye_class, kitchen.developer);
  const std::vector<double> mass = zone_mass_g(head);
  const double mix = std::accumulate(mass.begin(), mass.end(), 0.0) * pick_up_of(head, false);
  FormulaRules rules;
  rules.colour_g = std::max(4.0, std::ceil(mix / (1 + bowl.developer_parts)));
  rules.clear = !kitchen.shelf.clear.empty();
  const auto zones = formula_zones(kitchen, canvas, bowl, mass, executor);
  const auto found = find_formulas(kitchen.shelf.solver, zones, rules, executor);
  if (!found) return tl::unexpected(found.error());
  const Formula& formula = found->best.front();

  ColourStep step;
  step.dye_class = kitchen.dye_class;
  step.minutes = bowl.minutes;
  step.cost = formula.cost;
  std::vector<process::Poured> pours;
  for (const FormulaPour& pour : formula.pours) {
    step.items.push_back({kitchen.shelf.solver[pour.shade].id, pour.grams});
    pours.push_back({kitchen.shelf.shades[pour.shade], pour.grams / rules.colour_g});
  }
  if (formula.clear_g > 0) step.items.push_back({kitchen.shelf.clear, formula.clear_g});
  if (kitchen.developer != nullptr) {
    step.items.push_back({kitchen.developer->id, std::ceil(rules.colour_g * bowl.developer_parts)});
  }
  judge(head, bowl, step);
  step.within_3 = 1;
  const double whole = std::accumulate(mass.begin(), mass.end(), 0.0);
  for (std::size_t i = 0; i < canvas.size(); ++i) {
    const LiftMembers coloured =
        process::deposit(canvas[i], bowl, pours, Draws(head.seed), executor);
    step.zones.push_back(outcome_of(head, head.zones[i].name, coloured, kitchen.target.centre));
    step.expected_de00 += step.zones.back().expected_de00 * mass[i] / whole;
    step.within_3 = std::min(step.within_3, step.zones.back().within_3);
    if (!pours.empty()) {
      add_fade(head, canvas[i], coloured, pours.front().shade, head.zones[i].name, step);
    }
  }
  return step;
}

/// Whether a course is at least as good as another in colour, wear and minutes, and better in one.
bool beats(const ColourCourse& a, const ColourCourse& b) {
  const auto minutes = [](const ColourCourse& c) {
    return c.colour.minutes + (c.lift ? c.lift->minutes : 0);
  };
  const bool no_worse = a.colour.expected_de00 <= b.colour.expected_de00 &&
                        a.wear_high() <= b.wear_high() && minutes(a) <= minutes(b);
  const bool better = a.colour.expected_de00 < b.colour.expected_de00 ||
                      a.wear_high() < b.wear_high() || minutes(a) < minutes(b);
  return no_worse && better;
}

}  // namespace

double ColourCourse::wear_high() const {
  return zone_wear_high.empty() ? 0
                                : *std::max_element(zone_wear_high.begin(), zone_wear_high.end());
}

std::string words_of(const ColourCourse& course) {
  const std::string colour = process::class_facts(course.colour.dye_class).word + " colour";
  if (!course.lift) return colour + " on the hair as it is";
  return course.lift->recipe.words + ", then " + colour;
}

std::string sentence_of(const ColourCourse& course) {
  // Words for a difference: same within measurement, slight, clear, another shade (common
  // practice).
  const double de = course.colour.expected_de00;
  const char* match = de < 1.5   ? "hardly told from the target"
                      : de < 3.0 ? "a slight difference from the target"
                      : de < 6.0 ? "a clear difference from the target"
                                 : "another shade than the target";
  return fmt::format(
      "Expect {}; a close match {:.0f} times in 10 in the least likely zone; up to "
      "{:.0f} % of what the fibre can give is used then.",
      match, 10 * course.colour.within_3, 100 * std::min(1.0, course.wear_high() / kWearLimit));
}

Result<std::vector<ColourCourse>> plan_colour(const Case& head, const LiftPlan& lifts,
                                              const Target& target, Executor& executor) {
  std::vector<const LiftOption*> tried = {nullptr};
  for (std::size_t i = 0; i < lifts.options.size() && i < kLiftsTried; ++i) {
    if (lifts.options[i].minutes > 0) tried.push_back(&lifts.options[i]);
  }
  std::vector<ColourCourse> courses;
  for (const LiftOption* lift : tried) {
    const auto canvas = canvases(head, lifts, lift, executor);
    for (const DyeClass dye_class :
         {DyeClass::direct, DyeClass::cationic, DyeClass::demi, DyeClass::permanent}) {
      const auto shelf = shades_of(head, dye_class);
      if (!shelf) return tl::unexpected(shelf.error());
      const process::Product* developer = developer_for(head, dye_class);
      const bool needs = process::class_facts(dye_class).developer_parts > 0;
      if (shelf->solver.empty() || (needs && developer == nullptr)) continue;
      auto step = colour_step({head, target, dye_class, *shelf, developer}, canvas, executor);
      if (!step) return tl::unexpected(step.error());
      if (step->fade.empty()) continue;  // only clear: nothing here comes nearer by colouring
      ColourCourse course;
      if (lift != nullptr) course.lift = *lift;
      course.colour = *std::move(step);
      for (const LiftMembers& hair : canvas) {
        course.zone_wear_high.push_back(quantile(hair.wear, 0.9));
      }
      courses.push_back(std::move(course));
    }
  }
  if (courses.empty()) {
    return fail(ErrorCode::unreachable, "no colour on the shelf to reach a target with", "shelf",
                "add products of kind colour with class, level and tone");
  }
  std::vector<ColourCourse> kept;
  for (const ColourCourse& course : courses) {
    const bool beaten = std::any_of(courses.begin(), courses.end(),
                                    [&](const auto& other) { return beats(other, course); });
    if (!beaten) kept.push_back(course);
  }
  std::stable_sort(kept.begin(), kept.end(), [](const auto& a, const auto& b) {
    return a.colour.expected_de00 < b.colour.expected_de00;
  });
  return kept;
}

}  // namespace hw::plan
