#pragma once
// What a client is now: a fold over the client's facts.
#include <span>
#include <string>
#include <vector>

#include "huewright/book/client_facts.h"
#include "huewright/process/moment.h"
#include "huewright/process/person.h"

namespace hw::book {

/// A body with the moment and the writer of its fact.
template <class Body>
struct Dated {
  std::string at, by, id;
  Body body;
};

struct ClientState {
  std::string id;
  PersonFact person;
  std::vector<Dated<SkinTestFact>> skin_tests;
  std::vector<Dated<HairTestFact>> hair_tests;
  std::vector<Dated<AllergyFact>> allergies;
  std::vector<Dated<ConsentFact>> consents;  ///< the last answer for each purpose
  std::vector<Dated<HairPastFact>> hair_past;
  bool erased = false;
};

/// facts: all of one client's, in the order of the book.
[[nodiscard]] ClientState client_of(std::span<const Fact> facts);

/// What the rules ask about this person, put over what an earlier case said: a reaction never goes
/// away, the answer about the service is the last one given.
[[nodiscard]] process::Person person_of(const ClientState& client, process::Person before);

/// The last answer for a purpose; empty: never asked.
[[nodiscard]] std::string consent_for(const ClientState& client, std::string_view purpose);

}  // namespace hw::book
