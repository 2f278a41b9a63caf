#include "huewright/wire/bowl.h"

#include "huewright/process/rules.h"

namespace hw::wire {

void describe(Object& object, process::Part& part) {
  using enum process::PartKind;
  static constexpr std::array kKinds{lightener, developer, shampoo, conditioner, water,
                                     colour,    treatment, remover, chelator};
  static const auto kind_words = [] {
    std::array<std::string_view, kKinds.size()> names;
    for (std::size_t i = 0; i < names.size(); ++i) names[i] = process::name_of(kKinds[i]);
    return names;
  }();
  word(object.required("kind", "what it is"), part.kind, kKinds, kind_words);
  number(object.required("grams", "mass poured in"), part.grams,
         {.low = 0, .high = process::kMaxPartGrams, .unit = "g", .above_low = true});
  number(object.optional("peroxide_percent",
                         "hydrogen peroxide by mass; a developer must say it, a colour may"),
         part.peroxide, {.low = 0, .high = 100, .unit = "%"});
  object.optional("for_scalp", "of a lightener: its label allows the scalp").flag(part.for_scalp);
}

void describe(Object& object, process::Refusal& refusal) {
  using enum process::RefusalKind;
  static constexpr std::array kKinds{never, not_until, caution};
  static constexpr std::array<std::string_view, 3> kWords{"never", "not_until", "caution"};
  constexpr std::size_t kMostText = 10000;  // bytes; answers are never longer
  object.required("id", "the rule's own name").text(refusal.id, kMostText);
  word(object.required("kind", "how it holds"), refusal.kind, kKinds, kWords);
  object.required("text", "a sentence for the colourist").text(refusal.text, kMostText);
  object.required("source", "law, paper or habit it stands on").text(refusal.source, kMostText);
}

Findings parted(const std::vector<process::Refusal>& raised) {
  Findings found;
  for (const auto& one : raised) {
    (one.kind == process::RefusalKind::caution ? found.cautions : found.refusals).push_back(one);
  }
  return found;
}

Result<BowlAnswer> answer(const BowlRequest& request, const std::string& where) {
  const auto mix = process::mix_bowl(request.bowl, where);
  if (!mix) return tl::unexpected(mix.error());
  return BowlAnswer{mix->grams.value(), mix->peroxide.value(), mix->volume, mix->powder.value(),
                    parted(process::check_bowl(request.bowl, *mix))};
}

void describe_parts(Object& object, process::Bowl& bowl) {
  constexpr std::size_t kMostParts = 50;  // more than any bowl holds; house rule, no source
  objects(object.required("parts", "what was poured in, in any order"), bowl.parts,
          {1, kMostParts});
}

void describe_on_scalp(Object& object, process::Bowl& bowl) {
  object.optional("on_scalp", "the mix touches the scalp").flag(bowl.on_scalp);
}

void describe(Object& object, BowlRequest& request) {
  describe_parts(object, request.bowl);
  describe_on_scalp(object, request.bowl);
}

void describe_found(Object& object, Findings& found) {
  constexpr CountRule kAny{0, 1000};
  objects(object.required("refusals", "what stops this"), found.refusals, kAny);
  objects(object.required("cautions", "what is to be acknowledged"), found.cautions, kAny);
}

void describe(Object& object, BowlAnswer& answer) {
  number(object.required("grams", "whole mass"), answer.grams, {.unit = "g"});
  number(object.required("peroxide_percent", "of the ready mix, by mass"), answer.peroxide_percent,
         {.unit = "%"});
  number(object.required("volume", "strength as labels count it: per cent × 10/3"), answer.volume);
  number(object.required("powder_percent", "lightener in the ready mix"), answer.powder_percent,
         {.unit = "%"});
  describe_found(object, answer.found);
}

}  // namespace hw::wire
