#pragma once
// The book on disk: facts go in together or not at all, and come out in order. Beside them stand
// lists that can be made again from the facts: clients by any part of their name or phone, visits
// by client and by day, the ledger of the shelf. One store serves SQLite and PostgreSQL; only the
// schema differs.
#include <cstdint>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/book/fact.h"
#include "huewright/book/sql.h"
#include "huewright/book/strip.h"

namespace hw::book {

struct ClientLine {
  std::string id, name, phone;
  bool erased = false;
};

enum class VisitStage { asked, booked, under_way, finished, cancelled };
[[nodiscard]] std::string_view word_of(VisitStage stage);

struct VisitLine {
  std::string id, client;
  std::string starts_at;  ///< UTC; empty: not booked yet
  VisitStage stage = VisitStage::asked;
};

struct StockLine {
  std::string product;
  double grams = 0;    ///< at hand by the ledger; below 0 where more was poured than ever came in
  bool known = false;  ///< something was counted or came in, so that grams says what is at hand
};

/// Grams in (above 0) or out of a product.
struct LedgerLine {
  std::string fact, product, at, why;
  std::string visit;  ///< of a pour; empty otherwise
  double grams = 0;
  bool counted = false;  ///< stock-taking: the ledger is `grams` from here on
};

/// What is wrong in the book, one line each, for `doctor`; empty when nothing is.
using Findings = std::vector<std::string>;

/// Looks through what can be looked through while others write: the database's own check, and each
/// fact. Empty too where it was stopped. Errors: io.
[[nodiscard]] Result<Findings> examine_reading(Sql& sql, const std::stop_token& stop = {});

/// One open book; of one thread at a time. Errors of the database are io; none leaves a fact half
/// written.
class Store {
 public:
  /// Brings the schema up to this program's (migrations.h). Errors: io; a book of a newer program
  /// (conflict); a database that holds something else (malformed).
  [[nodiscard]] static Result<std::unique_ptr<Store>> open(std::unique_ptr<Sql> sql);

  /// Writes facts in one transaction; on return they are on disk. A fact whose id the book already
  /// holds is not written again, so that sending twice is harmless. Gives the place of each, and
  /// its stored form's. Errors: as checked(), path facts[i]; an id taken by a different fact
  /// (conflict); a client, visit, product or amended fact that does not exist (unknown_name).
  Result<std::vector<std::int64_t>> append(std::span<const Fact> facts);

  /// All facts of one subject, in order; empty where there is none.
  Result<std::vector<Fact>> facts_of(About about, std::string_view subject);
  /// All facts of a visit, in order, without its plans, whose long texts are not even read.
  Result<std::vector<Fact>> facts_but_plans(std::string_view visit);
  /// Up to `most` facts behind a place, in order.
  Result<std::vector<Fact>> facts_after(std::int64_t place, std::size_t most);
  Result<std::int64_t> count_facts();
  /// The last facts of a kind that has an index of its own ("lesson", "learned"), newest first.
  Result<std::vector<Fact>> latest_of(std::string_view kind, std::size_t most);
  /// The last facts of one subject, newest first.
  Result<std::vector<Fact>> latest_about(About about, std::string_view subject, std::size_t most);

  /// Clients who have every typed part somewhere in a word of their name, e-mail or phone, letters
  /// without accents and in any case, in the order of their names. Empty: the first ones.
  Result<std::vector<ClientLine>> find_clients(std::string_view typed, std::size_t most);
  /// Error: unknown_name.
  Result<ClientLine> client(std::string_view id);
  /// Ids of all clients, in order.
  Result<std::vector<std::string>> clients();
  /// The visits of a client, last first.
  Result<std::vector<VisitLine>> visits_of(std::string_view client);
  /// What a client's page shows of the plan of each visit, by visit; not those without a plan.
  Result<std::map<std::string, Strip>> strips_of(std::string_view client);
  /// Visits that start from one UTC moment to before another, in order.
  Result<std::vector<VisitLine>> visits_between(std::string_view from, std::string_view to);
  /// Error: unknown_name.
  Result<VisitLine> visit(std::string_view id);

  /// Ids of all products, in order.
  Result<std::vector<std::string>> products();
  Result<std::vector<StockLine>> stock();
  /// Movements of a product, in order.
  Result<std::vector<LedgerLine>> ledger(std::string_view product);

  /// Erases a client: their facts and their visits' go, but for what makes a visit, money and grams
  /// without words; one fact says that it was done. What was erased cannot be sent in again.
  /// Errors: unknown_name; an id that another fact has, or a fact that amends one (conflict).
  Result<void> erase_client(std::string_view client, const Fact& erased);

  /// Makes the lists again from the facts.
  Result<void> rebuild();
  /// Looks the whole book through: the database's own check, and every list against the facts.
  Result<Findings> examine();

  [[nodiscard]] Sql& sql() { return *sql_; }

 private:
  explicit Store(std::unique_ptr<Sql> sql) : sql_(std::move(sql)) {}
  std::unique_ptr<Sql> sql_;
};

/// Lower-case words without accents, as search knows them [≤ 40 words]; digits of phones run
/// together.
[[nodiscard]] std::vector<std::string> search_words(std::string_view text);

}  // namespace hw::book
