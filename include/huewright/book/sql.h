#pragma once
// What the store asks of a database: prepared statements with their arguments, and transactions.
// Two are kept: SQLite in one file, PostgreSQL for several branches. Statements are written once,
// in the SQL both understand, with arguments $1, $2, … in the order in which they first appear.
#include <cstdint>
#include <functional>
#include <memory>
#include <span>
#include <stop_token>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "huewright/base/result.h"

namespace hw::book {

/// One value in or out. A text never holds NUL.
using Cell = std::variant<std::monostate, std::int64_t, double, std::string>;
using Row = std::vector<Cell>;

[[nodiscard]] std::string text_of(const Cell& cell);    ///< "" for NULL
[[nodiscard]] std::int64_t whole_of(const Cell& cell);  ///< 0 for NULL
[[nodiscard]] double number_of(const Cell& cell);       ///< 0 for NULL

enum class Dialect { sqlite, postgresql };

/// One connection; of one thread at a time. Every error is io, its message the database's own
/// words, where: the file, or the server.
class Sql {
 public:
  Sql() = default;
  Sql(const Sql&) = delete;
  Sql& operator=(const Sql&) = delete;
  virtual ~Sql() = default;
  [[nodiscard]] virtual Dialect dialect() const = 0;
  /// The rows that a statement gives. statement: one statement that outlives the connection (a
  /// literal): it is prepared once.
  virtual Result<std::vector<Row>> run(std::string_view statement,
                                       std::span<const Cell> arguments) = 0;
  /// Several statements without arguments, for schemas.
  virtual Result<void> script(std::string_view statements) = 0;
  /// Starts a transaction that writes (or one that only reads a fixed moment).
  virtual Result<void> begin(bool writes) = 0;
  /// Ends it; what was written is on disk when this returns well.
  virtual Result<void> commit() = 0;
  virtual void rollback() noexcept = 0;
  /// Seconds to wait for another writer are the database's own; this says where it is, for errors.
  [[nodiscard]] virtual std::string place() const = 0;
};

/// Runs work between begin and commit; rolls back when it fails.
[[nodiscard]] Result<void> in_transaction(Sql& sql, bool writes,
                                          const std::function<Result<void>()>& work);

/// How a SQLite file is opened.
struct SqliteSettings {
  bool full_sync = true;  ///< off only in the test that shows what it is for
  bool read_only = false;
  int wait_ms = 10000;        ///< for another writer
  std::string vfs = {};       ///< a file layer by name, for fault tests; empty: the system's
  std::stop_token stop = {};  ///< ends statements that run for long, with an error
};
/// Opens (or makes) a file. Errors: io; a file that is another program's (malformed).
[[nodiscard]] Result<std::unique_ptr<Sql>> open_sqlite(const std::string& file,
                                                       const SqliteSettings& settings = {});
/// Connects to a server by a libpq connection string; a password comes from it or from libpq's own
/// file. Error: io.
[[nodiscard]] Result<std::unique_ptr<Sql>> open_postgresql(const std::string& connection);

}  // namespace hw::book
