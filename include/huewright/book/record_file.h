#pragma once
// Facts as a person or another program hands them in: ids, times and names that are left out are
// filled in when they are stored.
#include <functional>
#include <string>
#include <vector>

#include "huewright/book/client_facts.h"
#include "huewright/book/fact.h"
#include "huewright/book/visit_facts.h"

namespace hw::book {

/// {"kind", "id"?, "at"?, "by"?, "amends"?, "body": {…}}
struct GivenFact {
  Fact fact;  ///< what was left out is empty
};
/// {"facts": […]}: facts of one subject.
struct RecordFile {
  std::vector<GivenFact> facts;
};
/// One visit of a paper card: {"starts_at", "wish"?, "facts"?: […]}
struct CardVisit {
  std::string starts_at, wish;
  std::vector<GivenFact> facts;
};
/// A paper card: {"client": {…}, "facts"?: […], "visits"?: […]}
struct CardFile {
  PersonFact person;
  std::vector<GivenFact> facts;  ///< of the client
  std::vector<CardVisit> visits;
};

void describe(wire::Object& object, GivenFact& given);
void describe(wire::Object& object, RecordFile& file);
void describe(wire::Object& object, CardVisit& visit);
void describe(wire::Object& object, CardFile& file);

/// Who hands something in, and when.
struct Hand {
  std::string by;  ///< never empty
  std::string at;  ///< moment
};

/// The given facts as facts of one subject, all that was left out filled in.
[[nodiscard]] std::vector<Fact> filled(std::span<const GivenFact> given, const std::string& subject,
                                       const Hand& hand);
/// That all given facts are about one kind of subject. where: path of their list. Error: conflict,
/// by path, with the command that takes the fact.
[[nodiscard]] Result<void> must_be_about(std::span<const GivenFact> given, About about,
                                         const std::string& where);

/// A card's facts in order, and what the card calls each: "client", "visits[1].facts[0]".
struct CardFacts {
  std::vector<Fact> facts;
  std::vector<std::string> places;
};
/// The client, what is known of them, each visit with its booking, its facts at the visit's moment,
/// and its end. client: the new client's id. Error: as must_be_about.
[[nodiscard]] Result<CardFacts> facts_of_card(const CardFile& card, const std::string& client,
                                              const Hand& hand);

/// What an input calls its i-th fact, or a key of it: "subject", "body.grams"; empty: the fact.
using Place = std::function<std::string(std::size_t i, const std::string& key)>;
/// An error of Store::append with its path in the words of the input that the facts came from.
[[nodiscard]] Error in_input(Error error, const Place& place);

/// One input file of the book's commands.
[[nodiscard]] std::span<const wire::SchemaEntry> schemas();
/// The text of its schema. Error: unknown_name (lists the names).
[[nodiscard]] Result<std::string> schema_text(std::string_view name);

}  // namespace hw::book
