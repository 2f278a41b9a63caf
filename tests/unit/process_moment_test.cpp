#include <chrono>

#include "huewright/process/moment.h"
#include "support/reference.h"

namespace hw::process {
namespace {

using std::chrono::minutes;
using std::chrono::year_month_day;

const test::Source kZones{"iana_tz", "zone, change and offsets"};
const test::Source kCalendar{"iso_8601", "calendar dates"};

Moment at(const std::string& iso) {
  const auto moment = moment_from_iso(iso);
  EXPECT_TRUE(moment.has_value()) << iso;
  return moment.value_or(Moment{});
}

year_month_day day(const std::string& date) {
  return local_date(at(date + "T12:00Z"));
}

double days_since_epoch(year_month_day date) {
  return static_cast<double>(std::chrono::sys_days(date).time_since_epoch().count());
}

TEST(ProcessMoment, reads_and_writes_iso_with_its_offset) {
  EXPECT_EQ(iso_text(at("2025-03-30T10:00+02:00")), "2025-03-30T10:00:00+02:00");
  EXPECT_EQ(iso_text(at("2025-03-30T10:00:07-03:30")), "2025-03-30T10:00:07-03:30");
  EXPECT_EQ(iso_text(at("1969-12-31T23:59:59Z")), "1969-12-31T23:59:59+00:00");
  EXPECT_EQ(at("2025-03-30T10:00+02:00"), at("2025-03-30T08:00Z"));
  EXPECT_LT(at("2025-03-30T10:00+02:00"), at("2025-03-30T10:00Z"));
  EXPECT_EQ(local_date(at("2025-03-30T00:30+02:00")), day("2025-03-30"));
  EXPECT_EQ(local_date(at("2025-03-30T23:30-05:00")), day("2025-03-30"));
}

TEST(ProcessMoment, refuses_what_is_no_moment) {
  const auto code_of = [](const char* text) {
    const auto moment = moment_from_iso(text, "applied");
    EXPECT_FALSE(moment.has_value()) << text;
    if (moment) return ErrorCode::io;
    EXPECT_EQ(moment.error().where, "applied");
    EXPECT_FALSE(moment.error().hint.empty());
    return moment.error().code;
  };
  for (const char* text :
       {"", "2025", "2025-03-30", "2025-3-30T10:00Z", "2025-03-30 10:00Z", "2025-02-29T10:00Z",
        "2025-13-01T10:00Z", "2025-00-01T10:00Z", "2025-03-30T24:00Z", "2025-03-30T10:60Z",
        "2025-03-30T10:00:60Z", "2025-03-30T10:00:Z", "2025-03-30T10:00Zx", "2025-03-30T10:00+2:00",
        "2025-03-30T10:00+0200", "2025-03-30T10:00+02:60", "2025-03-30T10:00 +02:00",
        "2025-03-30T10:00:00.5Z", "+025-03-30T10:00Z"}) {
    EXPECT_EQ(code_of(text), ErrorCode::malformed) << text;
  }
  EXPECT_EQ(code_of("2025-03-30T10:00"), ErrorCode::missing);
  EXPECT_EQ(code_of("2025-03-30T10:00:00"), ErrorCode::missing);
  EXPECT_EQ(code_of("2025-03-30T10:00-00:00"), ErrorCode::missing);
  EXPECT_EQ(code_of("2025-03-30T10:00+14:01"), ErrorCode::out_of_range);
  EXPECT_EQ(code_of("1899-12-31T10:00Z"), ErrorCode::out_of_range);
  EXPECT_EQ(code_of("2201-01-01T10:00Z"), ErrorCode::out_of_range);
  EXPECT_TRUE(moment_from_iso("2025-03-30T10:00-14:00").has_value());
}

TEST(ProcessMoment, local_times_exist_never_once_or_twice_as_the_zone_database_has_them) {
  const Table table = test::test_table("calendar/clock_changes.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string name = *table.text(row, "zone") + " " + *table.text(row, "local_time");
    const ClockChange change{at(*table.text(row, "change_utc")).utc,
                             minutes(static_cast<int>(*table.number(row, "minutes_before"))),
                             minutes(static_cast<int>(*table.number(row, "minutes_after")))};
    const std::chrono::local_seconds local(
        at(*table.text(row, "local_time") + "Z").utc.time_since_epoch());
    const auto found = moments_showing(local, change);
    EXPECT_PUBLISHED("times a clock shows " + name, kZones, *table.number(row, "times_shown"),
                     static_cast<double>(found.size()), 0.5);
    for (const Moment& moment : found) {
      EXPECT_EQ(moment.utc.time_since_epoch() + moment.offset, local.time_since_epoch()) << name;
      EXPECT_EQ(on_clock(moment.utc, change).offset, moment.offset) << name;
    }
    if (found.size() == 2) {
      EXPECT_LT(found[0], found[1]) << name;
    }
  }
}

TEST(ProcessMoment, forty_eight_hours_pass_whatever_the_clocks_do) {
  const Table table = test::test_table("calendar/skin_test_windows.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const Moment applied = at(*table.text(row, "applied"));
    const Moment due = at(*table.text(row, "due"));
    const std::string name = *table.text(row, "zone") + " " + *table.text(row, "applied");
    EXPECT_PUBLISHED("hours to " + name + " due", kZones, 48, hours_between(applied, due), 1e-6);
    EXPECT_EQ(iso_text(hours_later(applied, 48, due.offset)), *table.text(row, "due"));
    EXPECT_EQ(iso_text(hours_later(due, -48, applied.offset)), *table.text(row, "applied"));
    const double on_the_wall =
        hours_between({applied.utc + applied.offset, minutes{0}}, {due.utc + due.offset, {}});
    EXPECT_EQ(on_the_wall, *table.number(row, "wall_clock_hours")) << name;
  }
}

TEST(ProcessMoment, steps_on_the_calendar) {
  const Table table = test::test_table("calendar/date_steps.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const year_month_day from = day(*table.text(row, "from"));
    const year_month_day to = day(*table.text(row, "to"));
    const int count = static_cast<int>(*table.number(row, "count"));
    const bool by_days = *table.text(row, "step") == "days";
    const year_month_day got = by_days ? days_later(from, count) : months_later(from, count);
    EXPECT_PUBLISHED(*table.text(row, "from") + " and " + std::to_string(count) + " " +
                         *table.text(row, "step") + " [days since 1970]",
                     kCalendar, days_since_epoch(to), days_since_epoch(got), 0.5);
    if (by_days) {
      EXPECT_EQ(days_between(from, to), count);
    }
  }
}

TEST(ProcessMoment, a_date_alone_is_read_and_written_back) {
  for (const char* text : {"1900-01-01", "2024-02-29", "2200-12-31"}) {
    const auto date = date_from_iso(text);
    ASSERT_TRUE(date) << text;
    EXPECT_EQ(iso_text(*date), text);
  }
  for (const char* text :
       {"", "2025-2-3", "2025-02-03T10:00Z", "2025/02/03", "20250203", "today"}) {
    const auto date = date_from_iso(text, "here");
    ASSERT_FALSE(date) << text;
    EXPECT_EQ(one_line(date.error()), "here: not a date; write it as 2025-03-30") << text;
  }
  EXPECT_EQ(date_from_iso("2025-02-29").error().message, "no calendar has this date");
  EXPECT_EQ(date_from_iso("1899-12-31").error().code, ErrorCode::out_of_range);
}

}  // namespace
}  // namespace hw::process
