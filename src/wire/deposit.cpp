// The keys of `deposit`, in the order in which they are printed.
#include "huewright/wire/deposit.h"

#include "lift_limits.h"

namespace hw::wire {
namespace {

constexpr std::size_t kMostColours = 20;       // tubes in one bowl; house rule, no source
constexpr std::size_t kMostIngredients = 200;  // of one label; house rule, no source
constexpr std::size_t kMostText = 200;         // bytes of free text; house rule, no source
constexpr double kMostParts = 5;               // developer to one of colour; house rule, no source

void lab(Value& value, std::optional<Triple>& into) {
  if (!value.wanted(into.has_value())) return;
  Triple given = into.value_or(Triple{});
  triple(value, given, {.low = 0, .high = 100}, {.low = -128, .high = 128});
  into = given;
}

const std::vector<std::string_view>& tone_words() {
  static const std::vector<std::string_view> words = [] {
    std::vector<std::string_view> list(process::shade_tones().begin(),
                                       process::shade_tones().end());
    list.push_back("clear");
    return list;
  }();
  return words;
}

}  // namespace

void describe(Object& object, DepositHair& hair) {
  number(object.optional("level", "of natural hair, 1 black to 10 lightest blond"), hair.level,
         {.low = 1, .high = 10});
  number(object.optional("lstar", "L* of natural hair, dry, daylight, 10 degrees"), hair.lstar,
         {.low = 0, .high = 100});
  number(object.optional("melanin_percent", "of natural hair, 5 % of it pheomelanin"),
         hair.melanin_percent,
         {.low = 0, .high = hair::kMelaninMax, .unit = "% of hair mass", .above_low = true});
  lab(object.optional("lab",
                      "[L, a, b] of any hair, lifted or coloured, dry, daylight, 10 degrees"),
      hair.lab);
  object.exactly_one({"level", "lstar", "melanin_percent", "lab"});
  number(object.required("strand_um", "diameter of the circle of equal area"), hair.strand,
         {.low = 20, .high = 180, .unit = "µm"});
  number(object.optional("opened",
                         "factor on diffusion of peroxide, 1 for virgin hair, about 1.9 once "
                         "lightened"),
         hair.opened, {.low = 0.1, .high = 50});
  number(object.optional("wear", "share of cystine used, about 0.16 once lightened"), hair.wear,
         {.low = 0, .high = process::kWearCap});
  number(object.optional("white_percent", "of strands"), hair.white_percent,
         {.low = 0, .high = 100, .unit = "%"});
}

void describe(Object& object, SwatchGiven& swatch) {
  triple(object.required("lab", "[L, a, b] of the swatch, dry, daylight, 10 degrees"), swatch.lab,
         {.low = 0, .high = 100}, {.low = -128, .high = 128});
  lab(object.optional("base_lab", "[L, a, b] of its hair before; white hair when absent"),
      swatch.base_lab);
  object.optional("ingredients", "as the label lists them; what is no dye is passed over")
      .list(
          {0, kMostIngredients}, swatch.ingredients.size(),
          [&](std::size_t size) { swatch.ingredients.resize(size); },
          [&](std::size_t i, Value& entry) { entry.text(swatch.ingredients[i], kMostText); });
}

void describe(Object& object, ColourGiven& colour) {
  number(object.required("grams", "poured in"), colour.grams,
         {.low = 0, .high = process::kMaxPartGrams, .unit = "g", .above_low = true});
  number(object.optional("level", "depth on white hair; or give a swatch"), colour.level,
         {.low = 1, .high = 10});
  std::size_t tone = 0;
  const auto& words = tone_words();
  for (std::size_t i = 0; i < words.size(); ++i) tone = colour.tone == words[i] ? i : tone;
  object.optional("tone", "beside a level; clear stands alone").word(tone, words);
  colour.tone = std::string(words[tone]);
  Value& swatch = object.optional("swatch", "a reading of the shade, in place of its level");
  if (swatch.wanted(colour.swatch.has_value())) {
    SwatchGiven given = colour.swatch.value_or(SwatchGiven{});
    swatch.object([&](Object& inner) { describe(inner, given); });
    colour.swatch = given;
  }
  object.optional("words", "as printed on the tube; free text").text(colour.words, kMostText);
}

void describe(Object& object, DeveloperGiven& developer) {
  number(object.required("grams", "poured in"), developer.grams,
         {.low = 0, .high = process::kMaxPartGrams, .unit = "g", .above_low = true});
  number(object.required("peroxide_percent", "by mass"), developer.peroxide_percent,
         {.low = 0, .high = 100, .unit = "%"});
}

void describe(Object& object, DepositRequest& request) {
  using enum process::DyeClass;
  object.required("hair", "what the colour goes on, taken as exact").object([&](Object& inner) {
    describe(inner, request.hair);
  });
  static constexpr std::array kClasses{direct, cationic, demi, permanent};
  static constexpr std::array<std::string_view, 4> kWords{"direct", "cationic", "demi",
                                                          "permanent"};
  word(object.required("class", "how the colour holds"), request.dye_class, kClasses, kWords);
  objects(object.required("colours", "shades and clear in the bowl"), request.colours,
          {1, kMostColours});
  Value& developer = object.optional("developer", "of demi and permanent colour");
  if (developer.wanted(request.developer.has_value())) {
    DeveloperGiven given = request.developer.value_or(DeveloperGiven{});
    developer.object([&](Object& inner) { describe(inner, given); });
    request.developer = given;
  }
  number(object.optional("label_parts", "maker's parts of developer to one; usual when absent"),
         request.label_parts, {.low = 0, .high = kMostParts});
  number(object.optional("label_min", "processing time on the label; usual when absent"),
         request.label_min, {.low = 1, .high = kMostMinutes, .unit = "min"});
  number(object.required("minutes", "on the hair"), request.minutes,
         {.low = 0, .high = kMostMinutes, .unit = "min", .above_low = true});
  number(object.optional("temperature_c", "of the film"), request.temperature,
         {.low = 0, .high = 60, .unit = "°C"});
  number(object.optional("grams_per_gram_hair", "mix on each gram of hair"),
         request.grams_per_gram_hair, {.low = 0.05, .high = 20, .unit = "g/g"});
  number(object.optional("water_held_g_per_g", "water in damp hair, per gram of hair"),
         request.water_held_g_per_g, {.low = 0, .high = 5, .unit = "g/g"});
  object.optional("clean", "free of product and oil").flag(request.clean);
  object.optional("on_scalp", "the mix touches the scalp").flag(request.on_scalp);
  number(object.optional("every_min", "between two rows"), request.every,
         {.low = 0.1, .high = kMostMinutes, .unit = "min"});
  object.optional("members", "hypotheses; 1 means the most likely one")
      .whole(request.members, 1, kMostMembers);
  object.optional("seed", "of the draws").whole(request.seed, 0, kMostSeed);
}

void describe(Object& object, DepositRow& row) {
  number(object.required("minute", "when it is rinsed"), row.minute, {.unit = "min"});
  triple(object.required("lab", "[L, a, b], mean, daylight, 10 degrees"), row.lab);
  triple(object.required("lab_low", "mean of the members nearest the 10 % of L"), row.lab_low);
  triple(object.required("lab_high", "mean of the members nearest the 90 % of L"), row.lab_high);
  number(object.required("level", "of the mean"), row.level);
  number(object.required("level_low", "10 % quantile"), row.level_low);
  number(object.required("level_high", "90 % quantile"), row.level_high);
  number(object.required("taken", "share of a full reference application"), row.taken);
  number(object.required("wear", "share of cystine, 0 to 1"), row.wear);
  object.required("words", "for reading").text(row.words, kMostText);
}

void describe(Object& object, DepositAnswer& answer) {
  objects(object.required("series", "minute by minute"), answer.series, {0, kMostRows});
  object.required("bowl", "what the ready mix holds").object([&](Object& inner) {
    describe(inner, answer.bowl);
  });
  describe_found(object, answer.found);
}

}  // namespace hw::wire
