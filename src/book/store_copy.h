#pragma once
// A whole book from one database into another.
#include <string>

#include "huewright/book/store.h"

namespace hw::book {

/// What a store holds at one instant, as a new SQLite file. Error: io.
[[nodiscard]] Result<void> copy_book(Sql& from, const std::string& file);
/// Everything a store holds gives way to what another holds, in one transaction. Error: io.
[[nodiscard]] Result<void> replace_store(Store& into, Sql& from);

}  // namespace hw::book
