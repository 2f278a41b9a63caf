#include "tables.h"

#include <fmt/format.h>

#include <fstream>

#include "each_fact.h"
#include "huewright/book/files.h"
#include "huewright/book/next_case.h"
#include "huewright/book/visit.h"
#include "huewright/wire/csv.h"

namespace hw::book {
namespace {

using wire::csv_line;
using wire::csv_text;

std::string number_text(double number) {
  return fmt::format("{}", number);
}

/// A table on its way to disk; close() says whether all of it got there.
class Table {
 public:
  Table(const std::string& path, const std::vector<std::string>& heading)
      : path_(path), out_(path, std::ios::binary) {
    add(heading);
  }
  void add(const std::vector<std::string>& written) { out_ << csv_line(written); }
  Result<void> close() {
    out_.close();
    if (out_) return sync_path(path_);
    return fail(ErrorCode::io, "could not be written whole", path_, "see that the disk has room");
  }

 private:
  std::string path_;
  std::ofstream out_;
};

/// Facts, with their bodies as JSON: nothing of the book is left out of this one.
Result<void> write_facts(Store& store, const std::string& path, const std::string& client) {
  Table table(path, {"id", "about", "subject", "kind", "at", "by", "amends", "body"});
  const auto done = each_fact(store, client, [&](const Fact& fact) -> Result<void> {
    table.add({csv_text(fact.id), csv_text(word_of(about(fact))), csv_text(fact.subject),
               csv_text(fact.kind), csv_text(fact.at), csv_text(fact.by), csv_text(fact.amends),
               csv_text(fact.body)});
    return {};
  });
  return done ? table.close() : done;
}

Result<void> write_clients(Store& store, const std::string& path,
                           const std::vector<std::string>& clients) {
  Table table(path, {"id", "name", "phone", "email", "address", "language", "notes", "visits"});
  for (const std::string& id : clients) {
    const auto facts = store.facts_of(About::client, id);
    if (!facts) return tl::unexpected(facts.error());
    const auto visits = store.visits_of(id);
    if (!visits) return tl::unexpected(visits.error());
    const PersonFact person = client_of(*facts).person;
    table.add({csv_text(id), csv_text(person.name), csv_text(person.phone), csv_text(person.email),
               csv_text(person.address), csv_text(person.language), csv_text(person.notes),
               std::to_string(visits->size())});
  }
  return table.close();
}

Result<void> write_visits(Store& store, const std::string& path,
                          const std::vector<std::string>& clients) {
  Table table(path, {"id", "client", "starts_at", "stage", "minutes", "chair", "wish", "price",
                     "paid", "refresh_on", "regrowth_on"});
  for (const std::string& client : clients) {
    const auto lines = store.visits_of(client);
    if (!lines) return tl::unexpected(lines.error());
    for (const VisitLine& line : *lines) {
      const auto facts = store.facts_of(About::visit, line.id);
      if (!facts) return tl::unexpected(facts.error());
      const VisitState visit = visit_of(*facts);
      const AftercareFact after = visit.aftercare.value_or(AftercareFact{});
      table.add({csv_text(line.id), csv_text(line.client), csv_text(visit.booked.starts_at),
                 csv_text(word_of(line.stage)), number_text(visit.booked.minutes),
                 csv_text(visit.booked.chair), csv_text(visit.booked.wish),
                 visit.price ? number_text(*visit.price) : "", number_text(visit.paid),
                 csv_text(after.refresh_on), csv_text(after.regrowth_on)});
    }
  }
  return table.close();
}

Result<void> write_shelf(Store& store, const std::string& folder) {
  const auto shelf = shelf_of(store);
  if (!shelf) return tl::unexpected(shelf.error());
  Table table(folder + "/shelf.csv", {"product", "words", "size_g", "price", "grams"});
  Table moved(folder + "/movements.csv", {"product", "at", "why", "visit", "grams", "counted"});
  for (const OnShelf& on : *shelf) {
    const std::string& id = on.product.product.id;
    table.add({csv_text(id), csv_text(on.product.product.words), number_text(on.product.size_g),
               number_text(on.product.price), on.known ? number_text(on.grams) : ""});
    const auto ledger = store.ledger(id);
    if (!ledger) return tl::unexpected(ledger.error());
    for (const LedgerLine& line : *ledger) {
      moved.add({csv_text(id), csv_text(line.at), csv_text(line.why), csv_text(line.visit),
                 number_text(line.grams), line.counted ? "yes" : "no"});
    }
  }
  if (auto done = table.close(); !done) return done;
  return moved.close();
}

}  // namespace

Result<void> write_tables(Store& store, const std::string& folder, const std::string& client) {
  std::vector<std::string> clients{client};
  if (client.empty()) {
    auto all = store.clients();
    if (!all) return tl::unexpected(all.error());
    clients = *std::move(all);
  }
  if (auto done = write_facts(store, folder + "/facts.csv", client); !done) return done;
  if (auto done = write_clients(store, folder + "/clients.csv", clients); !done) return done;
  if (auto done = write_visits(store, folder + "/visits.csv", clients); !done) return done;
  return client.empty() ? write_shelf(store, folder) : Result<void>{};
}

}  // namespace hw::book
