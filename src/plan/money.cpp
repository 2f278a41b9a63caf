#include "huewright/plan/money.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "figures.h"
#include "plan_tables.h"

namespace hw::plan {
namespace {

constexpr double kMinutesPerHour = 60;      // exact
constexpr double kDaysPerWeek = 7;          // exact
constexpr double kMicrometresPerMm = 1000;  // exact
constexpr double kMost = 1e9;               // of any currency, gram or minute: a slip of the pen
constexpr double kNoise = 1e-9;             // of arithmetic [currency]

double term(std::string_view id) {
  static const Table table = embedded_table(tables::price_terms, "plan/price_terms.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (*table.text(row, "id") == id) return *table.number(row, "value");
  }
  HW_CHECK(false);
  return 0;
}

bool in(double value, double low, double high) {
  return value >= low && value <= high;
}

bool is_band(const Band& band) {
  return in(band.low, 0, kMost) && band.low <= band.mid && band.mid <= band.high &&
         band.high <= kMost;
}

tl::unexpected<Error> outside(std::string where) {
  return fail(ErrorCode::out_of_range, "a number outside its range", std::move(where),
              "check the number and its unit");
}

Result<void> checked(std::span<const UsedProduct> products, const Band& minutes,
                     const PriceList& prices) {
  for (std::size_t i = 0; i < products.size(); ++i) {
    if (!is_band(products[i].grams)) return outside(fmt::format("products[{}].grams", i));
    if (!in(products[i].price_per_g, 0, kMost)) {
      return outside(fmt::format("products[{}].price_per_g", i));
    }
  }
  if (!is_band(minutes)) return outside("minutes");
  if (!in(prices.labour_per_hour, 0, kMost)) return outside("prices.labour_per_hour");
  if (!in(prices.hands, 1, 6)) return outside("prices.hands");
  if (!in(prices.overhead, 0, kMost)) return outside("prices.overhead");
  if (!in(prices.product_allowance, 0, kMost)) return outside("prices.product_allowance");
  if (!in(prices.margin, 0, 0.9)) return outside("prices.margin");
  if (!in(prices.quote_step, kNoise, kMost)) return outside("prices.quote_step");
  return {};
}

/// Sum of two bands whose doubts know nothing of each other.
Band plus(const Band& a, const Band& b) {
  const auto squares = [](double x, double y) { return std::sqrt(x * x + y * y); };
  const double mid = a.mid + b.mid;
  return {mid - squares(a.mid - a.low, b.mid - b.low), mid,
          mid + squares(a.high - a.mid, b.high - b.mid)};
}

template <class F>
Band each(const Band& band, F change) {
  return {change(band.low), change(band.mid), change(band.high)};
}

}  // namespace

Result<VisitMoney> visit_money(std::span<const UsedProduct> products, const Band& minutes,
                               const PriceList& prices) {
  if (const auto sound = checked(products, minutes, prices); !sound) {
    return tl::unexpected(sound.error());
  }
  VisitMoney money;
  // One head is dense or thin for every bowl, so grams add edge by edge.
  for (const UsedProduct& one : products) {
    money.product.low += one.grams.low * one.price_per_g;
    money.product.mid += one.grams.mid * one.price_per_g;
    money.product.high += one.grams.high * one.price_per_g;
  }
  const double per_minute = prices.labour_per_hour * prices.hands / kMinutesPerHour;
  money.labour = each(minutes, [&](double m) { return m * per_minute; });
  money.cost =
      each(plus(money.product, money.labour), [&](double c) { return c + prices.overhead; });
  const Band charged =
      each(money.product, [&](double p) { return std::max(0.0, p - prices.product_allowance); });
  money.price = each(plus(charged, money.labour),
                     [&](double p) { return (p + prices.overhead) / (1 - prices.margin); });
  const double step = prices.quote_step;
  money.quote_low = std::floor(money.price.low / step + kNoise) * step;
  money.quote_high = std::ceil(money.price.high / step - kNoise) * step;
  return money;
}

std::vector<DepositTier> example_deposits() {
  return {{term("deposit_from_low"), term("deposit_low")},
          {term("deposit_from_high"), term("deposit_high")}};
}

double deposit_for(double price, std::span<const DepositTier> tiers) {
  const DepositTier* reached = nullptr;
  for (const DepositTier& tier : tiers) {
    if (price >= tier.from && (!reached || tier.from >= reached->from)) reached = &tier;
  }
  return reached ? reached->deposit : 0;
}

Quote quote_for(std::span<const VisitMoney> visits, std::span<const DepositTier> tiers) {
  Quote quote;
  for (const VisitMoney& visit : visits) {
    quote.low += visit.quote_low;
    quote.high += visit.quote_high;
  }
  quote.deposit = deposit_for(quote.low, tiers);
  quote.sentence = fmt::format(
      "{} visit{}, {:.10g} to {:.10g}{}{}", visits.size(), visits.size() == 1 ? "" : "s", quote.low,
      quote.high, visits.size() == 1 ? "" : " together",
      quote.deposit > 0 ? fmt::format("; deposit {:.10g}.", quote.deposit) : std::string("."));
  return quote;
}

double over_run_charge(double booked_min, double taken_min, double per_hour, double free_min) {
  HW_CHECK(booked_min >= 0 && taken_min >= 0 && per_hour >= 0 && free_min >= 0);
  return std::max(0.0, taken_min - booked_min - free_min) * per_hour / kMinutesPerHour;
}

double over_run_charge(double booked_min, double taken_min, double per_hour) {
  return over_run_charge(booked_min, taken_min, per_hour, term("over_run_free"));
}

Band yearly_upkeep(std::span<const Upkeep> items, double home_products) {
  HW_CHECK(home_products >= 0);
  Band year{home_products, home_products, home_products};
  for (const Upkeep& one : items) {
    HW_CHECK(one.times_a_year >= 0 && is_band(one.price));
    year.low += one.times_a_year * one.price.low;
    year.mid += one.times_a_year * one.price.mid;
    year.high += one.times_a_year * one.price.high;
  }
  return year;
}

double times_a_year(double weeks) {
  HW_CHECK(weeks > 0);
  return term("weeks_per_year") / weeks;
}

double weeks_to_regrow(double mm, double um_per_day) {
  HW_CHECK(mm >= 0 && um_per_day > 0);
  return mm * kMicrometresPerMm / um_per_day / kDaysPerWeek;
}

bool reorder_due(double stock_g, double use_g_per_week, double lead_weeks, double reserve_g) {
  HW_CHECK(stock_g >= 0 && use_g_per_week >= 0 && lead_weeks >= 0 && reserve_g >= 0);
  return stock_g < use_g_per_week * lead_weeks + reserve_g;
}

}  // namespace hw::plan
