#include "migrations.h"

#include <array>

#include "lists.h"

namespace hw::book {
namespace {

// 1: facts, and the lists beside them.
constexpr std::string_view kSqlite1 = R"(
CREATE TABLE fact(
  place INTEGER PRIMARY KEY AUTOINCREMENT, id TEXT NOT NULL UNIQUE, about TEXT NOT NULL,
  subject TEXT NOT NULL, kind TEXT NOT NULL, happened TEXT NOT NULL, told_by TEXT NOT NULL,
  amends TEXT NOT NULL, body TEXT NOT NULL, sum TEXT NOT NULL) STRICT;
CREATE INDEX fact_subject ON fact(about, subject, place);
CREATE TABLE gone(id TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE client(
  id TEXT PRIMARY KEY, name TEXT NOT NULL, phone TEXT NOT NULL, sorted TEXT NOT NULL,
  erased INTEGER NOT NULL) STRICT, WITHOUT ROWID;
CREATE INDEX client_sorted ON client(sorted, id);
CREATE TABLE client_word(
  word TEXT NOT NULL, client TEXT NOT NULL, PRIMARY KEY(word, client)) STRICT, WITHOUT ROWID;
CREATE INDEX client_word_client ON client_word(client);
CREATE TABLE visit(
  id TEXT PRIMARY KEY, client TEXT NOT NULL, starts TEXT NOT NULL, stage INTEGER NOT NULL)
  STRICT, WITHOUT ROWID;
CREATE INDEX visit_client ON visit(client, starts, id);
CREATE INDEX visit_starts ON visit(starts, id);
CREATE TABLE product(id TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE movement(
  fact TEXT PRIMARY KEY, product TEXT NOT NULL, place INTEGER NOT NULL, grams REAL NOT NULL,
  counted INTEGER NOT NULL, happened TEXT NOT NULL, why TEXT NOT NULL, visit TEXT NOT NULL)
  STRICT, WITHOUT ROWID;
CREATE INDEX movement_product ON movement(product, place);
)";

constexpr std::string_view kPostgresql1 = R"(
CREATE TABLE fact(
  place BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY, id TEXT COLLATE "C" NOT NULL UNIQUE,
  about TEXT COLLATE "C" NOT NULL, subject TEXT COLLATE "C" NOT NULL,
  kind TEXT COLLATE "C" NOT NULL, happened TEXT COLLATE "C" NOT NULL,
  told_by TEXT COLLATE "C" NOT NULL, amends TEXT COLLATE "C" NOT NULL,
  body TEXT COLLATE "C" NOT NULL, sum TEXT COLLATE "C" NOT NULL);
CREATE INDEX fact_subject ON fact(about, subject, place);
CREATE TABLE gone(id TEXT COLLATE "C" PRIMARY KEY);
CREATE TABLE client(
  id TEXT COLLATE "C" PRIMARY KEY, name TEXT COLLATE "C" NOT NULL, phone TEXT COLLATE "C" NOT NULL,
  sorted TEXT COLLATE "C" NOT NULL, erased BIGINT NOT NULL);
CREATE INDEX client_sorted ON client(sorted, id);
CREATE TABLE client_word(
  word TEXT COLLATE "C" NOT NULL, client TEXT COLLATE "C" NOT NULL, PRIMARY KEY(word, client));
CREATE INDEX client_word_client ON client_word(client);
CREATE TABLE visit(
  id TEXT COLLATE "C" PRIMARY KEY, client TEXT COLLATE "C" NOT NULL,
  starts TEXT COLLATE "C" NOT NULL, stage BIGINT NOT NULL);
CREATE INDEX visit_client ON visit(client, starts, id);
CREATE INDEX visit_starts ON visit(starts, id);
CREATE TABLE product(id TEXT COLLATE "C" PRIMARY KEY);
CREATE TABLE movement(
  fact TEXT COLLATE "C" PRIMARY KEY, product TEXT COLLATE "C" NOT NULL, place BIGINT NOT NULL,
  grams DOUBLE PRECISION NOT NULL, counted BIGINT NOT NULL, happened TEXT COLLATE "C" NOT NULL,
  why TEXT COLLATE "C" NOT NULL, visit TEXT COLLATE "C" NOT NULL);
CREATE INDEX movement_product ON movement(product, place);
)";

// 2: the latest lessons, without walking through everything else.
constexpr std::string_view kBoth2 =
    "CREATE INDEX fact_lesson ON fact(kind, place) WHERE kind IN ('lesson', 'learned');";

// 3: what a client's page shows of each plan (strip.h).
constexpr std::string_view kSqlite3 = R"(
CREATE TABLE strip(visit TEXT PRIMARY KEY, body TEXT NOT NULL) STRICT, WITHOUT ROWID;
)";
constexpr std::string_view kPostgresql3 = R"(
CREATE TABLE strip(visit TEXT COLLATE "C" PRIMARY KEY, body TEXT COLLATE "C" NOT NULL);
)";

constexpr std::array kMigrations{Migration{1, kSqlite1, kPostgresql1, nullptr},
                                 Migration{2, kBoth2, kBoth2, nullptr},
                                 Migration{3, kSqlite3, kPostgresql3, list_strips}};

// "HuWr" as a number: which program a SQLite file belongs to (PRAGMA application_id).
constexpr int kApplication = 0x48755772;

Result<std::int64_t> one_number(Sql& sql, std::string_view statement) {
  const auto rows = sql.run(statement, {});
  if (!rows) return tl::unexpected(rows.error());
  return rows->empty() ? 0 : whole_of(rows->front().front());
}

Result<int> schema_of_sqlite(Sql& sql) {
  const auto owner = one_number(sql, "PRAGMA application_id");
  if (!owner) return tl::unexpected(owner.error());
  const auto tables = one_number(sql, "SELECT count(*) FROM sqlite_schema");
  if (!tables) return tl::unexpected(tables.error());
  if (*tables > 0 && *owner != kApplication) {
    return fail(ErrorCode::malformed, "is a database, but no book", sql.place(),
                "choose another data folder");
  }
  const auto number = one_number(sql, "PRAGMA user_version");
  if (!number) return tl::unexpected(number.error());
  return static_cast<int>(*number);
}

Result<int> schema_of_postgresql(Sql& sql) {
  const auto known =
      one_number(sql,
                 "SELECT count(*) FROM pg_catalog.pg_tables WHERE tablename = 'book_schema' "
                 "AND schemaname = current_schema()");
  if (!known) return tl::unexpected(known.error());
  if (*known == 0) return 0;
  const auto number = one_number(sql, "SELECT coalesce(max(number), 0) FROM book_schema");
  if (!number) return tl::unexpected(number.error());
  return static_cast<int>(*number);
}

Result<void> note_number(Sql& sql, int number) {
  const std::string text = std::to_string(number);
  if (sql.dialect() == Dialect::sqlite) {
    return sql.script("PRAGMA application_id=" + std::to_string(kApplication) +
                      ";PRAGMA user_version=" + text);
  }
  return sql.script(
      "CREATE TABLE IF NOT EXISTS book_schema(number BIGINT PRIMARY KEY);"
      "INSERT INTO book_schema VALUES(" +
      text + ")");
}

}  // namespace

std::span<const Migration> migrations() {
  return kMigrations;
}

Result<int> schema_of(Sql& sql) {
  return sql.dialect() == Dialect::sqlite ? schema_of_sqlite(sql) : schema_of_postgresql(sql);
}

Result<void> migrate(Sql& sql) {
  for (const Migration& step : kMigrations) {
    auto done = in_transaction(sql, true, [&]() -> Result<void> {
      if (sql.dialect() == Dialect::postgresql) {
        // Two branches that start at once take turns.
        constexpr std::string_view kTurn = "SELECT pg_advisory_xact_lock(4871)";
        if (auto turn = sql.script(kTurn); !turn) return turn;
      }
      const auto now = schema_of(sql);
      if (!now) return tl::unexpected(now.error());
      if (*now > kMigrations.back().number) {
        return fail(ErrorCode::conflict, "was written by a newer version of this program",
                    sql.place(), "use that version, or restore a backup made before it");
      }
      if (*now >= step.number) return {};
      const bool sqlite = sql.dialect() == Dialect::sqlite;
      if (auto made = sql.script(sqlite ? step.sqlite : step.postgresql); !made) return made;
      if (step.fill != nullptr) {
        if (auto filled = step.fill(sql); !filled) return filled;
      }
      return note_number(sql, step.number);
    });
    if (!done) return done;
  }
  return {};
}

}  // namespace hw::book
