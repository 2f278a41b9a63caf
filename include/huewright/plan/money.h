#pragma once
// What a visit costs the salon and asks of the client, as ranges, in the salon's own currency.
//   cost  = product + labour per hour · hours + overhead
//   price = (labour · hours + overhead + what product goes above its allowance) / (1 − margin)
// Doubt about grams and minutes adds in squares; a quote is that band, rounded outwards.
// Example terms: data/plan/price_terms.csv (terms of single salons, common practice).
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/base/statistics.h"

namespace hw::plan {

/// Something used up, from the shelf.
struct UsedProduct {
  std::string product;
  Band grams;              ///< ≥ 0
  double price_per_g = 0;  ///< ≥ 0
};

/// How a salon reckons.
struct PriceList {
  double labour_per_hour = 0;    ///< for one pair of hands, ≥ 0
  int hands = 1;                 ///< pairs that are paid for, 1–6
  double overhead = 0;           ///< per visit: gloves, foil, cap, towels, room; ≥ 0
  double product_allowance = 0;  ///< product up to this is in the labour's price, ≥ 0
  double margin = 0;             ///< share of the price that stays, 0–0.9
  double quote_step = 5;         ///< quotes are rounded outwards to it, > 0
};

struct VisitMoney {
  Band product;
  Band labour;
  Band cost;             ///< to the salon
  Band price;            ///< to the client
  double quote_low = 0;  ///< price band rounded outwards
  double quote_high = 0;
};
/// Money of one visit. minutes: of the visit, ≥ 0. Errors: a number outside its range or a band
/// out of order (out_of_range, where: "products[0].grams", "minutes", "prices.margin").
/// Worked: 100 g at 0.12, 5 h at 40, overhead 8: cost 220.
[[nodiscard]] Result<VisitMoney> visit_money(std::span<const UsedProduct> products,
                                             const Band& minutes, const PriceList& prices);

/// A quote over several visits: low with low, high with high, so that no total surprises.
struct Quote {
  double low = 0;
  double high = 0;
  double deposit = 0;
  std::string sentence;  ///< "2 visits, 350 to 420 together; deposit 50."
};

/// Deposits by price: the last tier whose price is reached. Tiers in any order.
struct DepositTier {
  double from = 0;     ///< price, ≥ 0
  double deposit = 0;  ///< ≥ 0
};
/// 50 from 100, 100 from 400: published terms of one salon; an example.
[[nodiscard]] std::vector<DepositTier> example_deposits();
/// The deposit for a price; 0 below every tier.
[[nodiscard]] double deposit_for(double price, std::span<const DepositTier> tiers);
/// The quote of some visits; deposit by the low end of the whole.
[[nodiscard]] Quote quote_for(std::span<const VisitMoney> visits,
                              std::span<const DepositTier> tiers);

/// What running over costs: minutes above the booked ones and the free hour, at so much an hour.
/// All ≥ 0. Worked: 300 booked, 390 taken, 40 an hour: 20.
[[nodiscard]] double over_run_charge(double booked_min, double taken_min, double per_hour);
[[nodiscard]] double over_run_charge(double booked_min, double taken_min, double per_hour,
                                     double free_min);

/// Something that returns through a year.
struct Upkeep {
  std::string what;
  double times_a_year = 0;  ///< ≥ 0
  Band price;               ///< of one, ≥ 0
};
/// What keeping a colour costs in a year: visits and what is bought for home. Bands add in plain
/// sums: a dear salon is dear each time. Worked: 8 × 60 + 3 × 180 + 150 = 1170.
[[nodiscard]] Band yearly_upkeep(std::span<const Upkeep> items, double home_products);
/// Visits that fit into a year of 52.18 weeks at an interval [1]. weeks > 0.
[[nodiscard]] double times_a_year(double weeks);
/// Weeks until regrowth is so long [weeks]. mm ≥ 0; um_per_day > 0.
/// Worked: 11 mm at 256 µm a day: 6.1.
[[nodiscard]] double weeks_to_regrow(double mm, double um_per_day);

/// True when stock no longer covers use until the next delivery and what is kept in reserve.
/// All in grams and weeks, ≥ 0. Source: common practice, no source.
[[nodiscard]] bool reorder_due(double stock_g, double use_g_per_week, double lead_weeks,
                               double reserve_g);

}  // namespace hw::plan
