#include "huewright/process/moment.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <optional>

#include "huewright/base/check.h"

namespace hw::process {
namespace {

using std::chrono::days;
using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_days;
using std::chrono::year_month_day;

constexpr int kFirstYear = 1900;                    // no client and no record is older
constexpr int kLastYear = 2200;                     // a slip of the pen beyond it
constexpr int kMinutesPerHour = 60;                 // exact
constexpr minutes kFarthest{14 * kMinutesPerHour};  // easternmost clocks of the Pacific: UTC+14

/// Eats characters from the front of a text.
class Reader {
 public:
  explicit Reader(std::string_view text) : rest_(text) {}
  /// A number of exactly `digits` digits.
  std::optional<int> number(std::size_t digits) {
    if (rest_.size() < digits) return std::nullopt;
    for (std::size_t i = 0; i < digits; ++i) {
      if (rest_[i] < '0' || rest_[i] > '9') return std::nullopt;
    }
    int value = 0;
    std::from_chars(rest_.data(), rest_.data() + digits, value);
    rest_.remove_prefix(digits);
    return value;
  }
  bool take(char c) {
    if (!at(c)) return false;
    rest_.remove_prefix(1);
    return true;
  }
  [[nodiscard]] bool at(char c) const { return !rest_.empty() && rest_.front() == c; }
  [[nodiscard]] bool at_end() const { return rest_.empty(); }

 private:
  std::string_view rest_;
};

struct Written {
  int year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0;
};

/// Two digits after a separator, into a field; false when they are not there.
bool field(Reader& reader, char separator, int& into) {
  if (!reader.take(separator)) return false;
  const auto value = reader.number(2);
  if (value) into = *value;
  return value.has_value();
}

/// The date at the front of a text; false when there is none.
bool written_date(Reader& reader, Written& w) {
  const auto year = reader.number(4);
  w.year = year.value_or(0);
  return year && field(reader, '-', w.month) && field(reader, '-', w.day);
}

std::optional<Written> written(Reader& reader) {
  Written w;
  if (!written_date(reader, w) || !field(reader, 'T', w.hour) || !field(reader, ':', w.minute)) {
    return std::nullopt;
  }
  if (reader.at(':') && !field(reader, ':', w.second)) return std::nullopt;
  return w;
}

Result<minutes> offset_of(Reader& reader, const std::string& where) {
  const auto none = [&] {
    return fail(ErrorCode::missing, "a time without its offset from UTC", where,
                "write the offset, such as +02:00, or Z for UTC");
  };
  if (reader.at_end()) return none();
  if (reader.take('Z')) return minutes{0};
  const bool west = reader.take('-');
  if (!west && !reader.take('+')) {
    return fail(ErrorCode::malformed, "not an offset from UTC", where, "write it as +02:00 or Z");
  }
  const auto hour = reader.number(2);
  int minute = 0;
  if (!hour || !field(reader, ':', minute) || minute >= kMinutesPerHour) {
    return fail(ErrorCode::malformed, "not an offset from UTC", where, "write it as +02:00 or Z");
  }
  const minutes away{*hour * kMinutesPerHour + minute};
  if (west && away == minutes{0}) return none();
  if (away > kFarthest) {
    return fail(ErrorCode::out_of_range, "an offset of more than 14 hours from UTC", where,
                "check the offset");
  }
  return west ? -away : away;
}

year_month_day date_of(int year, int month, int day) {
  return {std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
          std::chrono::day(static_cast<unsigned>(day))};
}

Result<void> check_year(int year, const std::string& where) {
  if (year >= kFirstYear && year <= kLastYear) return {};
  return fail(ErrorCode::out_of_range,
              fmt::format("year {} is outside {} to {}", year, kFirstYear, kLastYear), where,
              "check the year");
}

}  // namespace

Result<Moment> moment_from_iso(std::string_view text, const std::string& where) {
  Reader reader(text);
  const auto w = written(reader);
  constexpr const char* kHint = "write it as 2025-03-30T10:00+02:00";
  if (!w) return fail(ErrorCode::malformed, "not a date and time", where, kHint);
  const auto offset = offset_of(reader, where);
  if (!offset) return tl::unexpected(offset.error());
  if (!reader.at_end()) {
    return fail(ErrorCode::malformed, "something stands behind the time", where, kHint);
  }
  const year_month_day date = date_of(w->year, w->month, w->day);
  constexpr int kHoursPerDay = 24;
  constexpr int kSecondsPerMinute = 60;
  if (!date.ok() || w->hour >= kHoursPerDay || w->minute >= kMinutesPerHour ||
      w->second >= kSecondsPerMinute) {
    return fail(ErrorCode::malformed, "no calendar or clock has this date and time", where, kHint);
  }
  if (const auto year = check_year(w->year, where); !year) return tl::unexpected(year.error());
  return Moment{sys_days(date) + std::chrono::hours(w->hour) + minutes(w->minute) +
                    seconds(w->second) - *offset,
                *offset};
}

Result<year_month_day> date_from_iso(std::string_view text, const std::string& where) {
  Reader reader(text);
  Written w;
  const bool formed = written_date(reader, w) && reader.at_end();
  const year_month_day date = date_of(w.year, w.month, w.day);
  if (!formed || !date.ok()) {
    return fail(ErrorCode::malformed, formed ? "no calendar has this date" : "not a date", where,
                "write it as 2025-03-30");
  }
  if (const auto year = check_year(w.year, where); !year) return tl::unexpected(year.error());
  return date;
}

std::string iso_text(year_month_day date) {
  HW_CHECK(date.ok());
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string iso_text(const Moment& moment) {
  const auto local = moment.utc + moment.offset;
  const auto midnight = std::chrono::floor<days>(local);
  const year_month_day date(midnight);
  const std::chrono::hh_mm_ss clock(local - midnight);
  const minutes away = std::chrono::abs(moment.offset);
  return fmt::format(
      "{:04}-{:02}-{:02}T{:02}:{:02}:{:02}{}{:02}:{:02}", static_cast<int>(date.year()),
      static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), clock.hours().count(),
      clock.minutes().count(), clock.seconds().count(), moment.offset < minutes{0} ? '-' : '+',
      away.count() / kMinutesPerHour, away.count() % kMinutesPerHour);
}

year_month_day local_date(const Moment& moment) {
  return year_month_day(std::chrono::floor<days>(moment.utc + moment.offset));
}

double hours_between(const Moment& from, const Moment& to) {
  return std::chrono::duration<double, std::ratio<3600>>(to.utc - from.utc).count();
}

Moment hours_later(const Moment& from, double hours, minutes offset) {
  HW_CHECK(std::isfinite(hours));
  constexpr double kSecondsPerHour = 3600;
  return {from.utc + seconds(std::llround(hours * kSecondsPerHour)), offset};
}

int days_between(year_month_day from, year_month_day to) {
  HW_CHECK(from.ok() && to.ok());
  return static_cast<int>((sys_days(to) - sys_days(from)).count());
}

year_month_day days_later(year_month_day from, int count) {
  HW_CHECK(from.ok());
  return sys_days(from) + days(count);
}

year_month_day months_later(year_month_day from, int months) {
  HW_CHECK(from.ok());
  const year_month_day there = from + std::chrono::months(months);
  if (there.ok()) return there;
  return there.year() / there.month() / std::chrono::last;
}

std::vector<Moment> moments_showing(std::chrono::local_seconds local, const ClockChange& change) {
  const std::chrono::sys_seconds as_utc(local.time_since_epoch());
  std::vector<Moment> found;
  const Moment before{as_utc - change.before, change.before};
  const Moment after{as_utc - change.after, change.after};
  if (before.utc < change.at) found.push_back(before);
  if (after.utc >= change.at) found.push_back(after);
  return found;
}

Moment on_clock(std::chrono::sys_seconds instant, const ClockChange& change) {
  return {instant, instant < change.at ? change.before : change.after};
}

}  // namespace hw::process
