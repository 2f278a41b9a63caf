#include "huewright/book/reorder.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "huewright/process/moment.h"

namespace hw::book {
namespace {

constexpr double kWeeksPerYear = 365.25 / 7;
constexpr double kDaysPerWeek = 7;

/// Use of each whole week back from now, newest first; as many weeks as the ledger is old.
std::vector<double> use_by_week(std::span<const LedgerLine> movements,
                                std::chrono::sys_seconds now) {
  std::vector<double> use;
  for (const LedgerLine& line : movements) {
    const auto at = process::moment_from_iso(line.at);
    if (!at || at->utc > now) continue;
    const auto week = static_cast<std::size_t>((now - at->utc) / std::chrono::weeks(1));
    if (week >= kWeeksCounted) {
      use.resize(kWeeksCounted);
      continue;
    }
    if (week >= use.size()) use.resize(week + 1);
    const bool comes = line.why == "bought" || line.why == "returned";
    if (!line.counted && !comes) use[week] -= line.grams;
  }
  return use;
}

}  // namespace

double safety_stock(double z, double sd, double lead) {
  return z * sd * std::sqrt(lead);
}

double reorder_point(double use, double lead, double safety) {
  return use * lead + safety;
}

double economic_order(double use, double order_cost, double keeping) {
  return std::sqrt(2 * use * order_cost / keeping);
}

Advice advise(const OnShelf& product, std::span<const LedgerLine> movements,
              std::chrono::sys_seconds now) {
  Advice advice;
  advice.product = product.product.product.id;
  advice.grams = product.grams;
  const std::vector<double> use = use_by_week(movements, now);
  advice.weeks = static_cast<int>(use.size());
  advice.known = product.known && advice.weeks >= kFewestWeeks;
  if (!advice.known) return advice;
  double sum = 0;
  for (const double grams : use) sum += grams;
  advice.week_g = std::max(0.0, sum / advice.weeks);
  double squares = 0;
  for (const double grams : use) squares += (grams - advice.week_g) * (grams - advice.week_g);
  advice.week_sd_g = std::sqrt(squares / (advice.weeks - 1));
  if (advice.week_g > 0) advice.weeks_left = std::max(0.0, advice.grams) / advice.week_g;
  const double lead = product.product.lead_days / kDaysPerWeek;
  const double safety = safety_stock(kNotRunOut, advice.week_sd_g, lead);
  advice.order_at_g = reorder_point(advice.week_g, lead, safety);
  advice.order = advice.week_g > 0 && advice.grams <= advice.order_at_g;
  if (!advice.order) return advice;
  const double size = product.product.size_g;
  const double keeping = size > 0 ? product.product.price / size * kKeepingShare : 0;
  // Up to the point at least; then what costs least, or without costs what the wait uses up.
  advice.order_g = advice.order_at_g - advice.grams;
  advice.order_g +=
      keeping > 0 && product.product.order_cost > 0
          ? economic_order(advice.week_g * kWeeksPerYear, product.product.order_cost, keeping)
          : advice.week_g * std::max(lead, 1.0);
  if (size > 0) advice.packs = std::max(1, static_cast<int>(std::ceil(advice.order_g / size)));
  return advice;
}

}  // namespace hw::book
