#pragma once
// The schema, grown by numbered steps, forward only, one transaction each.
#include <span>
#include <string_view>

#include "huewright/base/result.h"
#include "huewright/book/sql.h"

namespace hw::book {

struct Migration {
  int number;  ///< from 1, without gaps
  std::string_view sqlite, postgresql;
  Result<void> (*fill)(Sql& sql);  ///< fills what was made from the facts; nullptr: nothing to fill
};
[[nodiscard]] std::span<const Migration> migrations();

/// The number of the schema a database holds; 0: an empty one. Error: malformed where it holds
/// tables of something else.
[[nodiscard]] Result<int> schema_of(Sql& sql);

/// Applies what is missing. Errors: io; conflict where the book is of a newer program.
[[nodiscard]] Result<void> migrate(Sql& sql);

}  // namespace hw::book
