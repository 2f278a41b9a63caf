#pragma once
// Time along the strand: hair x cm from the scalp left it x / rate ago. Dates are passed in;
// nothing here asks what day it is. Lengths are stretched lengths.
#include <chrono>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"

namespace hw::hair {

/// How fast one head grows, and how unsure that is [µm/day]. Both above 0; rate 100–700.
struct GrowthRate {
  double um_per_day = 300;
  double sd_um_per_day = 75;
};

/// A growth rate by name: "not judged", "slow", "medium", "fast".
struct GrowthChoice {
  std::string name;
  GrowthRate rate;
};
/// Source: data/hair/growth_rates.csv (published means and sd; "not judged" is a guess across
/// them).
[[nodiscard]] const std::vector<GrowthChoice>& growth_choices();
/// Error: unknown_name (where: "growth").
[[nodiscard]] Result<GrowthChoice> growth_choice(const std::string& name);

/// A value with its spread (1 sd); the unit is that of the function that returns it.
struct Spread {
  double mean = 0;
  double sd = 0;
};

/// A cut: how much came off the stretched length, and when.
struct Trim {
  std::chrono::year_month_day date;
  double cm = 0;
};

/// Length grown between two dates [cm]. from, to: valid dates, from not after to. The sd is that of
/// the rate, carried in full: a slow grower is slow every day.
/// Errors: not a date, or `to` before `from` (where: "from" or "to"); a rate outside its range.
/// 256 ± 44 µm/day over 42 days gives 1.08 ± 0.18 cm.
[[nodiscard]] Result<Spread> grown_cm(const GrowthRate& rate, std::chrono::year_month_day from,
                                      std::chrono::year_month_day to);

/// Months of history held by a stretched length [months of 365.25/12 days]: length / rate, sd to
/// first order. length_cm: 0 or more. Errors: a length below 0; a rate outside its range.
/// 12 cm at 256 ± 44 µm/day gives 15.4 ± 2.6 months.
[[nodiscard]] Result<Spread> history_months(double length_cm, const GrowthRate& rate);

/// Where on today's strand hair is that once was elsewhere on it.
struct StrandPlace {
  Spread distance_cm;      ///< from the scalp today, stretched
  double chance_left = 1;  ///< that it has not been cut off, 0–1 (normal error of the rate)
};

/// Where hair is now that was `distance_then_cm` from the scalp on a past date: it has moved out by
/// what grew since. An old dyed root (distance 0) of a year ago is found at the growth of a year.
/// distance_then_cm: 0 or more; length_now_cm: today's stretched length, 0 or more.
/// Errors: as grown_cm; a length below 0.
[[nodiscard]] Result<StrandPlace> place_now(double distance_then_cm,
                                            std::chrono::year_month_day then,
                                            std::chrono::year_month_day now, const GrowthRate& rate,
                                            double length_now_cm);

/// Length on a later date from an earlier one [cm]: plus growth, less the trims after `from` up to
/// and on `to`, each never cutting below 0. length_cm: on `from`, 0 or more.
/// Errors: as grown_cm; a trim below 0 or not dated (where: trims[i].…); a length below 0.
[[nodiscard]] Result<Spread> length_after(double length_cm, std::chrono::year_month_day from,
                                          std::chrono::year_month_day to, const GrowthRate& rate,
                                          std::span<const Trim> trims);

/// Length on an earlier date from a later one [cm]: less growth, plus the trims between; not below
/// 0. length_cm: on `to`, 0 or more. Errors: as length_after.
[[nodiscard]] Result<Spread> length_before(double length_cm, std::chrono::year_month_day from,
                                           std::chrono::year_month_day to, const GrowthRate& rate,
                                           std::span<const Trim> trims);

/// The rate, if hair can grow so. Errors: out_of_range, at where + ".um_per_day" or the sd's key.
[[nodiscard]] Result<GrowthRate> checked(const GrowthRate& rate,
                                         const std::string& where = "growth");

}  // namespace hw::hair
