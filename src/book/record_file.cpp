#include "huewright/book/record_file.h"

#include <array>

#include "describe_parts.h"
#include "huewright/book/ids.h"
#include "huewright/book/shelf_facts.h"

namespace hw::book {
namespace {

constexpr std::size_t kMostFacts = 1000;  // of one file; house rule
constexpr std::size_t kMostVisits = 500;  // of one card; house rule

struct Entry {
  wire::SchemaEntry entry;
  void (*fields)(wire::Object&);
};

template <class Message>
void fields_of(wire::Object& object) {
  Message message{};
  describe(object, message);
}

constexpr std::array kAll{
    Entry{{"person", "A client, for client add"}, fields_of<PersonFact>},
    Entry{{"record", "Facts of one client, visit or product"}, fields_of<RecordFile>},
    Entry{{"card", "A paper card, for client card"}, fields_of<CardFile>},
    Entry{{"booking", "A visit to be made, for visit book"}, fields_of<BookedFact>},
    Entry{{"fact", "A line of an exported book"}, fields_of<Fact>},
    Entry{{"product", "A product of the shelf, for shelf add"}, fields_of<ProductFact>},
};

}  // namespace

void describe(wire::Object& object, GivenFact& given) {
  Fact& fact = given.fact;
  may_text(object, "id", "made once by whoever writes the fact", fact.id, kMostName);
  may_moment(object, "at", "when it happened; left out: now", fact.at);
  may_text(object, "by", "who says so", fact.by, kMostName);
  may_text(object, "amends", "id of the fact it replaces", fact.amends, kMostName);
  describe_body(object, fact);
}

void describe(wire::Object& object, RecordFile& file) {
  wire::objects(object.required("facts", "in the order in which they happened"), file.facts,
                {1, kMostFacts});
}

void describe(wire::Object& object, CardVisit& visit) {
  must_moment(object, "starts_at", "when it was", visit.starts_at);
  may_text(object, "wish", "what was wished for", visit.wish);
  wire::objects(object.optional("facts", "what the card says of it"), visit.facts, {0, kMostFacts});
}

void describe(wire::Object& object, CardFile& file) {
  object.required("client", "who").object([&](wire::Object& person) {
    describe(person, file.person);
  });
  wire::objects(object.optional("facts", "what the card says of the client"), file.facts,
                {0, kMostFacts});
  wire::objects(object.optional("visits", "oldest first"), file.visits, {0, kMostVisits});
}

std::vector<Fact> filled(std::span<const GivenFact> given, const std::string& subject,
                         const Hand& hand) {
  std::vector<Fact> facts;
  for (const GivenFact& one : given) {
    Fact fact = one.fact;
    fact.subject = subject;
    if (fact.id.empty()) fact.id = new_id();
    if (fact.at.empty()) fact.at = hand.at;
    if (fact.by.empty()) fact.by = hand.by;
    facts.push_back(std::move(fact));
  }
  return facts;
}

std::vector<Fact> facts_of_card(const CardFile& card, const std::string& client, const Hand& hand) {
  std::vector<Fact> all{make_fact(new_id(), client, hand.at, hand.by, card.person)};
  const auto add = [&](const std::vector<Fact>& facts) {
    all.insert(all.end(), facts.begin(), facts.end());
  };
  add(filled(card.facts, client, hand));
  for (const CardVisit& visit : card.visits) {
    const std::string id = new_id();
    const Hand then{hand.by, visit.starts_at};
    BookedFact booked;
    booked.client = client;
    booked.starts_at = visit.starts_at;
    booked.wish = visit.wish;
    booked.from_card = "yes";
    all.push_back(make_fact(new_id(), id, then.at, then.by, booked));
    add(filled(visit.facts, id, then));
    all.push_back(make_fact(new_id(), id, then.at, then.by, FinishedFact{}));
  }
  return all;
}

std::span<const wire::SchemaEntry> schemas() {
  static const auto list = [] {
    std::array<wire::SchemaEntry, kAll.size()> entries;
    for (std::size_t i = 0; i < entries.size(); ++i) entries[i] = kAll[i].entry;
    return entries;
  }();
  return list;
}

Result<std::string> schema_text(std::string_view name) {
  std::string names;
  for (const auto& [entry, fields] : kAll) {
    if (entry.name == name) return wire::schema_of(entry.name, entry.title, fields);
    names += (names.empty() ? "" : ", ") + std::string(entry.name);
  }
  return fail(ErrorCode::unknown_name, "no input of the book is called " + std::string(name),
              "schema", "give one of " + names);
}

}  // namespace hw::book
