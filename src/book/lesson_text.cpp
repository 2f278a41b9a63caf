// A lesson and what was learned, as JSON.
#include <array>

#include "describe_parts.h"
#include "huewright/book/lessons.h"

// describe() of a list's entries is found through their types.
namespace hw::plan {
namespace {

constexpr double kFar = 1e6;  // house rule: a slope beyond this is none

void number(wire::Object& object, std::string_view key, std::string_view what, double& value) {
  wire::number(object.required(key, what), value, {.low = -kFar, .high = kFar});
}

void text(wire::Object& object, std::string_view key, std::string_view what, std::string& value) {
  book::may_text(object, key, what, value);
}

void belief(wire::Object& object, std::string_view key, std::string_view what,
            NormalBelief& value) {
  object.required(key, what).object([&](wire::Object& inner) {
    number(inner, "mean", "", value.mean);
    wire::number(inner.required("sd", ""), value.sd, {.low = 0, .high = kFar});
  });
}

}  // namespace

void describe(wire::Object& object, FactReading& reading) {
  number(object, "expected_level", "as this reader sees it", reading.expected_level);
  number(object, "found_level", "what was read", reading.found_level);
  number(object, "per_ln_rate", "levels for one ln of rate", reading.per_ln_rate);
  number(object, "per_bias", "levels for one of the reader's bias", reading.per_bias);
  number(object, "per_wet_look", "levels for one sd of the wet look", reading.per_wet_look);
  text(object, "zone", "whose own pigment is learned", reading.zone);
  number(object, "per_ln_pigment", "levels for one ln of it", reading.per_ln_pigment);
  number(object, "used_ln_pigment", "it was expected with", reading.used_ln_pigment);
  number(object, "per_rest", "levels for one sd of the rest", reading.per_rest);
  text(object, "reader", "who read it", reading.reader);
}

void describe(wire::Object& object, VisitFact& fact) {
  text(object, "visit", "id", fact.id);
  text(object, "client", "id", fact.client);
  text(object, "salon", "id", fact.salon);
  text(object, "reader", "who read the zones", fact.reader);
  belief(object, "ln_rate", "it was planned with", fact.ln_rate);
  belief(object, "bias", "it was planned with", fact.bias);
  belief(object, "wet_look", "it was planned with", fact.wet_look);
  constexpr std::size_t kMostReadings = 500;  // of one visit; house rule
  wire::objects(object.required("readings", "in order"), fact.readings, {0, kMostReadings});
  wire::numbers(object.required("scatter", "covariance of the rest, levels², row by row"),
                fact.scatter, {0, kMostReadings * kMostReadings}, {.low = -kFar, .high = kFar});
}

void describe(wire::Object& object, AmountFact& fact) {
  text(object, "visit", "id", fact.id);
  text(object, "salon", "id", fact.salon);
  const wire::NumberRule grams{.low = 0, .high = kFar, .unit = "g"};
  wire::number(object.required("reckoned_g", "by the plan"), fact.reckoned_g, grams);
  wire::number(object.required("used_g", "mixed less what was left"), fact.used_g, grams);
  wire::number(object.required("used_factor", "it was reckoned with"), fact.used_factor,
               {.low = 0, .high = kFar});
}

}  // namespace hw::plan

namespace hw::book {

void describe(wire::Object& object, LessonFact& fact) {
  wire::number(object.required("version", "of the model that learns"), fact.version,
               {.low = 1, .high = 1000});
  wire::objects(object.optional("visits", "lines of its readings"), fact.visits, {0, 10});
  wire::objects(object.optional("amounts", "grams reckoned and used"), fact.amounts, {0, 100});
}

std::string factors_json(const plan::Learned& learned) {
  static constexpr std::array<std::string_view, 8> kKinds{
      "salon_rate", "client_rate", "reader_bias",    "wet_look",
      "shade",      "amount",      "client_pigment", "client_rest"};
  return wire::encode_fields([&](wire::Object& object) {
    object.required("factors", "")
        .list(
            {0, learned.factors.size()}, learned.factors.size(), [](std::size_t) {},
            [&](std::size_t i, wire::Value& entry) {
              plan::Factor factor = learned.factors[i];
              entry.object([&](wire::Object& one) {
                auto kind = static_cast<std::size_t>(factor.kind);
                one.required("kind", "").word(kind, kKinds);
                one.required("name", "").text(factor.name, factor.name.size());
                wire::number(one.required("mean", ""), factor.learned.mean);
                wire::number(one.required("sd", ""), factor.learned.sd);
                auto facts = static_cast<double>(factor.facts);
                wire::number(one.required("facts", ""), facts);
                if (factor.practice > 0) {
                  auto practice = static_cast<double>(factor.practice);
                  wire::number(one.required("practice", ""), practice);
                }
                one.required("sentence", "").text(factor.sentence, factor.sentence.size());
              });
            });
  });
}

}  // namespace hw::book
