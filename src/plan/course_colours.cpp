#include "course_colours.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "huewright/base/check.h"
#include "huewright/colour/difference.h"
#include "huewright/plan/amounts.h"
#include "huewright/plan/learn.h"
#include "huewright/process/dry.h"
#include "huewright/process/swatch.h"

namespace hw::plan {
namespace {

using process::DyeClass;
using process::Product;

bool is_oxidative(DyeClass dye_class) {
  return process::class_facts(dye_class).developer_parts > 0;
}

double parts_of(const Product& product) {
  return product.developer_parts.value_or(process::class_facts(*product.dye_class).developer_parts);
}

double minutes_of(const Product& product) {
  return product.label_min ? product.label_min->value()
                           : process::class_facts(*product.dye_class).label_min;
}

/// The shade of a product: by its swatch where one was read, else by its words; then by what past
/// visits taught of its strength.
Result<process::Shade> shade_of(const Case& head, const Product& product) {
  auto shade =
      product.swatch_lab
          ? process::shade_from_swatch(
                product.id, *product.dye_class, process::dyes_on_label(product.ingredients),
                {process::white_base(), 1, *product.swatch_lab}, Draws(head.seed))
          : process::shade_from_words(product.id, *product.dye_class, product.level, product.tone);
  if (!shade) {
    Error error = shade.error();
    error.where = "shelf, product " + product.id;
    return tl::unexpected(error);
  }
  return with_learned(*std::move(shade), head);
}

/// Colours of the shelf that could share a bowl.
struct Group {
  DyeClass dye_class;
  double parts, minutes;
  std::vector<const Product*> products;
};

std::vector<Group> groups_of(const Case& head) {
  std::vector<Group> groups;
  for (const Product& product : head.shelf) {
    if (product.kind != process::PartKind::colour || !product.dye_class) continue;
    if (product.tone == "clear") continue;
    if (product.stock && product.stock->value() < 1) continue;
    const auto at = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
      return group.dye_class == *product.dye_class && group.parts == parts_of(product) &&
             group.minutes == minutes_of(product);
    });
    Group& group = at != groups.end()
                       ? *at
                       : groups.emplace_back(
                             Group{*product.dye_class, parts_of(product), minutes_of(product), {}});
    group.products.push_back(&product);
  }
  return groups;
}

/// Developers that a class is mixed with: demi the mildest, permanent each that its maker means
/// (3 to 12 %), direct colour none.
std::vector<const Product*> developers_for(const Case& head, DyeClass dye_class) {
  if (!is_oxidative(dye_class)) return {nullptr};
  constexpr double kStrongest = 12;  // %, of ready-mix and bottle rules alike
  std::vector<const Product*> found;
  for (const Product& product : head.shelf) {
    if (product.kind == process::PartKind::developer && product.peroxide->value() > 0 &&
        product.peroxide->value() <= kStrongest) {
      found.push_back(&product);
    }
  }
  std::stable_sort(found.begin(), found.end(), [](const Product* a, const Product* b) {
    return a->peroxide->value() < b->peroxide->value();
  });
  const auto same = [](const Product* a, const Product* b) { return a->peroxide == b->peroxide; };
  found.erase(std::unique(found.begin(), found.end(), same), found.end());
  if (dye_class == DyeClass::demi && found.size() > 1) found.resize(1);
  return found;
}

process::ColourMeant meant(const Product& product) {
  return {{product.name.empty() ? product.id : product.name, product.id}, product.test_each_use};
}

/// The products that a dated skin test covers; all when nothing is dated.
std::vector<const Product*> tested(const Case& head, const std::vector<const Product*>& products) {
  if (!head.tests || !head.visit_at) return products;
  std::vector<process::ColourMeant> shelf;
  for (const Product* product : products) shelf.push_back(meant(*product));
  const auto covered = process::covered_by_tests(*head.tests, shelf, *head.visit_at, head.settings);
  std::vector<const Product*> kept;
  for (const Product* product : products) {
    if (std::any_of(covered.begin(), covered.end(), [&](const process::ColourMeant& one) {
          return one.colour.shade == product->id;
        })) {
      kept.push_back(product);
    }
  }
  return kept;
}

Result<ColourOption> option_of(const Case& head, const Group& group,
                               const std::vector<const Product*>& products,
                               const Product* developer) {
  ColourOption option;
  option.dye_class = group.dye_class;
  option.developer = developer;
  option.developer_parts = group.parts;
  option.minutes = group.minutes;
  for (const Product* product : products) {
    auto shade = shade_of(head, *product);
    if (!shade) return tl::unexpected(shade.error());
    shade->developer_parts = group.parts;
    shade->label_min = group.minutes;
    FormulaShade solver{product->id, shade->full, 1e9, product->price_per_g};
    if (product->stock) solver.stock_g = product->stock->value();
    if (product->mix_life) {
      const double life = product->mix_life->value();
      option.mix_life_min = option.mix_life_min > 0 ? std::min(option.mix_life_min, life) : life;
    }
    option.solver.push_back(solver);
    option.shades.push_back(*std::move(shade));
  }
  for (const Product& product : head.shelf) {
    const bool clear = product.kind == process::PartKind::colour &&
                       product.dye_class == group.dye_class && product.tone == "clear";
    if (clear && parts_of(product) == group.parts && option.clear.empty()) {
      option.clear = product.id;
    }
  }
  return option;
}

}  // namespace

Result<std::vector<ColourOption>> colour_options(const Case& head) {
  std::vector<ColourOption> options;
  for (const Group& group : groups_of(head)) {
    for (const Product* developer : developers_for(head, group.dye_class)) {
      auto all = option_of(head, group, group.products, developer);
      if (!all) return tl::unexpected(all.error());
      const bool dated = is_oxidative(group.dye_class) && head.tests && head.visit_at;
      const auto covered = dated ? tested(head, group.products) : group.products;
      all->tested_only = covered.size() == group.products.size();
      options.push_back(*std::move(all));
      if (covered.empty() || covered.size() == group.products.size()) continue;
      auto some = option_of(head, group, covered, developer);
      if (!some) return tl::unexpected(some.error());
      some->tested_only = true;
      options.push_back(*std::move(some));
    }
  }
  for (std::size_t i = 0; i < options.size(); ++i) options[i].index = i;
  return options;
}

Result<ColourOption> option_from(const Case& head, DyeClass dye_class,
                                 const std::vector<std::size_t>& products,
                                 std::optional<std::size_t> developer) {
  std::vector<const Product*> chosen;
  for (const std::size_t i : products) chosen.push_back(&head.shelf[i]);
  const Group group{dye_class, parts_of(*chosen.front()), minutes_of(*chosen.front()), chosen};
  return option_of(head, group, chosen, developer ? &head.shelf[*developer] : nullptr);
}

process::DepositBowl bowl_of(const Case& head, const ColourOption& option, bool after_lift) {
  process::DepositBowl bowl;
  bowl.dye_class = option.dye_class;
  bowl.developer_parts = bowl.label_parts = option.developer_parts;
  bowl.developer_percent = option.developer != nullptr ? option.developer->peroxide->value() : 0;
  bowl.minutes = bowl.label_min = option.minutes;
  bowl.temperature_c = head.room_c;
  bowl.mix_per_hair = pick_up_of(head, false);
  if (after_lift) {
    bowl.water_per_hair = process::free_water(process::water_held(process::Wetness::towel_dry).mid);
  }
  return bowl;
}

std::vector<std::size_t> zones_to_colour(const Case& head, const HeadHair& canvas,
                                         const std::vector<bool>& lifted) {
  // Below this a zone is what was wished for: more colour only builds up. CIEDE2000, guess.
  constexpr double kThere = 3;
  std::vector<std::size_t> zones;
  for (std::size_t i = 0; i < canvas.size(); ++i) {
    const auto target = target_of(head, head.zones[i]);
    HW_CHECK(target.has_value());
    const auto labs = colours_of(canvas[i], process::Whites::mixed_in);
    const auto likely = mean_of(labs, near_quantile(labs, 0.5));
    if (lifted[i] || colour::delta_e_2000(target->centre, likely) > kThere) zones.push_back(i);
  }
  return zones;
}

std::vector<FormulaZone> formula_zones(const Case& head, const HeadHair& canvas,
                                       const std::vector<std::size_t>& zones,
                                       const process::DepositBowl& bowl, Executor& executor) {
  const std::vector<double> mass = zone_mass_g(head);
  std::vector<FormulaZone> seen;
  for (const std::size_t i : zones) {
    FormulaZone zone;
    zone.uptake = process::uptake(canvas[i], bowl, Draws(head.seed));
    const process::LiftMembers ready = process::after_own_lift(canvas[i], bowl, executor);
    zone.canvas = process::tress_members(ready, process::starting_moment(ready));
    zone.target = target_of(head, head.zones[i])->centre;
    zone.weight = mass[i];
    seen.push_back(std::move(zone));
  }
  return seen;
}

FormulaRules formula_rules(const Case& head, const ColourOption& option,
                           const std::vector<std::size_t>& zones) {
  const std::vector<double> mass = zone_mass_g(head);
  const CoverFacts facts = cover_facts(false);
  double hair = 0;
  for (const std::size_t i : zones) hair += mass[i];
  const double mix = hair * pick_up_of(head, false) * head.salon.amount_factor *
                     facts.hair_factor.high / (1 - facts.waste.mid);
  FormulaRules rules;
  rules.step_g = head.salon.scale_step_g;
  rules.most_shades = head.limits.most_shades;
  rules.colour_g = std::max(4.0, std::ceil(mix / (1 + option.developer_parts)));
  rules.smallest_g = std::max(rules.smallest_g, rules.step_g);
  rules.clear = !option.clear.empty();
  double stock = rules.clear ? rules.colour_g : 0;
  for (const FormulaShade& shade : option.solver) stock += shade.stock_g;
  rules.colour_g = std::min(rules.colour_g, std::max(4.0, std::floor(stock)));
  constexpr double kDePerMoney = 0.01;  // CIEDE2000 for one unit of money: between equals; guess
  rules.de_per_money = kDePerMoney;
  return rules;
}

std::vector<process::Poured> poured(const ColourOption& option, const Formula& formula,
                                    double colour_g) {
  std::vector<process::Poured> pours;
  for (const FormulaPour& pour : formula.pours) {
    pours.push_back({option.shades[pour.shade], pour.grams / colour_g});
  }
  return pours;
}

std::string words_of(const ColourOption& option) {
  std::string words = process::class_facts(option.dye_class).word + " colour";
  if (option.developer != nullptr) {
    words += fmt::format(" with {:g} %", option.developer->peroxide->value());
  }
  return words;
}

}  // namespace hw::plan
