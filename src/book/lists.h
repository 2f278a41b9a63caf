#pragma once
// The lists beside the facts, kept in the same transaction as the fact that changes them.
#include "huewright/book/fact.h"
#include "huewright/book/sql.h"

namespace hw::book {

/// Brings the lists up to a fact that was just stored. Error: io.
[[nodiscard]] Result<void> list_fact(Sql& sql, const Fact& fact);
/// Empties every list. Error: io.
[[nodiscard]] Result<void> clear_lists(Sql& sql);

/// Columns of table fact in the order in which fact_from reads them.
#define HW_FACT_COLUMNS "place, id, subject, kind, happened, told_by, amends, body"
[[nodiscard]] Fact fact_from(const Row& row);

}  // namespace hw::book
