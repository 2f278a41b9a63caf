// SQLite through its C API. Why these settings: docs/adr/0017-book.md.
#include <fmt/format.h>
#include <sqlite3.h>

#include <map>

#include "huewright/base/error_part.h"
#include "huewright/book/sql.h"

namespace hw::book {
namespace {

struct CloseFile {
  void operator()(sqlite3* file) const noexcept { sqlite3_close_v2(file); }
};
struct EndStatement {
  void operator()(sqlite3_stmt* statement) const noexcept { sqlite3_finalize(statement); }
};
using Statement = std::unique_ptr<sqlite3_stmt, EndStatement>;

Cell cell_at(sqlite3_stmt* statement, int column) {
  switch (sqlite3_column_type(statement, column)) {
    case SQLITE_INTEGER:
      return sqlite3_column_int64(statement, column);
    case SQLITE_FLOAT:
      return sqlite3_column_double(statement, column);
    case SQLITE_NULL:
      return {};
    default: {
      const void* bytes = sqlite3_column_blob(statement, column);
      const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement, column));
      return bytes == nullptr ? std::string() : std::string(static_cast<const char*>(bytes), size);
    }
  }
}

int bind(sqlite3_stmt* statement, int at, const Cell& cell) {
  if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
    return sqlite3_bind_int64(statement, at, *whole);
  }
  if (const auto* number = std::get_if<double>(&cell)) {
    return sqlite3_bind_double(statement, at, *number);
  }
  if (const auto* text = std::get_if<std::string>(&cell)) {
    return sqlite3_bind_text64(statement, at, text->data(), text->size(), nullptr, SQLITE_UTF8);
  }
  return sqlite3_bind_null(statement, at);
}

class Sqlite final : public Sql {
 public:
  Sqlite(sqlite3* file, std::string name, std::stop_token stop)
      : stop_(std::move(stop)), file_(file), name_(std::move(name)) {
    if (stop_.stop_possible()) sqlite3_progress_handler(file, kStepsBetween, &stops, &stop_);
  }

  [[nodiscard]] Dialect dialect() const override { return Dialect::sqlite; }
  [[nodiscard]] std::string place() const override { return name_; }

  Result<std::vector<Row>> run(std::string_view text, std::span<const Cell> arguments) override {
    auto prepared = statement(text);
    if (!prepared) return tl::unexpected(prepared.error());
    sqlite3_stmt* const run = *prepared;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
      // SQLite counts $2 before $1 where it stands first; the name is what counts here.
      const int at = sqlite3_bind_parameter_index(run, ("$" + std::to_string(i + 1)).c_str());
      if (bind(run, at, arguments[i]) != SQLITE_OK) return trouble();
    }
    std::vector<Row> rows;
    const int columns = sqlite3_column_count(run);
    int state = sqlite3_step(run);
    for (; state == SQLITE_ROW; state = sqlite3_step(run)) {
      Row& row = rows.emplace_back();
      for (int column = 0; column < columns; ++column) row.push_back(cell_at(run, column));
    }
    if (state != SQLITE_DONE) {
      auto error = trouble();
      sqlite3_reset(run);
      return error;
    }
    sqlite3_reset(run);
    sqlite3_clear_bindings(run);
    return rows;
  }

  Result<void> script(std::string_view statements) override {
    if (sqlite3_exec(file_.get(), std::string(statements).c_str(), nullptr, nullptr, nullptr) !=
        SQLITE_OK) {
      return trouble();
    }
    return {};
  }

  Result<void> begin(bool writes) override { return script(writes ? "BEGIN IMMEDIATE" : "BEGIN"); }
  Result<void> commit() override { return script("COMMIT"); }
  void rollback() noexcept override {
    if (sqlite3_get_autocommit(file_.get()) == 0) {
      sqlite3_exec(file_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
    }
  }

 private:
  [[nodiscard]] tl::unexpected<Error> trouble() const {
    return fail(ErrorCode::io, fmt::format("the database says: {}", sqlite3_errmsg(file_.get())),
                name_, hint());
  }

  /// What the owner can do about the last error.
  [[nodiscard]] std::string hint() const {
    switch (sqlite3_errcode(file_.get()) & 0xff) {
      case SQLITE_FULL:
        return error_part("free space on the disk, then do it again; nothing was half written");
      case SQLITE_READONLY:
      case SQLITE_PERM:
      case SQLITE_CANTOPEN:
        return error_part("give this user the right to write the data folder");
      case SQLITE_BUSY:
        return error_part("another program holds the book; close it, then do it again");
      case SQLITE_CORRUPT:
      case SQLITE_NOTADB:
        return error_part("the file is damaged: run doctor, and restore a backup");
      default:
        return error_part("see whether the disk is well, then do it again");
    }
  }

  Result<sqlite3_stmt*> statement(std::string_view text) {
    Statement& kept = statements_[text];
    if (kept == nullptr) {
      sqlite3_stmt* made = nullptr;
      if (sqlite3_prepare_v3(file_.get(), text.data(), static_cast<int>(text.size()),
                             SQLITE_PREPARE_PERSISTENT, &made, nullptr) != SQLITE_OK) {
        return trouble();
      }
      kept.reset(made);
    }
    return kept.get();
  }

  static constexpr int kStepsBetween = 10'000;  // of SQLite's machine: well under 10 ms
  static int stops(void* stop) {
    return static_cast<const std::stop_token*>(stop)->stop_requested() ? 1 : 0;
  }

  std::stop_token stop_;
  std::unique_ptr<sqlite3, CloseFile> file_;
  std::string name_;
  std::map<std::string_view, Statement> statements_;  // declared after the file: ended before it
};

/// The limits below keep a hostile file or text from costing memory; lengths in bytes.
void limit(sqlite3* file) {
  constexpr int kMostText = 8'000'000;  // of one value: above describe_parts' kMostLong twice
  constexpr int kMostSql = 100'000;
  sqlite3_limit(file, SQLITE_LIMIT_LENGTH, kMostText);
  sqlite3_limit(file, SQLITE_LIMIT_SQL_LENGTH, kMostSql);
  sqlite3_db_config(file, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
}

}  // namespace

Result<std::unique_ptr<Sql>> open_sqlite(const std::string& file, const SqliteSettings& settings) {
  sqlite3* made = nullptr;
  const int flags =
      settings.read_only ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
  const int opened = sqlite3_open_v2(file.c_str(), &made, flags | SQLITE_OPEN_NOFOLLOW,
                                     settings.vfs.empty() ? nullptr : settings.vfs.c_str());
  if (made == nullptr) return fail(ErrorCode::io, "no memory to open it", file, "try again");
  auto sql = std::make_unique<Sqlite>(made, file, settings.stop);
  if (opened != SQLITE_OK) {
    return fail(ErrorCode::io, fmt::format("the database says: {}", sqlite3_errmsg(made)), file,
                "see that the folder is there and may be written");
  }
  limit(made);
  sqlite3_busy_timeout(made, settings.wait_ms);
  std::string pragmas =
      "PRAGMA foreign_keys=ON; PRAGMA trusted_schema=OFF;"
      "PRAGMA journal_size_limit=200000000; PRAGMA cache_size=-65536;";
  pragmas += settings.full_sync ? "PRAGMA synchronous=FULL;" : "PRAGMA synchronous=OFF;";
  if (!settings.read_only) pragmas = "PRAGMA journal_mode=WAL;" + pragmas;
  if (auto set = sql->script(pragmas); !set) return tl::unexpected(set.error());
  return sql;
}

}  // namespace hw::book
