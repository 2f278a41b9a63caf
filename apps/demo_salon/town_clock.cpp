#include "town_clock.h"

#include <cmath>

#include "huewright/base/check.h"

namespace hw::demo {
namespace {

using std::chrono::sys_days;
using std::chrono::sys_seconds;

sys_seconds last_sunday(std::chrono::year year, std::chrono::month month) {
  return sys_days(year / month / std::chrono::Sunday[std::chrono::last]) + std::chrono::hours(1);
}

}  // namespace

std::chrono::minutes town_offset(sys_seconds instant) {
  const Date date(std::chrono::floor<std::chrono::days>(instant));
  const bool summer = instant >= last_sunday(date.year(), std::chrono::March) &&
                      instant < last_sunday(date.year(), std::chrono::October);
  return std::chrono::hours(summer ? 2 : 1);
}

process::Moment town_time(Date date, int minute) {
  constexpr int kAfterChanges = 180, kMinutesPerDay = 1440;
  HW_CHECK(minute >= kAfterChanges && minute < kMinutesPerDay);
  const sys_seconds wall = sys_days(date) + std::chrono::minutes(minute);
  const auto offset = town_offset(wall - std::chrono::hours(2));
  return {wall - offset, offset};
}

process::Moment later(const process::Moment& from, double minutes) {
  constexpr double kSecondsPerMinute = 60;
  const sys_seconds utc =
      from.utc + std::chrono::seconds(std::llround(minutes * kSecondsPerMinute));
  return {utc, town_offset(utc)};
}

}  // namespace hw::demo
