#pragma once
// When to order, and how much: from what left the shelf in past weeks.
#include <chrono>
#include <span>
#include <string>

#include "huewright/book/next_case.h"

namespace hw::book {

/// Stock kept against a busy spell [the unit of sd]: z · sd · √lead. z: standard normal quantile of
/// the wish not to run out; sd: of one period's use; lead: periods from ordering to the shelf.
/// Source: bib inventory_exercises (E1).
[[nodiscard]] double safety_stock(double z, double sd, double lead);
/// Stock at which to order: use per period · lead + safety stock. Source: bib inventory_exercises.
[[nodiscard]] double reorder_point(double use, double lead, double safety);
/// Amount whose costs of ordering and of keeping are least: √(2 · use · order_cost ÷ keeping), use
/// and keeping cost of one unit over the same time. Source: bib inventory_exercises.
[[nodiscard]] double economic_order(double use, double order_cost, double keeping);

/// Not to run out 19 times in 20; house rule. Standard normal quantile of 0.95.
inline constexpr double kNotRunOut = 1.644854;
/// Cost of keeping stock for a year, as a share of its price; common practice, no source.
inline constexpr double kKeepingShare = 0.2;
/// Weeks of the ledger that count, and fewest that say anything; house rule.
inline constexpr int kWeeksCounted = 26;
inline constexpr int kFewestWeeks = 4;

struct Advice {
  std::string product;
  bool known = false;     ///< enough weeks, and a stock that was once counted or bought
  int weeks = 0;          ///< of the ledger that counted
  double grams = 0;       ///< at hand
  double week_g = 0;      ///< mean use of a week
  double week_sd_g = 0;   ///< spread of that, sample standard deviation
  double weeks_left = 0;  ///< at that use; 0 where nothing was used
  double order_at_g = 0;  ///< reorder point
  bool order = false;     ///< at or below it
  double order_g = 0;     ///< how much, where it says so
  int packs = 0;          ///< the same in whole tubes or tubs; 0: their size is not known
};

/// Advice on one product. movements: all of its ledger; now: UTC. Use is what left, by bowls less
/// what was put back, and what was spoilt, used up or sold; what was bought, returned or found by
/// counting is none.
[[nodiscard]] Advice advise(const OnShelf& product, std::span<const LedgerLine> movements,
                            std::chrono::sys_seconds now);

}  // namespace hw::book
