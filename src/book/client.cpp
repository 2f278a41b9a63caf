#include "huewright/book/client.h"

#include <algorithm>

namespace hw::book {
namespace {

template <class Body>
void add(std::vector<Dated<Body>>& list, const Fact& fact) {
  list.push_back({fact.at, fact.by, fact.id, body_of<Body>(fact)});
}

bool reacted_to(const ClientState& client, std::string_view what) {
  return std::ranges::any_of(client.allergies,
                             [&](const auto& allergy) { return allergy.body.to == what; });
}

}  // namespace

ClientState client_of(std::span<const Fact> facts) {
  ClientState client;
  for (const Fact& fact : in_force(facts)) {
    client.id = fact.subject;
    if (fact.kind == PersonFact::kKind) client.person = body_of<PersonFact>(fact);
    if (fact.kind == SkinTestFact::kKind) add(client.skin_tests, fact);
    if (fact.kind == HairTestFact::kKind) add(client.hair_tests, fact);
    if (fact.kind == AllergyFact::kKind) add(client.allergies, fact);
    if (fact.kind == HairPastFact::kKind) add(client.hair_past, fact);
    if (fact.kind == ErasedFact::kKind) client.erased = true;
    if (fact.kind == ConsentFact::kKind) {
      const auto body = body_of<ConsentFact>(fact);
      std::erase_if(client.consents,
                    [&](const auto& old) { return old.body.purpose == body.purpose; });
      add(client.consents, fact);
    }
  }
  return client;
}

std::string consent_for(const ClientState& client, std::string_view purpose) {
  for (const auto& consent : client.consents) {
    if (consent.body.purpose == purpose) return consent.body.answer;
  }
  return {};
}

process::Person person_of(const ClientState& client, process::Person before) {
  before.past_reaction_to_dye = before.past_reaction_to_dye || reacted_to(client, "hair dye");
  before.black_tattoo_reaction =
      before.black_tattoo_reaction || reacted_to(client, "black temporary tattoo");
  before.lightener_reaction = before.lightener_reaction || reacted_to(client, "lightener");
  const std::string answer = consent_for(client, "service");
  if (answer == "given") before.consent = process::Consent::given;
  if (answer == "refused" || answer == "withdrawn") before.consent = process::Consent::refused;
  return before;
}

}  // namespace hw::book
