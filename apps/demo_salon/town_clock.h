#pragma once
// The clock of an invented town: an hour ahead of UTC, two in summer, changed on the last Sundays
// of March and October at 01:00 UTC.
#include <chrono>

#include "huewright/process/moment.h"

namespace hw::demo {

using Date = std::chrono::year_month_day;

/// What the town's clocks are ahead of UTC at an instant.
[[nodiscard]] std::chrono::minutes town_offset(std::chrono::sys_seconds instant);

/// A time of day in the town. minute: from midnight, 180–1439: no clock of the town leaps over it
/// or shows it twice.
[[nodiscard]] process::Moment town_time(Date date, int minute);

/// The moment some minutes later, or earlier below 0, on the town's clock.
[[nodiscard]] process::Moment later(const process::Moment& from, double minutes);

}  // namespace hw::demo
