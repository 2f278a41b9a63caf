// PostgreSQL through libpq. Values travel as text; numbers with all their digits.
#include "huewright/book/sql.h"

#include <libpq-fe.h>

#include <charconv>
#include <map>

namespace hw::book {
namespace {

struct CloseLine {
  void operator()(PGconn* line) const noexcept { PQfinish(line); }
};
struct ClearResult {
  void operator()(PGresult* result) const noexcept { PQclear(result); }
};
using Answer = std::unique_ptr<PGresult, ClearResult>;

// Object ids of the server's types, fixed for ever by its catalogue (pg_type.dat).
constexpr Oid kInt8 = 20;
constexpr Oid kInt4 = 23;
constexpr Oid kFloat8 = 701;

Cell cell_at(const PGresult* result, int row, int column) {
  if (PQgetisnull(result, row, column) != 0) return {};
  const std::string_view text(PQgetvalue(result, row, column),
                              static_cast<std::size_t>(PQgetlength(result, row, column)));
  const Oid type = PQftype(result, column);
  if (type == kInt8 || type == kInt4) {
    std::int64_t whole = 0;
    std::from_chars(text.data(), text.data() + text.size(), whole);
    return whole;
  }
  if (type == kFloat8) {
    double number = 0;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number;
  }
  return std::string(text);
}

std::string text_for(const Cell& cell) {
  if (const auto* whole = std::get_if<std::int64_t>(&cell)) return std::to_string(*whole);
  if (const auto* number = std::get_if<double>(&cell)) {
    constexpr std::size_t kLongest = 32;  // a double needs 24 characters at most
    char digits[kLongest];
    return {digits, std::to_chars(digits, digits + kLongest, *number).ptr};
  }
  return text_of(cell);
}

class Postgresql final : public Sql {
 public:
  explicit Postgresql(PGconn* line)
      : line_(line), name_(std::string("PostgreSQL, ") + PQdb(line) + " at " + PQhost(line)) {}

  [[nodiscard]] Dialect dialect() const override { return Dialect::postgresql; }
  [[nodiscard]] std::string place() const override { return name_; }

  Result<std::vector<Row>> run(std::string_view text, std::span<const Cell> arguments) override {
    const auto name = prepared(text);
    if (!name) return tl::unexpected(name.error());
    std::vector<std::string> texts;
    std::vector<const char*> values;
    texts.reserve(arguments.size());
    for (const Cell& cell : arguments) {
      texts.push_back(text_for(cell));
      const bool null = std::holds_alternative<std::monostate>(cell);
      values.push_back(null ? nullptr : texts.back().c_str());
    }
    const Answer answer(PQexecPrepared(line_.get(), name->c_str(), static_cast<int>(values.size()),
                                       values.data(), nullptr, nullptr, 0));
    if (!went_well(answer.get())) return trouble();
    std::vector<Row> rows(static_cast<std::size_t>(PQntuples(answer.get())));
    for (int row = 0; row < PQntuples(answer.get()); ++row) {
      for (int column = 0; column < PQnfields(answer.get()); ++column) {
        rows[static_cast<std::size_t>(row)].push_back(cell_at(answer.get(), row, column));
      }
    }
    return rows;
  }

  Result<void> script(std::string_view statements) override {
    const Answer answer(PQexec(line_.get(), std::string(statements).c_str()));
    if (!went_well(answer.get())) return trouble();
    return {};
  }

  Result<void> begin(bool writes) override {
    return script(writes ? "BEGIN" : "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
  }
  Result<void> commit() override { return script("COMMIT"); }
  void rollback() noexcept override {
    if (PQtransactionStatus(line_.get()) != PQTRANS_IDLE) {
      const Answer answer(PQexec(line_.get(), "ROLLBACK"));
    }
  }

 private:
  [[nodiscard]] static bool went_well(const PGresult* answer) {
    const ExecStatusType state = PQresultStatus(answer);
    return state == PGRES_COMMAND_OK || state == PGRES_TUPLES_OK;
  }

  [[nodiscard]] tl::unexpected<Error> trouble() const {
    std::string words = PQerrorMessage(line_.get());
    for (char& c : words) c = c == '\n' ? ' ' : c;
    while (words.ends_with(' ')) words.pop_back();
    return fail(ErrorCode::io, "the database says: " + words, name_,
                "see that the server runs, then do it again");
  }

  Result<std::string> prepared(std::string_view text) {
    const auto known = names_.find(text);
    if (known != names_.end()) return known->second;
    std::string name = "s" + std::to_string(names_.size());
    const Answer answer(
        PQprepare(line_.get(), name.c_str(), std::string(text).c_str(), 0, nullptr));
    if (!went_well(answer.get())) return trouble();
    names_.emplace(text, name);
    return name;
  }

  std::unique_ptr<PGconn, CloseLine> line_;
  std::string name_;
  std::map<std::string_view, std::string> names_;
};

}  // namespace

Result<std::unique_ptr<Sql>> open_postgresql(const std::string& connection) {
  PGconn* line = PQconnectdb(connection.c_str());
  if (line == nullptr) return fail(ErrorCode::io, "no memory to connect", {}, "try again");
  auto sql = std::make_unique<Postgresql>(line);
  if (PQstatus(line) != CONNECTION_OK) {
    std::string words = PQerrorMessage(line);
    for (char& c : words) c = c == '\n' ? ' ' : c;
    return fail(ErrorCode::io, "the database says: " + words, "PostgreSQL",
                "see that the server runs and that the connection string names it");
  }
  if (auto set = sql->script("SET client_encoding TO 'UTF8'; SET synchronous_commit TO on;"
                             "SET client_min_messages TO warning; SET lock_timeout TO '10s';"
                             "SET extra_float_digits TO 3");
      !set) {
    return tl::unexpected(set.error());
  }
  return sql;
}

}  // namespace hw::book
