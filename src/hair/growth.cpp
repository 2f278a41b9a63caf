#include "huewright/hair/growth.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "embedded.h"
#include "hair_tables.h"

namespace hw::hair {
namespace {

using std::chrono::sys_days;
using std::chrono::year_month_day;

constexpr double kSlowest = 100;               // µm/day: below the least of loussouarn_2001, 150
constexpr double kFastest = 700;               // µm/day: above published means plus 5 sd
constexpr double kMicrometresPerCm = 1e4;      // exact
constexpr double kDaysPerMonth = 365.25 / 12;  // Julian year over 12, exact by definition

Result<double> days_between(year_month_day from, year_month_day to) {
  if (!from.ok()) {
    return fail(ErrorCode::malformed, "is not a date", "from", "give a day of the calendar");
  }
  if (!to.ok()) {
    return fail(ErrorCode::malformed, "is not a date", "to", "give a day of the calendar");
  }
  const auto days = (sys_days{to} - sys_days{from}).count();
  if (days < 0) {
    return fail(ErrorCode::conflict, fmt::format("lies {} days before from", -days), "to",
                "give the earlier date first");
  }
  return static_cast<double>(days);
}

Result<void> check_length(double cm, const std::string& where) {
  if (cm >= 0 && std::isfinite(cm)) return {};
  return fail(ErrorCode::out_of_range, fmt::format("{:g} cm is not a length", cm), where,
              "give a stretched length, 0 cm or more");
}

/// Trims after `from` up to and on `to`, in the order of their dates. Errors name the trim.
Result<std::vector<Trim>> trims_between(std::span<const Trim> trims, year_month_day from,
                                        year_month_day to) {
  std::vector<Trim> inside;
  for (std::size_t i = 0; i < trims.size(); ++i) {
    const std::string at = fmt::format("trims[{}]", i);
    if (!trims[i].date.ok()) {
      return fail(ErrorCode::malformed, "is not a date", at + ".date", "give a calendar day");
    }
    if (auto good = check_length(trims[i].cm, at + ".cm"); !good) {
      return tl::unexpected(good.error());
    }
    const sys_days day{trims[i].date};
    if (day > sys_days{from} && day <= sys_days{to}) inside.push_back(trims[i]);
  }
  std::stable_sort(inside.begin(), inside.end(), [](const Trim& one, const Trim& other) {
    return sys_days{one.date} < sys_days{other.date};
  });
  return inside;
}

double cm_over(const GrowthRate& rate, double days) {
  return rate.um_per_day * days / kMicrometresPerCm;
}

}  // namespace

const std::vector<GrowthChoice>& growth_choices() {
  static const std::vector<GrowthChoice> choices = [] {
    const Table table = embedded(tables::growth_rates, "hair/growth_rates.csv");
    std::vector<GrowthChoice> made;
    for (std::size_t i = 0; i < table.rows(); ++i) {
      made.push_back(
          {sound(table.text(i, "choice")),
           {sound(table.number(i, "um_per_day")), sound(table.number(i, "sd_um_per_day"))}});
    }
    return made;
  }();
  return choices;
}

Result<GrowthChoice> growth_choice(const std::string& name) {
  for (const GrowthChoice& choice : growth_choices()) {
    if (choice.name == name) return choice;
  }
  return fail(ErrorCode::unknown_name, fmt::format("\"{}\" is not a growth rate", name), "growth",
              "say not judged, slow, medium or fast");
}

Result<Spread> grown_cm(const GrowthRate& rate, year_month_day from, year_month_day to) {
  if (auto good = checked(rate); !good) return tl::unexpected(good.error());
  return days_between(from, to).map([&](double days) {
    return Spread{cm_over(rate, days), rate.sd_um_per_day * days / kMicrometresPerCm};
  });
}

Result<Spread> history_months(double length_cm, const GrowthRate& rate) {
  if (auto good = checked(rate); !good) return tl::unexpected(good.error());
  if (auto good = check_length(length_cm, "length_cm"); !good) return tl::unexpected(good.error());
  const double months = length_cm * kMicrometresPerCm / rate.um_per_day / kDaysPerMonth;
  return Spread{months, months * rate.sd_um_per_day / rate.um_per_day};
}

Result<StrandPlace> place_now(double distance_then_cm, year_month_day then, year_month_day now,
                              const GrowthRate& rate, double length_now_cm) {
  if (auto good = check_length(distance_then_cm, "distance_then_cm"); !good) {
    return tl::unexpected(good.error());
  }
  if (auto good = check_length(length_now_cm, "length_now_cm"); !good) {
    return tl::unexpected(good.error());
  }
  const auto grown = grown_cm(rate, then, now);
  if (!grown) return tl::unexpected(grown.error());
  StrandPlace place;
  place.distance_cm = {distance_then_cm + grown->mean, grown->sd};
  const double room = length_now_cm - place.distance_cm.mean;
  if (grown->sd > 0) {
    place.chance_left = std::erfc(-room / grown->sd / std::sqrt(2.0)) / 2;
  } else {
    place.chance_left = room >= 0 ? 1 : 0;
  }
  return place;
}

Result<Spread> length_after(double length_cm, year_month_day from, year_month_day to,
                            const GrowthRate& rate, std::span<const Trim> trims) {
  if (auto good = check_length(length_cm, "length_cm"); !good) return tl::unexpected(good.error());
  const auto grown = grown_cm(rate, from, to);
  if (!grown) return tl::unexpected(grown.error());
  const auto cuts = trims_between(trims, from, to);
  if (!cuts) return tl::unexpected(cuts.error());
  double length = length_cm;
  sys_days at{from};
  for (const Trim& cut : *cuts) {
    const sys_days day{cut.date};
    length += cm_over(rate, static_cast<double>((day - at).count()));
    length = std::max(0.0, length - cut.cm);
    at = day;
  }
  length += cm_over(rate, static_cast<double>((sys_days{to} - at).count()));
  return Spread{length, grown->sd};
}

Result<Spread> length_before(double length_cm, year_month_day from, year_month_day to,
                             const GrowthRate& rate, std::span<const Trim> trims) {
  if (auto good = check_length(length_cm, "length_cm"); !good) return tl::unexpected(good.error());
  const auto grown = grown_cm(rate, from, to);
  if (!grown) return tl::unexpected(grown.error());
  const auto cuts = trims_between(trims, from, to);
  if (!cuts) return tl::unexpected(cuts.error());
  double length = length_cm - grown->mean;
  for (const Trim& cut : *cuts) length += cut.cm;
  return Spread{std::max(0.0, length), grown->sd};
}

Result<GrowthRate> checked(const GrowthRate& rate, const std::string& where) {
  if (!(rate.um_per_day >= kSlowest && rate.um_per_day <= kFastest)) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{:g} um a day is not a growth rate", rate.um_per_day),
                where + ".um_per_day",
                fmt::format("give {:g} to {:g} micrometres a day", kSlowest, kFastest));
  }
  if (!(rate.sd_um_per_day >= 0 && rate.sd_um_per_day <= rate.um_per_day)) {
    return fail(ErrorCode::out_of_range, fmt::format("{:g} is not a spread", rate.sd_um_per_day),
                where + ".sd_um_per_day", "give an sd from 0 up to the rate itself");
  }
  return rate;
}

}  // namespace hw::hair
