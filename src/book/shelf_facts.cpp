#include "huewright/book/shelf_facts.h"

#include "describe_parts.h"
#include "huewright/wire/case_file.h"

namespace hw::book {
namespace {

constexpr std::array<std::string_view, 5> kWhys{"bought", "returned", "spoilt", "sold", "used up"};
constexpr std::array<std::string_view, 2> kWarmths{"natural", "warm"};
constexpr std::uint64_t kMostSeed =
    9007199254740991;              // 2^53 - 1: what a number in JSON holds exactly
constexpr double kMostDays = 365;  // house rule: more is a slip of the pen

}  // namespace

void describe(wire::Object& object, ProductFact& fact) {
  object.required("product", "its chemistry, as in a shelf file").object([&](wire::Object& inner) {
    describe(inner, fact.product);
  });
  wire::number(object.optional("size_g", "content of one"), fact.size_g,
               {.low = 0, .high = kMostGrams, .unit = "g"});
  wire::number(object.optional("price", "of one, in the salon's currency"), fact.price,
               {.low = 0, .high = kMostMoney});
  wire::number(object.optional("lead_days", "from ordering to the shelf"), fact.lead_days,
               {.low = 0, .high = kMostDays, .unit = "d"});
  wire::number(object.optional("order_cost", "of one order, whatever is in it"), fact.order_cost,
               {.low = 0, .high = kMostMoney});
}

void describe(wire::Object& object, MovementFact& fact) {
  wire::number(object.required("grams", "in; below 0: out"), fact.grams,
               {.low = -kMostGrams, .high = kMostGrams, .unit = "g"});
  must_word(object, "why", "how", fact.why, kWhys);
  may_text(object, "lot", "printed on it", fact.lot);
}

void describe(wire::Object& object, OpenedFact& fact) {
  may_text(object, "lot", "printed on it", fact.lot);
}

void describe(wire::Object& object, CountFact& fact) {
  wire::number(object.required("grams", "found by weighing"), fact.grams,
               {.low = 0, .high = kMostGrams, .unit = "g"});
}

void describe(wire::Object& object, LearnedFact& fact) {
  wire::number(object.required("version", "of the model that learned"), fact.version,
               {.low = 1, .high = kMostDays});
  must_text(object, "factors", "what was learned, as JSON", fact.factors_json, kMostLong);
}

void describe(wire::Object& object, DrillFact& fact) {
  must_text(object, "reader", "who read it", fact.reader, kMostName);
  object.required("seed", "of the strand").whole(fact.seed, 0, kMostSeed);
  const wire::NumberRule level{.low = 1, .high = 10};
  wire::number(object.required("level", "that was shown"), fact.level, level);
  must_word(object, "warmth", "that was shown", fact.warmth, kWarmths);
  wire::number(object.required("strand_um", "that was shown"), fact.strand_um,
               {.low = 20, .high = 180, .unit = "um"});
  wire::number(object.required("answer", "level that was read"), fact.answer, level);
  may_word(object, "answer_warmth", "that was read", fact.answer_warmth, kWarmths);
}

}  // namespace hw::book
