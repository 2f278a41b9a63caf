#pragma once
// Visits and the dates to come again as entries of a calendar.
#include <string>
#include <vector>

#include "huewright/book/store.h"
#include "huewright/wire/calendar.h"

namespace hw::book {

/// Visits that start at a UTC moment ("2025-05-14T00:00:00Z") or later and take place, and of each
/// client's last finished visit the dates to refresh the colour and to do the regrowth, if they are
/// not past. client: this one alone, in words that name nobody; empty: everybody, by name.
/// Errors: unknown_name, io.
[[nodiscard]] Result<std::vector<wire::CalendarEntry>> agenda_of(Store& store,
                                                                 const std::string& from,
                                                                 const std::string& client = {});

}  // namespace hw::book
