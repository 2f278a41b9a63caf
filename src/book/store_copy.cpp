#include "store_copy.h"

#include <array>

#include "lists.h"

namespace hw::book {
namespace {

constexpr std::int64_t kPage = 2000;

Result<void> copy_ids(Sql& from, Sql& into) {
  const auto rows = from.run("SELECT id FROM gone ORDER BY id", {});
  if (!rows) return tl::unexpected(rows.error());
  for (const Row& row : *rows) {
    const auto put = into.run("INSERT INTO gone(id) VALUES($1)", row);
    if (!put) return tl::unexpected(put.error());
  }
  return {};
}

/// Facts as they stand, in their order; the lists are made from them.
Result<void> copy_facts(Sql& from, Sql& into) {
  std::int64_t place = 0;
  for (;;) {
    const auto rows = from.run(
        "SELECT id, about, subject, kind, happened, told_by, amends, body, sum, place FROM fact"
        " WHERE place > $1 ORDER BY place LIMIT $2",
        std::array<Cell, 2>{place, kPage});
    if (!rows) return tl::unexpected(rows.error());
    if (rows->empty()) return {};
    for (const Row& row : *rows) {
      const auto put = into.run(
          "INSERT INTO fact(id, about, subject, kind, happened, told_by, amends, body, sum)"
          " VALUES($1, $2, $3, $4, $5, $6, $7, $8, $9)",
          std::span(row.data(), row.size() - 1));
      if (!put) return tl::unexpected(put.error());
    }
    place = whole_of(rows->back().back());
  }
}

}  // namespace

Result<void> replace_store(Store& into, Sql& from) {
  return in_transaction(into.sql(), true, [&]() -> Result<void> {
    if (auto cleared = clear_lists(into.sql()); !cleared) return cleared;
    if (auto empty = into.sql().script("DELETE FROM fact; DELETE FROM gone"); !empty) return empty;
    // One instant of the other, whoever writes to it meanwhile.
    auto copied = in_transaction(from, false, [&]() -> Result<void> {
      if (auto facts = copy_facts(from, into.sql()); !facts) return facts;
      return copy_ids(from, into.sql());
    });
    if (!copied) return copied;
    return list_all(into);
  });
}

Result<void> copy_book(Sql& from, const std::string& file) {
  if (from.dialect() == Dialect::sqlite) {
    const auto copied = from.run("VACUUM INTO $1", std::array<Cell, 1>{file});
    if (!copied) return tl::unexpected(copied.error());
    return {};
  }
  auto sql = open_sqlite(file);
  if (!sql) return tl::unexpected(sql.error());
  auto into = Store::open(*std::move(sql));
  if (!into) return tl::unexpected(into.error());
  return replace_store(**into, from);
}

}  // namespace hw::book
