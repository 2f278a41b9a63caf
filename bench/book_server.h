#pragma once
// The same salon on SQLite and on a PostgreSQL of one's own, measured side by side.
#include <string>

#include "book_salon.h"

namespace hw::bench {

/// Fills both and prints what each costs and the ratio. folder: a new one for the data folders.
/// connection: of an empty database that is there for this alone. Throws, as give_up does.
void print_servers(const std::string& folder, const std::string& connection, const Salon& salon);

}  // namespace hw::bench
