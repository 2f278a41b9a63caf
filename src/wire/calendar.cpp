#include "huewright/wire/calendar.h"

#include <fmt/format.h>

#include "text_lines.h"

namespace hw::wire {
namespace {

std::string day_text(std::chrono::year_month_day day) {
  return fmt::format("{:04}{:02}{:02}", static_cast<int>(day.year()),
                     static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
}

std::string moment_text(std::chrono::sys_seconds at) {
  const auto day = std::chrono::floor<std::chrono::days>(at);
  const std::chrono::hh_mm_ss clock(at - day);
  return fmt::format("{}T{:02}{:02}{:02}Z", day_text(std::chrono::year_month_day(day)),
                     clock.hours().count(), clock.minutes().count(), clock.seconds().count());
}

}  // namespace

std::string write_calendar(std::span<const CalendarEntry> entries, std::chrono::sys_seconds stamp) {
  std::string text =
      "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Huewright//Book 1//EN\r\n"
      "CALSCALE:GREGORIAN\r\n";
  for (const CalendarEntry& entry : entries) {
    text += "BEGIN:VEVENT\r\n";
    text += folded("UID:" + escaped(entry.uid));
    text += "DTSTAMP:" + moment_text(stamp) + "\r\n";
    if (entry.day) {
      // The end of a whole day is the next one: it is not part of the entry (3.6.1).
      const std::chrono::year_month_day next(std::chrono::sys_days(*entry.day) +
                                             std::chrono::days(1));
      text += "DTSTART;VALUE=DATE:" + day_text(*entry.day) + "\r\n";
      text += "DTEND;VALUE=DATE:" + day_text(next) + "\r\n";
      text += "TRANSP:TRANSPARENT\r\n";
    } else {
      text += "DTSTART:" + moment_text(entry.starts) + "\r\n";
      text += "DTEND:" + moment_text(entry.starts + entry.length) + "\r\n";
    }
    text += folded("SUMMARY:" + escaped(entry.summary));
    if (!entry.description.empty()) text += folded("DESCRIPTION:" + escaped(entry.description));
    text += "END:VEVENT\r\n";
  }
  return text + "END:VCALENDAR\r\n";
}

}  // namespace hw::wire
