// What is done to a whole book: erasing a person, making the lists anew, looking everything
// through.
#include <array>

#include "huewright/book/client_facts.h"
#include "huewright/book/store.h"
#include "huewright/book/visit_facts.h"
#include "lists.h"

namespace hw::book {
namespace {

Result<void> run(Sql& sql, std::string_view statement, std::initializer_list<Cell> arguments) {
  const auto rows = sql.run(statement, std::span(arguments.begin(), arguments.size()));
  if (!rows) return tl::unexpected(rows.error());
  return {};
}

/// What accounts and the shelf need of a fact when the person is gone; empty: nothing.
std::string without_person(const Fact& fact) {
  if (fact.kind == PriceFact::kKind)
    return wire::encode(PriceFact{.money = body_of<PriceFact>(fact).money, .how = {}});
  if (fact.kind == PaymentFact::kKind) return fact.body;  // money and fixed words alone
  if (fact.kind == PourFact::kKind) {
    const auto pour = body_of<PourFact>(fact);
    return wire::encode(PourFact{"bowl", pour.product, {}, pour.grams});
  }
  if (fact.kind == LeftoverFact::kKind) {
    const auto left = body_of<LeftoverFact>(fact);
    return wire::encode(LeftoverFact{"bowl", left.product, left.grams});
  }
  if (fact.kind == BookedFact::kKind) {
    const auto booked = body_of<BookedFact>(fact);
    return wire::encode(BookedFact{.client = booked.client,
                                   .starts_at = booked.starts_at,
                                   .minutes = booked.minutes,
                                   .chair = {},
                                   .wish = {},
                                   .from_card = {}});
  }
  if (fact.kind == EnquiryFact::kKind) {
    // Where nothing was booked it alone makes the visit that a deposit belongs to.
    return wire::encode(EnquiryFact{body_of<EnquiryFact>(fact).client, "erased"});
  }
  if (fact.kind == FinishedFact::kKind) return wire::encode(FinishedFact{});
  if (fact.kind == CancelledFact::kKind) return wire::encode(CancelledFact{});
  return {};
}

Result<void> erase_fact(Sql& sql, Fact fact) {
  const std::string kept = without_person(fact);
  if (!kept.empty()) {
    fact.body = kept;
    return run(sql, "UPDATE fact SET body = $2, sum = $3 WHERE id = $1",
               {fact.id, kept, sum_of(fact)});
  }
  if (auto out = run(sql, "DELETE FROM fact WHERE id = $1", {fact.id}); !out) return out;
  return run(sql, "INSERT INTO gone(id) VALUES($1)", {fact.id});
}

/// That a fact may erase: it amends nothing, and its id is its own.
Result<void> check_erasing(Sql& sql, const Fact& erased) {
  if (!erased.amends.empty()) {
    return fail(ErrorCode::conflict, "an erasure amends no other fact", "amends", "leave it out");
  }
  const auto known = sql.run("SELECT 1 FROM fact WHERE id = $1", std::array<Cell, 1>{erased.id});
  if (!known) return tl::unexpected(known.error());
  if (known->empty()) return {};
  return fail(ErrorCode::conflict, "another fact has this id", "id", "make a new id for each fact");
}

/// Makes a client's visits again from what is left of their facts.
Result<void> list_visits_again(Store& store, const std::string& client,
                               std::span<const VisitLine> visits) {
  for (const std::string_view statement :
       {"DELETE FROM strip WHERE visit IN (SELECT id FROM visit WHERE client = $1)",
        "DELETE FROM visit WHERE client = $1"}) {
    if (auto out = run(store.sql(), statement, {client}); !out) return out;
  }
  for (const VisitLine& visit : visits) {
    const auto facts = store.facts_of(About::visit, visit.id);
    if (!facts) return tl::unexpected(facts.error());
    for (const Fact& fact : *facts) {
      if (auto listed = list_fact(store.sql(), fact); !listed) return listed;
    }
  }
  return {};
}

/// A list as one text, to hold it against itself made anew.
Result<std::string> picture(Sql& sql, std::string_view statement) {
  const auto rows = sql.run(statement, {});
  if (!rows) return tl::unexpected(rows.error());
  std::string text;
  for (const Row& row : *rows) {
    for (const Cell& cell : row) {
      const auto* number = std::get_if<double>(&cell);
      const auto* whole = std::get_if<std::int64_t>(&cell);
      text += number != nullptr  ? std::to_string(*number)
              : whole != nullptr ? std::to_string(*whole)
                                 : text_of(cell);
      text += '\x1f';
    }
    text += '\n';
  }
  return text;
}

struct ListName {
  std::string_view name, statement;
};
constexpr std::array kLists{
    ListName{"client", "SELECT * FROM client ORDER BY id"},
    ListName{"client_word", "SELECT * FROM client_word ORDER BY word, client"},
    ListName{"visit", "SELECT * FROM visit ORDER BY id"},
    ListName{"product", "SELECT * FROM product ORDER BY id"},
    ListName{"movement", "SELECT * FROM movement ORDER BY fact"},
    ListName{"strip", "SELECT * FROM strip ORDER BY visit"},
};

/// Facts that checked() would not pass as they stand.
Result<void> examine_facts(Sql& sql, Findings& findings, const std::stop_token& stop) {
  constexpr std::int64_t kPage = 500;  // of up to 100 kB each
  std::int64_t place = 0;
  while (!stop.stop_requested()) {
    const auto rows =
        sql.run("SELECT " HW_FACT_COLUMNS " FROM fact WHERE place > $1 ORDER BY place LIMIT $2",
                std::array<Cell, 2>{place, kPage});
    if (!rows) return tl::unexpected(rows.error());
    if (rows->empty()) return {};
    for (const Row& row : *rows) {
      const Fact fact = fact_from(row);
      const auto good = checked(fact, "fact " + fact.id);
      if (!good) {
        findings.push_back(one_line(good.error()));
      } else if (text_of(row[8]) != sum_of(fact)) {
        findings.push_back("fact " + fact.id + ": it is not as it was written");
      }
    }
    place = whole_of(rows->back().front());
  }
  return {};
}

Result<void> examine_file(Sql& sql, Findings& findings) {
  if (sql.dialect() != Dialect::sqlite) return {};
  const auto rows = sql.run("PRAGMA integrity_check", {});
  if (!rows) return tl::unexpected(rows.error());
  for (const Row& row : *rows) {
    if (text_of(row[0]) != "ok") findings.push_back("file: " + text_of(row[0]));
  }
  return {};
}

/// Holds every list against itself made anew, and puts nothing on disk.
Result<void> examine_lists(Store& store, Findings& findings) {
  Sql& sql = store.sql();
  if (auto begun = sql.begin(true); !begun) return begun;
  auto done = [&]() -> Result<void> {
    std::vector<std::string> before;
    for (const ListName& list : kLists) {
      auto text = picture(sql, list.statement);
      if (!text) return tl::unexpected(text.error());
      before.push_back(*std::move(text));
    }
    if (auto made = list_all(store); !made) return made;
    for (std::size_t i = 0; i < kLists.size(); ++i) {
      const auto text = picture(sql, kLists[i].statement);
      if (!text) return tl::unexpected(text.error());
      if (*text != before[i]) {
        findings.push_back("list " + std::string(kLists[i].name) +
                           ": does not say what the facts say; doctor --mend makes it again");
      }
    }
    return {};
  }();
  sql.rollback();
  return done;
}

/// Empties the log beside the file, which holds pages as they were. Whoever reads is waited for, as
/// long as the connection waits for a writer, a few times over.
Result<void> empty_log(Sql& sql) {
  constexpr int kTimes = 6;
  for (int i = 0; i < kTimes; ++i) {
    const auto rows = sql.run("PRAGMA wal_checkpoint(TRUNCATE)", {});
    if (!rows) return tl::unexpected(rows.error());
    const bool busy = !rows->empty() && whole_of(rows->front().front()) != 0;
    if (!busy) return {};
  }
  return fail(ErrorCode::io, "was erased from the book, but its log could not be emptied yet",
              sql.place(), "close every program that reads the book: the last one empties it");
}

}  // namespace

Result<void> list_all(Store& store) {
  constexpr std::size_t kPage = 5000;
  if (auto cleared = clear_lists(store.sql()); !cleared) return cleared;
  std::int64_t place = 0;
  for (;;) {
    const auto facts = store.facts_after(place, kPage);
    if (!facts) return tl::unexpected(facts.error());
    if (facts->empty()) return {};
    for (const Fact& fact : *facts) {
      if (auto listed = list_fact(store.sql(), fact); !listed) return listed;
    }
    place = facts->back().place;
  }
}

Result<void> Store::rebuild() {
  return in_transaction(*sql_, true, [&] { return list_all(*this); });
}

Result<Findings> examine_reading(Sql& sql, const std::stop_token& stop) {
  Findings findings;
  auto done = examine_file(sql, findings);
  // A damaged file's rows say nothing.
  if (done && findings.empty()) done = examine_facts(sql, findings, stop);
  if (done || stop.stop_requested()) return findings;
  return tl::unexpected(done.error());
}

Result<Findings> Store::examine() {
  auto findings = examine_reading(*sql_);
  if (!findings || !findings->empty()) return findings;
  if (auto lists = examine_lists(*this, *findings); !lists) return tl::unexpected(lists.error());
  return findings;
}

Result<void> Store::erase_client(std::string_view client_id, const Fact& erased) {
  const auto known = client(client_id);
  if (!known) return tl::unexpected(known.error());
  const auto good = checked(erased);
  if (!good) return tl::unexpected(good.error());
  if (sql_->dialect() == Dialect::sqlite) {
    // What is deleted is written over, so that no free page keeps it.
    if (auto set = sql_->script("PRAGMA secure_delete=ON"); !set) return set;
  }
  auto done = in_transaction(*sql_, true, [&]() -> Result<void> {
    if (auto may = check_erasing(*sql_, *good); !may) return may;
    std::vector<Fact> all;
    auto facts = facts_of(About::client, client_id);
    if (!facts) return tl::unexpected(facts.error());
    all = *std::move(facts);
    const auto visits = visits_of(client_id);
    if (!visits) return tl::unexpected(visits.error());
    for (const VisitLine& visit : *visits) {
      const auto of_visit = facts_of(About::visit, visit.id);
      if (!of_visit) return tl::unexpected(of_visit.error());
      all.insert(all.end(), of_visit->begin(), of_visit->end());
    }
    for (const Fact& fact : all) {
      if (auto gone = erase_fact(*sql_, fact); !gone) return gone;
    }
    auto put =
        run(*sql_,
            "INSERT INTO fact(id, about, subject, kind, happened, told_by, amends,"
            " body, sum) VALUES($1, 'client', $2, $3, $4, $5, '', $6, $7)",
            {good->id, good->subject, good->kind, good->at, good->by, good->body, sum_of(*good)});
    if (!put) return put;
    if (auto again = list_visits_again(*this, known->id, *visits); !again) return again;
    return list_fact(*sql_, *good);
  });
  if (!done || sql_->dialect() != Dialect::sqlite) return done;
  if (auto small = sql_->script("VACUUM"); !small) return small;
  return empty_log(*sql_);
}

}  // namespace hw::book
