#include <fmt/format.h>

#include <algorithm>

#include "huewright/plan/lift_recipe.h"

namespace hw::plan {
namespace {

using process::PartKind;
using process::Product;

/// A shape of bowl, in parts: lightener, developer (0: by the label), shampoo, water.
struct Shape {
  const char* name;
  double lightener, developer, shampoo, water;
};
// Trade recipes: common practice, no source; the same shapes in the bowl chemistry's tests.
constexpr Shape kShapes[] = {
    {"lightener", 1, 0, 0, 0},
    {"soap cap", 1, 1, 1, 0},
    {"soap cap", 1, 2, 1, 0},
    {"soap cap", 1, 2, 1, 1},
    {"developer and shampoo", 0, 1, 1, 0},
};
// Developer and shampoo alone: look at 15, then each 5, at most 30 minutes (common practice).
constexpr double kShampooLongestMin = 30;
constexpr double kUsualParts =
    2;  // developer to lightener where no label is known: common practice

std::vector<const Product*> of_kind(const Case& head, PartKind kind) {
  std::vector<const Product*> found;
  for (const Product& product : head.shelf) {
    if (product.kind == kind) found.push_back(&product);
  }
  return found;
}

Result<Recipe> make_recipe(const Case& head, const Shape& shape, const Product* lightener,
                           const Product& developer, const Product* shampoo) {
  Recipe recipe;
  std::string ratio;
  const auto add = [&](PartKind kind, const Product* product, double parts) {
    if (parts <= 0) return;
    recipe.parts.push_back({kind, product != nullptr ? product->id : "", parts});
    ratio += fmt::format("{}{:g}", ratio.empty() ? "" : " : ", parts);
  };
  const double developer_parts =
      shape.developer > 0 ? shape.developer : lightener->developer_parts.value_or(kUsualParts);
  add(PartKind::lightener, lightener, shape.lightener);
  add(PartKind::developer, &developer, developer_parts);
  add(PartKind::shampoo, shampoo, shape.shampoo);
  add(PartKind::water, nullptr, shape.water);
  const std::string name = lightener != nullptr && !lightener->words.empty()
                               ? fmt::format("{} ({})", shape.name, lightener->words)
                               : shape.name;
  recipe.words =
      fmt::format("{} {} with {:g} % developer", name, ratio, developer.peroxide->value());

  double whole = 0;
  for (const RecipePart& part : recipe.parts) whole += part.parts;
  for (const RecipePart& part : recipe.parts) {
    process::Part poured{part.kind, Grams(100 * part.parts / whole)};
    if (part.kind == PartKind::developer) poured.peroxide = developer.peroxide;
    if (part.kind == PartKind::lightener) poured.for_scalp = lightener->for_scalp;
    recipe.bowl.parts.push_back(poured);
  }
  const auto mix = process::mix_bowl(recipe.bowl, "shelf");
  if (!mix) return tl::unexpected(mix.error());
  recipe.mix = *mix;
  recipe.longest_min = head.longest_min;
  if (lightener != nullptr && lightener->label_max) {
    recipe.label_min = lightener->label_max->value();
    recipe.longest_min = std::min(recipe.longest_min, *recipe.label_min);
  }
  if (lightener == nullptr) recipe.longest_min = std::min(recipe.longest_min, kShampooLongestMin);
  return recipe;
}

}  // namespace

Result<std::vector<Recipe>> lift_recipes(const Case& head) {
  const auto lighteners = of_kind(head, PartKind::lightener);
  const auto developers = of_kind(head, PartKind::developer);
  const auto shampoos = of_kind(head, PartKind::shampoo);
  const Product* shampoo = shampoos.empty() ? nullptr : shampoos.front();
  std::vector<Recipe> recipes;
  for (const Shape& shape : kShapes) {
    if (shape.shampoo > 0 && shampoo == nullptr) continue;
    std::vector<const Product*> powders = lighteners;
    if (shape.lightener == 0) powders = {nullptr};
    for (const Product* lightener : powders) {
      for (const Product* developer : developers) {
        auto recipe = make_recipe(head, shape, lightener, *developer, shampoo);
        if (!recipe) return tl::unexpected(recipe.error());
        recipes.push_back(*std::move(recipe));
      }
    }
  }
  if (recipes.empty()) {
    return fail(ErrorCode::unreachable, "the shelf can mix no lift", "shelf",
                "add a developer, and a lightener or a shampoo");
  }
  return recipes;
}

}  // namespace hw::plan
