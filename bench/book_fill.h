#pragma once
// A made-up salon written into a new data folder, fast.
#include <string>

#include "book_salon.h"
#include "huewright/base/result.h"
#include "huewright/book/sql.h"

namespace hw::bench {

/// The same on any database that has the schema and no fact yet, with its own care of syncing.
[[nodiscard]] Result<std::int64_t> fill(book::Sql& sql, const Salon& salon);

/// Writes every fact and its lists as Store::append does, but in large transactions, with nothing
/// synced before the end, and without asking of each fact whether it can be one: `doctor` asks that
/// of the small book. Gives how many facts.
[[nodiscard]] Result<std::int64_t> fill(const std::string& folder, const Salon& salon);

}  // namespace hw::bench
