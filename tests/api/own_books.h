#pragma once
// What a test keeps beside the program: a salon's calendar, shelf and till in whole numbers,
// reckoned without any of the program's code.
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace hw::test {

using Tenths = long long;  ///< of a gram
using Cents = long long;   ///< of the salon's currency

/// A day by its Julian day number (the one that begins at noon); 2000-01-01 is 2451545.
/// Source: Fliegel and Van Flandern 1968, A machine algorithm for processing calendar dates,
/// Communications of the ACM 11(10):657 (formulas from memory, known days checked in the test).
using JulianDay = long long;
[[nodiscard]] JulianDay julian_day(int year, int month, int day);
/// "2025-05-14".
[[nodiscard]] std::string date_text(JulianDay day);

/// Clocks of central Europe: one hour ahead of UTC, two from the last Sunday of March to that of
/// October, changed at 01:00 UTC. Source: directive 2000/84/EC, articles 1 to 3.
inline constexpr const char* kZone = "TZ=CET-1CEST,M3.5.0,M10.5.0/3";
/// Hours that this day's clock is ahead of UTC, from breakfast on.
[[nodiscard]] int hours_ahead(JulianDay day);

/// A minute of the salon's clock. minute: of the day, 03:00 or later.
struct ClockTime {
  JulianDay day = 0;
  int minute = 0;
  [[nodiscard]] std::string iso() const;  ///< 2025-05-14T10:00:00+02:00
  [[nodiscard]] std::string utc() const;  ///< 2025-05-14T08:00:00Z
};
/// So many hours before or after on the stopwatch, as a clock that is `ahead` of UTC shows it.
[[nodiscard]] std::string iso_hours_later(const ClockTime& from, int hours, int ahead);
[[nodiscard]] ClockTime now_in_the_salon();

struct Moved {
  std::string why, visit, at;
  JulianDay day = 0;
  Tenths grams = 0;
  bool counted = false;
};

struct OwnProduct {
  Tenths size = 0;
  Cents price = 0, order_cost = 0;
  int lead_days = 0;
  std::vector<Moved> moves;  ///< in the order in which they were written down
  [[nodiscard]] Tenths grams() const;
};

struct OwnBowl {
  std::map<std::string, Tenths> grams;
  Tenths thrown_away = 0;
};

struct OwnVisit {
  std::string client, stage = "booked";
  ClockTime starts;
  std::optional<Cents> price;
  Cents paid = 0;
  std::map<std::string, OwnBowl> bowls;
  std::string refresh_on, regrowth_on;
};

/// What `shelf reorder` has to say of a product.
struct OwnAdvice {
  double week_g = 0, sd_g = 0, order_at_g = 0, order_g = 0;
  int packs = 0;
  bool order = false;
};
/// Reorder at use × lead + z·sd·√lead and buy up to there and an economic lot more: the textbook
/// rules of tests/data/inventory. Weeks of 7 days back from now, 26 of them.
[[nodiscard]] OwnAdvice advice_of(const OwnProduct& product, JulianDay today);

/// The salon's own accounts.
struct OwnBooks {
  std::map<std::string, OwnProduct> shelf;
  std::map<std::string, OwnVisit> visits;
  /// What the products of one visit cost, in cents × tenths of a gram ÷ size: exact as a fraction.
  [[nodiscard]] double cost_of(const OwnVisit& visit) const;
};

/// Whole numbers as JSON or CSV has them: 405 tenths are "40.5", 8400 cents are "84".
[[nodiscard]] std::string decimal(long long value, int digits);

}  // namespace hw::test
