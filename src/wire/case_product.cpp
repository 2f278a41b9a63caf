// A product of a shelf, and what it must have by its kind.
#include <fmt/format.h>

#include <array>

#include "case_parts.h"

namespace hw::process {
namespace {

constexpr std::size_t kMostIngredients = 200;  // of one label; house rule, no source
constexpr std::size_t kMostText = 200;         // bytes of free text; house rule, no source
constexpr std::size_t kMostId = 100;           // bytes of a short name; house rule, no source
constexpr double kMostMinutes = 1440;          // a day; more is a slip of the pen

/// What a tube of colour says of itself.
void describe_colour(wire::Object& object, Product& product) {
  using enum DyeClass;
  static constexpr std::array kClasses{direct, cationic, demi, permanent};
  static constexpr std::array<std::string_view, 4> kClassWords{"direct", "cationic", "demi",
                                                               "permanent"};
  wire::Value& holds = object.optional("class", "of a colour: how it holds");
  if (holds.wanted(product.dye_class.has_value())) {
    DyeClass dye_class = product.dye_class.value_or(demi);
    wire::word(holds, dye_class, kClasses, kClassWords);
    product.dye_class = dye_class;
  }
  // 0 stands for a level that nobody gave; check_shelf() asks for it where it is needed.
  wire::Value& level = object.optional("level", "of a colour: depth on white hair");
  if (level.wanted(product.level > 0)) {
    wire::number(level, product.level, {.low = 1, .high = 10});
  } else {
    product.level = 0;
  }
  static const std::vector<std::string_view> tones = [] {
    std::vector<std::string_view> words(shade_tones().begin(), shade_tones().end());
    words.push_back("clear");
    return words;
  }();
  std::size_t tone = 0;
  for (std::size_t i = 0; i < tones.size(); ++i) tone = product.tone == tones[i] ? i : tone;
  object.optional("tone", "of a colour: its tone word, or clear").word(tone, tones);
  product.tone = std::string(tones[tone]);
  wire::texts(object.optional("ingredients", "of a colour: its label's list, generic names"),
              product.ingredients, {0, kMostIngredients}, kMostText);
  wire::describe_lab(
      object.optional("swatch_lab", "of a colour: [L, a, b] read on white hair, D65 and 10°"),
      product.swatch_lab);
}

/// Times and permissions printed on a label.
void describe_label(wire::Object& object, Product& product) {
  wire::number(object.optional("label_max_min", "of a lightener: longest time on its label"),
               product.label_max, {.low = 1, .high = 120, .unit = "min"});
  wire::number(object.optional("label_min", "of a colour: processing time on its label"),
               product.label_min, {.low = 1, .high = 120, .unit = "min"});
  wire::number(object.optional("mix_life_min", "how old the ready mix may get by the label"),
               product.mix_life, {.low = 1, .high = kMostMinutes, .unit = "min"});
  object.optional("test_each_use", "the maker asks for a skin test before each use")
      .flag(product.test_each_use);
  object.optional("label_allows_mixing", "its label lets it into an oxidative bowl")
      .flag(product.label_allows_mixing);
  object.optional("protein", "of a treatment: with protein, never blended").flag(product.protein);
}

/// What a product has that its kind cannot have: the key, and whose it is. Empty: nothing.
std::pair<std::string_view, std::string_view> out_of_place(const Product& product) {
  const bool colour = product.kind == PartKind::colour;
  const bool lightener = product.kind == PartKind::lightener;
  const bool oxidises = colour || product.kind == PartKind::developer;
  if (product.peroxide.value_or(Percent(0)).value() > 0 && !oxidises) {
    return {"peroxide_percent", "developer"};
  }
  if (product.for_scalp && !lightener) return {"for_scalp", "lightener"};
  if (product.label_max && !lightener) return {"label_max_min", "lightener"};
  if (product.protein && product.kind != PartKind::treatment) return {"protein", "treatment"};
  if (colour) return {};
  if (product.dye_class) return {"class", "colour"};
  if (product.level > 0) return {"level", "colour"};
  if (product.swatch_lab) return {"swatch_lab", "colour"};
  if (!product.ingredients.empty()) return {"ingredients", "colour"};
  if (product.label_min) return {"label_min", "colour"};
  if (product.test_each_use) return {"test_each_use", "colour"};
  return {};
}

Result<void> check_colour(const Product& product, const std::string& where) {
  if (!product.dye_class) {
    return fail(ErrorCode::missing, "a colour must say its class", where,
                "give direct, cationic, demi or permanent");
  }
  const bool clear = product.tone == "clear";
  if (clear && product.swatch_lab) {
    return fail(ErrorCode::conflict, "clear has no colour of its own", where + ".swatch_lab",
                "leave it out, or give its tone");
  }
  if (!clear && product.level <= 0 && !product.swatch_lab) {
    return fail(ErrorCode::missing, "a colour must say its level, or have a swatch", where,
                "give level 1 to 10 as on the tube, or swatch_lab");
  }
  const bool neat =
      *product.dye_class == DyeClass::direct || *product.dye_class == DyeClass::cationic;
  if (neat && product.developer_parts.value_or(0) > 0) {
    return fail(ErrorCode::conflict, "a colour of this class takes no developer",
                where + ".developer_parts", "leave it out, or give the class that the label says");
  }
  return {};
}

}  // namespace

void describe(wire::Object& object, Product& product) {
  using enum PartKind;
  static constexpr std::array kKinds{lightener, developer, shampoo, conditioner, water,
                                     colour,    treatment, remover, chelator};
  static const auto kind_words = [] {
    std::array<std::string_view, kKinds.size()> names;
    for (std::size_t i = 0; i < names.size(); ++i) names[i] = name_of(kKinds[i]);
    return names;
  }();
  object.required("id", "own short name on this shelf").text(product.id, kMostId);
  wire::word(object.required("kind", "what it is"), product.kind, kKinds, kind_words);
  object.optional("words", "words of the salon's own; never parsed").text(product.words, kMostText);
  object.optional("name", "the product a skin test is of, shared by its shades; its id when absent")
      .text(product.name, kMostText);
  wire::number(object.optional("peroxide_percent", "of a developer, by mass"), product.peroxide,
               {.low = 0, .high = 100, .unit = "%"});
  object.optional("for_scalp", "of a lightener: its label allows the scalp")
      .flag(product.for_scalp);
  wire::number(object.optional("developer_parts",
                               "the maker's parts of developer to one part; usual when absent"),
               product.developer_parts, {.low = 0, .high = 4});
  describe_colour(object, product);
  wire::number(object.optional("stock_g", "at hand; plenty where it is not said"), product.stock,
               {.low = 0, .high = 1000000, .unit = "g"});
  wire::number(object.optional("price_per_g", "in the salon's currency"), product.price_per_g,
               {.low = 0, .high = 1000});
  describe_label(object, product);
}

}  // namespace hw::process

namespace hw::wire {

void describe(Object& object, ShelfFile& file) {
  objects(object.required("shelf", "products, as chemistry"), file.shelf, {1, 500});
}

Result<void> check_product(const process::Product& product, const std::string& where) {
  if (product.id.empty()) {
    return fail(ErrorCode::missing, "a product has no id", where + ".id", "give it a short name");
  }
  if (product.kind == process::PartKind::developer && !product.peroxide) {
    return fail(ErrorCode::missing, "a developer must say its peroxide_percent", where,
                "labels 10/20/30/40 volume are 3/6/9/12 %");
  }
  const auto [key, whose] = process::out_of_place(product);
  if (!key.empty()) {
    return fail(
        ErrorCode::conflict,
        fmt::format("{} belongs to a {}, not to a {}", key, whose, process::name_of(product.kind)),
        where, "leave it out, or correct kind");
  }
  return product.kind == process::PartKind::colour ? process::check_colour(product, where)
                                                   : Result<void>{};
}

Result<void> check_shelf(std::vector<process::Product>& shelf, const hair::Ladder& ladder) {
  if (shelf.empty()) {
    return fail(ErrorCode::missing, "no product to plan with", "shelf",
                "list products in shelf, or name a shelf_file");
  }
  for (std::size_t i = 0; i < shelf.size(); ++i) {
    process::Product& product = shelf[i];
    for (std::size_t j = 0; j < i; ++j) {
      if (product.id == shelf[j].id) {
        return fail(ErrorCode::conflict, fmt::format("two products are called \"{}\"", product.id),
                    fmt::format("shelf[{}].id", i), "give each product its own id");
      }
    }
    auto sound = check_product(product, fmt::format("shelf[{}]", i));
    if (!sound) return sound;
    if (product.level > 0) continue;
    product.level =
        product.swatch_lab ? ladder.level_of(product.swatch_lab->l) : process::Product{}.level;
  }
  return {};
}

}  // namespace hw::wire
