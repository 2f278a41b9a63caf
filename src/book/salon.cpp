#include "huewright/book/salon.h"

#include <algorithm>

#include "describe_parts.h"
#include "huewright/wire/case_file.h"

namespace hw::book {
namespace {

constexpr std::size_t kMostPeople = 60;  // house rule
constexpr std::string_view kCurrency = "^[A-Z]{3}$";

}  // namespace

void describe(wire::Object& object, SalonFact& fact) {
  may_text(object, "name", "of the salon", fact.name, kMostName);
  object.optional("currency", "ISO 4217, such as EUR")
      .formatted(
          fact.currency, kCurrency,
          [&](std::string_view given) -> Result<void> {
            const auto capital = [](char c) { return c >= 'A' && c <= 'Z'; };
            if (given.size() != 3 || !std::ranges::all_of(given, capital)) {
              return fail(ErrorCode::malformed, "is no currency", {},
                          "give three capital letters, such as EUR");
            }
            fact.currency = std::string(given);
            return {};
          },
          3);
  wire::texts(object.optional("people", "who writes in the book"), fact.people, {0, kMostPeople},
              kMostName);
  wire::texts(object.optional("chairs", "what its places are called"), fact.chairs,
              {0, kMostPeople}, kMostName);
  may_text(object, "emergency_number", "dialled when a client cannot breathe",
           fact.emergency_number, kMostName);
  object.optional("salon", "hands, scale and prices, as in a case")
      .object([&](wire::Object& inner) { describe(inner, fact.plan); });
}

Result<SalonFact> salon_of(Store& store) {
  const auto facts = store.facts_of(About::salon, kSalonSubject);
  if (!facts) return tl::unexpected(facts.error());
  SalonFact salon;
  for (const Fact& fact : in_force(*facts)) {
    if (fact.kind == SalonFact::kKind) salon = body_of<SalonFact>(fact);
  }
  return salon;
}

}  // namespace hw::book
