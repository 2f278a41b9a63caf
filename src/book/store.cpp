#include "huewright/book/store.h"

#include <array>

#include "huewright/book/client_facts.h"
#include "huewright/book/visit_facts.h"
#include "lists.h"
#include "migrations.h"
#include "sums.h"

namespace hw::book {
namespace {

using Texts = std::initializer_list<Cell>;

std::span<const Cell> cells(Texts arguments) {
  return {arguments.begin(), arguments.size()};
}

std::string path(std::size_t i, const char* key) {
  return "facts[" + std::to_string(i) + "]." + key;
}

/// Whether a statement of one argument gives any row.
Result<bool> holds(Sql& sql, std::string_view statement, const std::string& id) {
  const auto rows = sql.run(statement, std::array<Cell, 1>{id});
  if (!rows) return tl::unexpected(rows.error());
  return !rows->empty();
}

Result<void> must_hold(Sql& sql, std::string_view statement, const std::string& id,
                       const std::string& where, const std::string& what) {
  const auto known = holds(sql, statement, id);
  if (!known) return tl::unexpected(known.error());
  if (*known) return {};
  return fail(ErrorCode::unknown_name, "the book has no " + what + " \"" + id + "\"", where,
              "add the " + what + " first, or give the id of one that is there");
}

constexpr std::string_view kClient = "SELECT 1 FROM client WHERE id = $1";
constexpr std::string_view kVisit = "SELECT 1 FROM visit WHERE id = $1";
constexpr std::string_view kProduct = "SELECT 1 FROM product WHERE id = $1";

/// That a fact about a person finds one: nothing is told any more of who was erased, and only
/// Store::erase_client erases a person who is there.
Result<void> check_person(Sql& sql, const Fact& fact, std::size_t i) {
  const auto rows =
      sql.run("SELECT erased FROM client WHERE id = $1", std::array<Cell, 1>{fact.subject});
  if (!rows) return tl::unexpected(rows.error());
  const bool makes = fact.kind == PersonFact::kKind || fact.kind == ErasedFact::kKind;
  if (rows->empty() && makes) return {};
  if (rows->empty()) return must_hold(sql, kClient, fact.subject, path(i, "subject"), "client");
  if (whole_of(rows->front().front()) != 0) {
    return fail(ErrorCode::conflict, "this client was erased by law and stays so",
                path(i, "subject"), "add a client who comes again as a new one");
  }
  if (fact.kind != ErasedFact::kKind) return {};
  return fail(ErrorCode::conflict, "this client is in the book", path(i, "kind"),
              "erase them with: huewright client erase ID");
}

/// That whatever a fact names is there.
Result<void> check_names(Sql& sql, const Fact& fact, std::size_t i) {
  const std::string subject = path(i, "subject");
  const std::string body = path(i, "body");
  if (fact.kind == "product" || about(fact) == About::salon) return {};
  if (about(fact) == About::client) return check_person(sql, fact, i);
  if (fact.kind == BookedFact::kKind) {
    return must_hold(sql, kClient, body_of<BookedFact>(fact).client, body + ".client", "client");
  }
  if (fact.kind == EnquiryFact::kKind) {
    return must_hold(sql, kClient, body_of<EnquiryFact>(fact).client, body + ".client", "client");
  }
  if (about(fact) == About::product) {
    return must_hold(sql, kProduct, fact.subject, subject, "product");
  }
  if (auto visit = must_hold(sql, kVisit, fact.subject, subject, "visit"); !visit) return visit;
  if (fact.kind == PourFact::kKind) {
    return must_hold(sql, kProduct, body_of<PourFact>(fact).product, body + ".product", "product");
  }
  if (fact.kind == LeftoverFact::kKind) {
    const std::string product = body_of<LeftoverFact>(fact).product;
    if (!product.empty()) return must_hold(sql, kProduct, product, body + ".product", "product");
  }
  return {};
}

Result<void> check_amended(Sql& sql, const Fact& fact, std::size_t i) {
  if (fact.amends.empty()) return {};
  const auto rows =
      sql.run("SELECT 1 FROM fact WHERE id = $1 AND about = $2 AND subject = $3 AND kind = $4",
              cells({fact.amends, std::string(word_of(about(fact))), fact.subject, fact.kind}));
  if (!rows) return tl::unexpected(rows.error());
  if (!rows->empty()) return {};
  return fail(ErrorCode::unknown_name,
              "no " + fact.kind + " fact of this subject has the id \"" + fact.amends + "\"",
              path(i, "amends"), "give the id of the fact that was wrong");
}

/// One fact's writers take turns, so that a list is never made from half of what is known.
Result<void> take_turn(Sql& sql, const Fact& fact) {
  if (sql.dialect() == Dialect::sqlite) return {};  // one writer at a time as it is
  const auto turn = sql.run("SELECT pg_advisory_xact_lock(hashtextextended($1, 0))",
                            cells({std::string(word_of(about(fact))) + fact.subject}));
  if (!turn) return tl::unexpected(turn.error());
  return {};
}

/// The place of a fact that the book already holds; 0 where it does not.
Result<std::int64_t> known_place(Sql& sql, const Fact& fact, std::size_t i) {
  const auto rows = sql.run("SELECT " HW_FACT_COLUMNS " FROM fact WHERE id = $1", cells({fact.id}));
  if (!rows) return tl::unexpected(rows.error());
  if (!rows->empty()) {
    Fact there = fact_from(rows->front());
    const std::int64_t place = there.place;
    there.place = fact.place;
    if (there == fact) return place;
    return fail(ErrorCode::conflict, "another fact has this id", path(i, "id"),
                "make a new id for each fact");
  }
  const auto gone = holds(sql, "SELECT 1 FROM gone WHERE id = $1", fact.id);
  if (!gone) return tl::unexpected(gone.error());
  if (*gone) {
    return fail(ErrorCode::conflict, "this fact was erased by law and stays so", path(i, "id"),
                "leave it out");
  }
  return 0;
}

Result<std::int64_t> store(Sql& sql, Fact fact, std::size_t i) {
  if (auto turn = take_turn(sql, fact); !turn) return tl::unexpected(turn.error());
  auto known = known_place(sql, fact, i);
  if (!known || *known > 0) return known;
  if (auto names = check_names(sql, fact, i); !names) return tl::unexpected(names.error());
  if (auto amended = check_amended(sql, fact, i); !amended) {
    return tl::unexpected(amended.error());
  }
  const auto rows = sql.run(
      "INSERT INTO fact(id, about, subject, kind, happened, told_by, amends, body, sum)"
      " VALUES($1, $2, $3, $4, $5, $6, $7, $8, $9) ON CONFLICT(id) DO NOTHING RETURNING place",
      cells({fact.id, std::string(word_of(about(fact))), fact.subject, fact.kind, fact.at, fact.by,
             fact.amends, fact.body, sum_of(fact)}));
  if (!rows) return tl::unexpected(rows.error());
  if (rows->empty()) return known_place(sql, fact, i);  // another branch was quicker
  fact.place = whole_of(rows->front().front());
  if (auto listed = list_fact(sql, fact); !listed) return tl::unexpected(listed.error());
  return fact.place;
}

VisitLine visit_from(const Row& row) {
  return {text_of(row[0]), text_of(row[1]), text_of(row[2]),
          static_cast<VisitStage>(whole_of(row[3]))};
}

ClientLine client_from(const Row& row) {
  return {text_of(row[0]), text_of(row[1]), text_of(row[2]), whole_of(row[3]) != 0};
}

template <class Line, class Make>
Result<std::vector<Line>> lines(const Result<std::vector<Row>>& rows, Make make) {
  if (!rows) return tl::unexpected(rows.error());
  std::vector<Line> all;
  all.reserve(rows->size());
  for (const Row& row : *rows) all.push_back(make(row));
  return all;
}

}  // namespace

std::string_view word_of(VisitStage stage) {
  constexpr std::array<std::string_view, 5> kWords{"asked", "booked", "under way", "finished",
                                                   "cancelled"};
  return kWords[static_cast<std::size_t>(stage)];
}

Result<std::unique_ptr<Store>> Store::open(std::unique_ptr<Sql> sql) {
  if (auto ready = migrate(*sql); !ready) return tl::unexpected(ready.error());
  return std::unique_ptr<Store>(new Store(std::move(sql)));
}

Result<std::vector<std::int64_t>> Store::append(std::span<const Fact> facts) {
  std::vector<Fact> good;
  for (std::size_t i = 0; i < facts.size(); ++i) {
    auto fact = checked(facts[i], "facts[" + std::to_string(i) + "]");
    if (!fact) return tl::unexpected(fact.error());
    good.push_back(*std::move(fact));
  }
  std::vector<std::int64_t> places;
  const auto done = in_transaction(*sql_, true, [&]() -> Result<void> {
    for (std::size_t i = 0; i < good.size(); ++i) {
      const auto place = store(*sql_, good[i], i);
      if (!place) return tl::unexpected(place.error());
      places.push_back(*place);
    }
    return {};
  });
  if (!done) return tl::unexpected(done.error());
  return places;
}

Result<std::vector<Fact>> Store::facts_of(About about, std::string_view subject) {
  return facts_from(sql_->run("SELECT " HW_FACT_COLUMNS
                              " FROM fact WHERE about = $1 AND subject = $2 ORDER BY place",
                              cells({std::string(word_of(about)), std::string(subject)})));
}

Result<std::vector<Fact>> Store::facts_but_plans(std::string_view visit) {
  return facts_from(sql_->run("SELECT " HW_FACT_COLUMNS
                              " FROM fact WHERE about = 'visit' AND subject = $1"
                              " AND kind <> 'plan' ORDER BY place",
                              cells({std::string(visit)})));
}

Result<std::vector<Fact>> Store::facts_after(std::int64_t place, std::size_t most) {
  return facts_from(sql_->run("SELECT " HW_FACT_COLUMNS
                              " FROM fact WHERE place > $1 ORDER BY place LIMIT $2",
                              cells({place, static_cast<std::int64_t>(most)})));
}

Result<std::vector<Fact>> Store::latest_of(std::string_view kind, std::size_t most) {
  return facts_from(sql_->run("SELECT " HW_FACT_COLUMNS " FROM fact WHERE kind = $1 AND kind IN"
                              " ('lesson', 'learned') ORDER BY place DESC LIMIT $2",
                              cells({std::string(kind), static_cast<std::int64_t>(most)})));
}

Result<std::vector<Fact>> Store::latest_about(About about, std::string_view subject,
                                              std::size_t most) {
  return facts_from(sql_->run(
      "SELECT " HW_FACT_COLUMNS
      " FROM fact WHERE about = $1 AND subject = $2"
      " ORDER BY place DESC LIMIT $3",
      cells({std::string(word_of(about)), std::string(subject), static_cast<std::int64_t>(most)})));
}

Result<std::int64_t> Store::count_facts() {
  const auto rows = sql_->run("SELECT count(*) FROM fact", {});
  if (!rows) return tl::unexpected(rows.error());
  return whole_of(rows->front().front());
}

Result<ClientLine> Store::client(std::string_view id) {
  const auto rows = sql_->run("SELECT id, name, phone, erased FROM client WHERE id = $1",
                              cells({std::string(id)}));
  if (!rows) return tl::unexpected(rows.error());
  if (rows->empty()) {
    return fail(ErrorCode::unknown_name, "the book has no client \"" + std::string(id) + "\"",
                "client", "find the id with: huewright client find NAME");
  }
  return client_from(rows->front());
}

Result<std::vector<std::string>> Store::clients() {
  return lines<std::string>(sql_->run("SELECT id FROM client ORDER BY id", {}),
                            [](const Row& row) { return text_of(row[0]); });
}

Result<std::vector<VisitLine>> Store::visits_of(std::string_view client) {
  return lines<VisitLine>(sql_->run("SELECT id, client, starts, stage FROM visit WHERE client = $1"
                                    " ORDER BY starts DESC, id DESC",
                                    cells({std::string(client)})),
                          visit_from);
}

Result<std::map<std::string, Strip>> Store::strips_of(std::string_view client) {
  const auto rows = sql_->run(
      "SELECT s.visit, s.body FROM strip s JOIN visit v ON v.id = s.visit WHERE v.client = $1",
      cells({std::string(client)}));
  if (!rows) return tl::unexpected(rows.error());
  std::map<std::string, Strip> strips;
  for (const Row& row : *rows) {
    auto strip = wire::decode<Strip>(text_of(row[1]));
    if (!strip) {
      return fail(ErrorCode::io, "is not as it was written", "strip of visit " + text_of(row[0]),
                  "run doctor");
    }
    strips.emplace(text_of(row[0]), *std::move(strip));
  }
  return strips;
}

Result<std::vector<VisitLine>> Store::visits_between(std::string_view from, std::string_view to) {
  return lines<VisitLine>(
      sql_->run("SELECT id, client, starts, stage FROM visit WHERE starts >= $1 AND starts < $2"
                " ORDER BY starts, id",
                cells({std::string(from), std::string(to)})),
      visit_from);
}

Result<VisitLine> Store::visit(std::string_view id) {
  const auto rows = sql_->run("SELECT id, client, starts, stage FROM visit WHERE id = $1",
                              cells({std::string(id)}));
  if (!rows) return tl::unexpected(rows.error());
  if (rows->empty()) {
    return fail(ErrorCode::unknown_name, "the book has no visit \"" + std::string(id) + "\"",
                "visit", "list a client's visits with: huewright visit list CLIENT");
  }
  return visit_from(rows->front());
}

Result<std::vector<std::string>> Store::products() {
  return lines<std::string>(sql_->run("SELECT id FROM product ORDER BY id", {}),
                            [](const Row& row) { return text_of(row[0]); });
}

Result<std::vector<StockLine>> Store::stock() {
  // What was counted last, and everything that moved since.
  constexpr std::string_view kStock =
      "SELECT p.id, coalesce((SELECT sum(m.grams) FROM movement m WHERE m.product = p.id AND"
      " m.place >= coalesce((SELECT max(c.place) FROM movement c WHERE c.product = p.id AND"
      " c.counted = 1), 0)), 0.0), (SELECT count(*) FROM movement k WHERE k.product = p.id AND"
      " (k.counted = 1 OR (k.grams > 0 AND k.visit = ''))) FROM product p ORDER BY p.id";
  return lines<StockLine>(sql_->run(kStock, {}), [](const Row& row) {
    return StockLine{text_of(row[0]), tidy(number_of(row[1])), whole_of(row[2]) > 0};
  });
}

Result<std::vector<LedgerLine>> Store::ledger(std::string_view product) {
  return lines<LedgerLine>(
      sql_->run("SELECT fact, product, happened, why, visit, grams, counted FROM movement"
                " WHERE product = $1 ORDER BY place",
                cells({std::string(product)})),
      [](const Row& row) {
        return LedgerLine{text_of(row[0]), text_of(row[1]),   text_of(row[2]),      text_of(row[3]),
                          text_of(row[4]), number_of(row[5]), whole_of(row[6]) != 0};
      });
}

}  // namespace hw::book
