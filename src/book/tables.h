#pragma once
// The book as tables for a spreadsheet: one file a list, and one with every fact.
#include <string>

#include "huewright/base/result.h"
#include "huewright/book/store.h"

namespace hw::book {

/// Writes facts.csv, clients.csv, visits.csv and, of the whole book, shelf.csv and movements.csv
/// into a folder that is there. client: of this one alone; empty: everything. Memory does not grow
/// with the facts. Errors: io.
[[nodiscard]] Result<void> write_tables(Store& store, const std::string& folder,
                                        const std::string& client);

}  // namespace hw::book
