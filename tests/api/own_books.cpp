#include "own_books.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>

namespace hw::test {
namespace {

constexpr long long kMinutesPerDay = 24 * 60;
constexpr JulianDay kUnixDay = 2440588;  // 1970-01-01
constexpr int kDaysPerWeek = 7;
constexpr int kWeeks = 26;

struct Civil {
  int year = 0, month = 0, day = 0;
};

Civil civil_of(JulianDay day) {
  long long l = day + 68569;
  const long long n = 4 * l / 146097;
  l -= (146097 * n + 3) / 4;
  const long long i = 4000 * (l + 1) / 1461001;
  l -= 1461 * i / 4 - 31;
  const long long j = 80 * l / 2447;
  const long long d = l - 2447 * j / 80;
  l = j / 11;
  return {static_cast<int>(100 * (n - 49) + i + l), static_cast<int>(j + 2 - 12 * l),
          static_cast<int>(d)};
}

/// Day number 0 was a Monday.
JulianDay last_sunday(int year, int month) {
  JulianDay day = julian_day(year, month, 31);
  while (day % kDaysPerWeek != 6) --day;
  return day;
}

/// Minutes of UTC since 1970 as a clock ahead of it shows them.
std::string shown(long long utc_minutes, int ahead) {
  const long long minutes = utc_minutes + ahead * 60;
  const long long of_day = minutes % kMinutesPerDay;
  return fmt::format("{}T{:02}:{:02}:00", date_text(kUnixDay + minutes / kMinutesPerDay),
                     of_day / 60, of_day % 60);
}

long long utc_minutes(const ClockTime& time) {
  return (time.day - kUnixDay) * kMinutesPerDay + time.minute - hours_ahead(time.day) * 60;
}

}  // namespace

JulianDay julian_day(int year, int month, int day) {
  const int early = (month - 14) / 12;  // −1 in January and February
  return day - 32075 + 1461 * (year + 4800 + early) / 4 + 367 * (month - 2 - early * 12) / 12 -
         3 * ((year + 4900 + early) / 100) / 4;
}

std::string date_text(JulianDay day) {
  const Civil civil = civil_of(day);
  return fmt::format("{:04}-{:02}-{:02}", civil.year, civil.month, civil.day);
}

int hours_ahead(JulianDay day) {
  const int year = civil_of(day).year;
  return day >= last_sunday(year, 3) && day < last_sunday(year, 10) ? 2 : 1;
}

std::string ClockTime::iso() const {
  return iso_hours_later(*this, 0, hours_ahead(day));
}

std::string ClockTime::utc() const {
  return shown(utc_minutes(*this), 0) + "Z";
}

std::string iso_hours_later(const ClockTime& from, int hours, int ahead) {
  return shown(utc_minutes(from) + hours * 60, ahead) + fmt::format("+{:02}:00", ahead);
}

ClockTime now_in_the_salon() {
  const long long utc = std::time(nullptr) / 60;
  const auto shown_with = [&](int ahead) {
    const long long minutes = utc + ahead * 60;
    return ClockTime{kUnixDay + minutes / kMinutesPerDay,
                     static_cast<int>(minutes % kMinutesPerDay)};
  };
  return shown_with(hours_ahead(shown_with(1).day));
}

Tenths OwnProduct::grams() const {
  Tenths sum = 0;
  for (const Moved& moved : moves) sum = moved.counted ? moved.grams : sum + moved.grams;
  return sum;
}

OwnAdvice advice_of(const OwnProduct& product, JulianDay today) {
  std::vector<Tenths> use(kWeeks);
  for (const Moved& moved : product.moves) {
    const auto week = static_cast<std::size_t>((today - moved.day) / kDaysPerWeek);
    if (week < use.size() && !moved.counted && moved.why != "bought") use[week] -= moved.grams;
  }
  Tenths sum = 0;
  for (const Tenths one : use) sum += one;
  OwnAdvice advice;
  advice.week_g = static_cast<double>(sum) / kWeeks / 10;
  double squares = 0;
  for (const Tenths one : use) {
    const double off = static_cast<double>(one * kWeeks - sum) / kWeeks / 10;
    squares += off * off;
  }
  advice.sd_g = std::sqrt(squares / (kWeeks - 1));
  const double lead = static_cast<double>(product.lead_days) / kDaysPerWeek;
  const double z = 1.644854;  // normal table, 0.95
  advice.order_at_g = advice.week_g * lead + z * advice.sd_g * std::sqrt(lead);
  const double grams = static_cast<double>(product.grams()) / 10;
  advice.order = sum > 0 && grams <= advice.order_at_g;
  if (!advice.order) return advice;
  const double size = static_cast<double>(product.size) / 10;
  const double kept_a_year = static_cast<double>(product.price) / 100 / size * 0.2;
  const double lot = product.order_cost > 0
                         ? std::sqrt(2 * advice.week_g * (365.25 / kDaysPerWeek) *
                                     (static_cast<double>(product.order_cost) / 100) / kept_a_year)
                         : advice.week_g * std::max(lead, 1.0);
  advice.order_g = advice.order_at_g - grams + lot;
  advice.packs = std::max(1, static_cast<int>(std::ceil(advice.order_g / size)));
  return advice;
}

double OwnBooks::cost_of(const OwnVisit& visit) const {
  double cents = 0;
  for (const auto& [name, bowl] : visit.bowls) {
    for (const auto& [id, tenths] : bowl.grams) {
      const OwnProduct& product = shelf.at(id);
      cents += static_cast<double>(tenths * product.price) / static_cast<double>(product.size);
    }
  }
  return cents;
}

std::string decimal(long long value, int digits) {
  std::string text = fmt::format("{:0{}}", std::llabs(value), digits + 1);
  text.insert(text.size() - static_cast<std::size_t>(digits), ".");
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return (value < 0 ? "-" : "") + text;
}

}  // namespace hw::test
