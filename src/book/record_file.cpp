#include "huewright/book/record_file.h"

#include <array>
#include <charconv>

#include "describe_parts.h"
#include "huewright/base/error_part.h"
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

/// How a fact that is not about what is recorded gets into the book.
std::string way_in(About about) {
  constexpr std::array<std::string_view, 3> kCommands{"client", "visit", "shelf"};
  if (about == About::salon) {
    return error_part("leave it out: huewright visit finish writes it");
  }
  return error_part("record it with: huewright " +
                    std::string(kCommands[static_cast<std::size_t>(about)]) + " record");
}

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

Result<void> must_be_about(std::span<const GivenFact> given, About about,
                           const std::string& where) {
  for (std::size_t i = 0; i < given.size(); ++i) {
    const About own = book::about(given[i].fact);
    if (own == about) continue;
    return fail(ErrorCode::conflict,
                "\"" + given[i].fact.kind + "\" tells of a " + std::string(word_of(own)) +
                    ", not of a " + std::string(word_of(about)),
                where + "[" + std::to_string(i) + "].kind", way_in(own));
  }
  return {};
}

Result<CardFacts> facts_of_card(const CardFile& card, const std::string& client, const Hand& hand) {
  CardFacts all;
  const auto put = [&](Fact fact, std::string place) {
    all.facts.push_back(std::move(fact));
    all.places.push_back(std::move(place));
  };
  const auto put_given = [&](std::span<const GivenFact> given, About about,
                             const std::string& subject, const Hand& then,
                             const std::string& where) -> Result<void> {
    if (auto fit = must_be_about(given, about, where); !fit) return fit;
    const auto facts = filled(given, subject, then);
    for (std::size_t i = 0; i < facts.size(); ++i) {
      put(facts[i], where + "[" + std::to_string(i) + "]");
    }
    return {};
  };
  put(make_fact(new_id(), client, hand.at, hand.by, card.person), "client");
  if (auto own = put_given(card.facts, About::client, client, hand, "facts"); !own) {
    return tl::unexpected(own.error());
  }
  for (std::size_t i = 0; i < card.visits.size(); ++i) {
    const CardVisit& visit = card.visits[i];
    const std::string where = "visits[" + std::to_string(i) + "]";
    const std::string id = new_id();
    const Hand then{hand.by, visit.starts_at};
    BookedFact booked;
    booked.client = client;
    booked.starts_at = visit.starts_at;
    booked.wish = visit.wish;
    booked.from_card = "yes";
    put(make_fact(new_id(), id, then.at, then.by, booked), where);
    if (auto own = put_given(visit.facts, About::visit, id, then, where + ".facts"); !own) {
      return tl::unexpected(own.error());
    }
    put(make_fact(new_id(), id, then.at, then.by, FinishedFact{}), where);
  }
  return all;
}

Error in_input(Error error, const Place& place) {
  constexpr std::string_view kFacts = "facts[";
  if (!error.where.starts_with(kFacts)) return error;
  std::size_t i = 0;
  const char* end = error.where.data() + error.where.size();
  const auto read = std::from_chars(error.where.data() + kFacts.size(), end, i);
  if (read.ec != std::errc() || read.ptr == end || *read.ptr != ']') return error;
  const std::string_view rest(read.ptr + 1, end);
  error.where = place(i, std::string(rest.starts_with('.') ? rest.substr(1) : rest));
  return error;
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
