#include "book_fill.h"

#include <array>

#include "huewright/book/files.h"
#include "huewright/book/folder.h"
#include "lists.h"

namespace hw::bench {
namespace {

using namespace book;

constexpr std::size_t kBatch = 50000;  // facts of one transaction

/// Facts on their way into one file.
class Filler {
 public:
  explicit Filler(Sql& sql) : sql_(sql) {}

  Result<void> put(std::vector<Fact> facts) {
    for (Fact& fact : facts) {
      if (count_ % kBatch == 0) {
        if (auto turned = turn(); !turned) return turned;
      }
      ++count_;
      if (auto done = put(fact); !done) return done;
    }
    return {};
  }
  Result<void> finish() { return sql_.commit(); }
  [[nodiscard]] std::int64_t count() const { return count_; }

 private:
  Result<void> turn() {
    if (count_ > 0) {
      if (auto kept = sql_.commit(); !kept) return kept;
    }
    return sql_.begin(true);
  }

  Result<void> put(Fact& fact) {
    const auto rows = sql_.run(
        "INSERT INTO fact(id, about, subject, kind, happened, told_by, amends, body, sum)"
        " VALUES($1, $2, $3, $4, $5, $6, $7, $8, $9) RETURNING place",
        std::array<Cell, 9>{fact.id, std::string(word_of(about(fact))), fact.subject, fact.kind,
                            fact.at, fact.by, fact.amends, fact.body, sum_of(fact)});
    if (!rows) return tl::unexpected(rows.error());
    fact.place = whole_of(rows->front().front());
    return list_fact(sql_, fact);
  }

  Sql& sql_;
  std::int64_t count_ = 0;
};

Result<void> put_all(Filler& filler, const Salon& salon) {
  if (auto done = filler.put(salon.facts_of_shelf()); !done) return done;
  for (std::size_t i = 0; i < salon.clients(); ++i) {
    if (auto done = filler.put(salon.facts_of_client(i)); !done) return done;
  }
  for (std::size_t i = 0; i < salon.visits(); ++i) {
    if (auto done = filler.put(salon.facts_of_visit(i)); !done) return done;
  }
  return filler.finish();
}

}  // namespace

Result<std::int64_t> fill(Sql& sql, const Salon& salon) {
  Filler filler(sql);
  if (auto done = put_all(filler, salon); !done) return tl::unexpected(done.error());
  return filler.count();
}

Result<std::int64_t> fill(const std::string& folder, const Salon& salon) {
  if (const auto made = Folder::open(folder); !made) return tl::unexpected(made.error());
  SqliteSettings settings;
  settings.full_sync = false;
  const std::string file = folder + "/book.db";
  const auto sql = open_sqlite(file, settings);
  if (!sql) return tl::unexpected(sql.error());
  // One and a half GB of it in memory: its lists are written in no order.
  if (auto set = (*sql)->script("PRAGMA journal_mode=MEMORY; PRAGMA cache_size=-1500000"); !set) {
    return tl::unexpected(set.error());
  }
  const auto count = fill(**sql, salon);
  if (!count) return count;
  if (auto synced = sync_path(file); !synced) return tl::unexpected(synced.error());
  return count;
}

}  // namespace hw::bench
