#pragma once
// Points in time as records hold them: an instant and the offset of the wall clock that stood by.
// Hours are counted between instants, so that 48 hours stay 48 hours when the clocks change; days
// and weeks are counted between local dates, as a calendar on the wall has them. Nothing here knows
// what time it is or which country it is in: offsets are part of the input.
#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"

namespace hw::process {

/// An instant with the local offset it was written with. local = utc + offset.
struct Moment {
  std::chrono::sys_seconds utc{};
  std::chrono::minutes offset{0};  ///< east of Greenwich counts up, −14 h to +14 h

  /// The same instant is the same moment, whatever clock it was read from.
  bool operator==(const Moment& other) const { return utc == other.utc; }
  auto operator<=>(const Moment& other) const { return utc <=> other.utc; }
};

/// Reads ISO 8601 with its offset: 2025-03-30T10:00+02:00, seconds optional, Z for UTC.
/// Years 1900 to 2200; no leap seconds, no fractions, no 24:00. where: what an error calls it.
/// Errors: malformed text or a date that no calendar has (malformed), a year or an offset outside
/// its range (out_of_range), no offset or the unknown offset -00:00 (missing).
/// Source: ISO 8601 and bib: rfc3339 section 5.6.
[[nodiscard]] Result<Moment> moment_from_iso(std::string_view text, const std::string& where = {});

/// The moment as text that moment_from_iso reads back: 2025-03-28T09:00:00+01:00.
[[nodiscard]] std::string iso_text(const Moment& moment);

/// Reads a date alone, 2025-03-30, years 1900 to 2200. where: what an error calls it.
/// Errors: another form or a date that no calendar has (malformed), another year (out_of_range).
[[nodiscard]] Result<std::chrono::year_month_day> date_from_iso(std::string_view text,
                                                                const std::string& where = {});

/// The date as text that date_from_iso reads back. date: one of a calendar.
[[nodiscard]] std::string iso_text(std::chrono::year_month_day date);

/// The date on the wall at that moment.
[[nodiscard]] std::chrono::year_month_day local_date(const Moment& moment);

/// Time from one instant to another [h], below 0 when `to` comes first. Counts what passed, not
/// what clocks showed: 2025-03-28T10:00+01:00 to 2025-03-30T10:00+02:00 is 47 h.
[[nodiscard]] double hours_between(const Moment& from, const Moment& to);

/// The instant some hours later (or earlier, below 0), on a clock with the given offset.
/// hours: finite; rounded to whole seconds.
[[nodiscard]] Moment hours_later(const Moment& from, double hours, std::chrono::minutes offset);

/// Days from one local date to another [d]. Both must be dates; 2024-02-28 to 2024-03-01 is 2.
[[nodiscard]] int days_between(std::chrono::year_month_day from, std::chrono::year_month_day to);

/// The date some days later. 2025-01-20 and 42 days (6 weeks) give 2025-03-03.
[[nodiscard]] std::chrono::year_month_day days_later(std::chrono::year_month_day from, int days);

/// The date some months later; a day the month does not have becomes its last.
/// 2025-01-31 and 1 month give 2025-02-28.
[[nodiscard]] std::chrono::year_month_day months_later(std::chrono::year_month_day from,
                                                       int months);

/// One change of a region's clocks: before `at` the offset is `before`, from it on `after`.
struct ClockChange {
  std::chrono::sys_seconds at{};
  std::chrono::minutes before{0};
  std::chrono::minutes after{0};
};

/// The instants at which a wall clock shows a local time near one change, first to last: one as a
/// rule, none for a time that the change leaps over, two for one that it repeats.
[[nodiscard]] std::vector<Moment> moments_showing(std::chrono::local_seconds local,
                                                  const ClockChange& change);

/// An instant as the region's clock shows it near one change.
[[nodiscard]] Moment on_clock(std::chrono::sys_seconds instant, const ClockChange& change);

}  // namespace hw::process
