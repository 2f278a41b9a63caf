#pragma once
// Dates for any calendar program: iCalendar. Source: RFC 5545 (2009).
#include <chrono>
#include <optional>
#include <span>
#include <string>

namespace hw::wire {

/// One entry of a calendar: a time span, or a whole day.
struct CalendarEntry {
  std::string uid;                                   ///< the same for the same thing, for ever
  std::chrono::sys_seconds starts{};                 ///< where it is a time span
  std::chrono::minutes length{0};                    ///< likewise
  std::optional<std::chrono::year_month_day> day{};  ///< where it is a whole day
  std::string summary, description;
};

/// A calendar object with CRLF line ends, folded and escaped. Times are UTC, so that no zone has to
/// be described. stamp: when it was written.
[[nodiscard]] std::string write_calendar(std::span<const CalendarEntry> entries,
                                         std::chrono::sys_seconds stamp);

}  // namespace hw::wire
