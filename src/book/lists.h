#pragma once
// The lists beside the facts, kept in the same transaction as the fact that changes them.
#include "huewright/book/fact.h"
#include "huewright/book/sql.h"
#include "huewright/book/store.h"

namespace hw::book {

/// Brings the lists up to a fact that was just stored. Error: io.
[[nodiscard]] Result<void> list_fact(Sql& sql, const Fact& fact);
/// Makes every list again from all facts, inside the caller's transaction. Error: io.
[[nodiscard]] Result<void> list_all(Store& store);
/// Makes the list of strips alone from all plans. Error: io.
[[nodiscard]] Result<void> list_strips(Sql& sql);
/// Empties every list. Error: io.
[[nodiscard]] Result<void> clear_lists(Sql& sql);

/// Columns of table fact in the order in which fact_from reads them.
#define HW_FACT_COLUMNS "place, id, subject, kind, happened, told_by, amends, body, sum"
[[nodiscard]] Fact fact_from(const Row& row);
/// What a fact is stored with, so that a byte changed on the disk is seen: the first 16 hex digits
/// of the SHA-256 of all its texts.
[[nodiscard]] std::string sum_of(const Fact& fact);
/// Facts as they come from a disk that may have lied: each is looked at before anything trusts it.
/// Error: io (names the fact; the owner is sent to doctor).
[[nodiscard]] Result<std::vector<Fact>> facts_from(const Result<std::vector<Row>>& rows);

}  // namespace hw::book
