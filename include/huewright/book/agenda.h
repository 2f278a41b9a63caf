#pragma once
// Visits and the dates to come again as entries of a calendar.
#include <string>
#include <vector>

#include "huewright/book/store.h"
#include "huewright/process/moment.h"
#include "huewright/wire/calendar.h"

namespace hw::book {

/// Visits that take place and start on this day, on the moment's own clock, or later; and
/// of each client's last finished visit the dates to refresh the colour and to do the regrowth, if
/// they are not past. client: this one alone, in words that name nobody; empty: everybody, by
/// name. Errors: unknown_name, io.
[[nodiscard]] Result<std::vector<wire::CalendarEntry>> agenda_of(Store& store,
                                                                 const process::Moment& now,
                                                                 const std::string& client = {});

}  // namespace hw::book
