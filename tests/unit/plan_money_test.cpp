#include "huewright/plan/money.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

const test::Source kSalon{"common practice, no source",
                          "published terms of one natural-hair salon"};
const test::Source kExample{"own derivation", "worked example with made-up prices"};

VisitMoney money(const std::vector<UsedProduct>& products, const Band& minutes,
                 const PriceList& prices) {
  const auto made = visit_money(products, minutes, prices);
  EXPECT_TRUE(made.has_value());
  return made.value_or(VisitMoney{});
}

PriceList usual() {
  return {.labour_per_hour = 40, .overhead = 8};
}

TEST(PlanMoney, product_by_the_gram_and_hands_by_the_hour) {
  const auto made = money({{"red", {80, 100, 130}, 0.12}}, {240, 300, 390}, usual());
  EXPECT_NEAR(made.product.mid, 12, 1e-9);
  EXPECT_NEAR(made.labour.mid, 200, 1e-9);
  EXPECT_NEAR(made.cost.mid, 220, 1e-9);
  EXPECT_NEAR(made.price.mid, 220, 1e-9);
  EXPECT_LT(made.cost.low, made.cost.mid);
  EXPECT_GT(made.cost.high, made.cost.mid);
  EXPECT_PUBLISHED("price of a gram, 7 for two ounces", {"own derivation", "a stylist, 2012"}, 0.12,
                   7 / (2 * 28.349523125), 0.005);
}

TEST(PlanMoney, a_quote_is_a_range_rounded_outwards) {
  const auto made = money({{"red", {80, 100, 130}, 0.12}}, {240, 300, 390}, usual());
  EXPECT_LE(made.quote_low, made.price.low);
  EXPECT_GE(made.quote_high, made.price.high);
  EXPECT_GT(made.quote_low, made.price.low - 5);
  EXPECT_LT(made.quote_high, made.price.high + 5);
  EXPECT_EQ(std::fmod(made.quote_low, 5), 0);
  const auto exact = money({}, {300, 300, 300}, {.labour_per_hour = 40});
  EXPECT_EQ(exact.quote_low, 200);
  EXPECT_EQ(exact.quote_high, 200);
}

TEST(PlanMoney, margin_and_allowance_move_the_price_and_not_the_cost) {
  const std::vector<UsedProduct> products{{"red", {100, 100, 100}, 0.5}};
  const Band minutes{60, 60, 60};
  PriceList prices = usual();
  const auto plain = money(products, minutes, prices);
  EXPECT_NEAR(plain.price.mid, 40 + 50 + 8, 1e-9);
  prices.margin = 0.5;
  EXPECT_NEAR(money(products, minutes, prices).price.mid, 2 * 98, 1e-9);
  EXPECT_EQ(money(products, minutes, prices).cost.mid, plain.cost.mid);
  prices.margin = 0;
  prices.product_allowance = 30;
  EXPECT_NEAR(money(products, minutes, prices).price.mid, 98 - 30, 1e-9);
  prices.product_allowance = 60;  // no money back for what was not used
  EXPECT_NEAR(money(products, minutes, prices).price.mid, 48, 1e-9);
  prices.hands = 2;
  EXPECT_NEAR(money(products, minutes, prices).price.mid, 88, 1e-9);
}

TEST(PlanMoney, quotes_cover_all_visits_and_name_the_deposit) {
  const auto tiers = example_deposits();
  EXPECT_PUBLISHED("deposit from 100", kSalon, 50, deposit_for(100, tiers), 0.01);
  EXPECT_PUBLISHED("deposit from 400", kSalon, 100, deposit_for(400, tiers), 0.01);
  EXPECT_EQ(deposit_for(99.99, tiers), 0);
  EXPECT_EQ(deposit_for(399.99, tiers), 50);
  VisitMoney visit;
  visit.quote_low = 200;
  visit.quote_high = 240;
  const Quote one = quote_for(std::vector{visit}, tiers);
  EXPECT_EQ(one.sentence, "1 visit, 200 to 240; deposit 50.");
  const Quote two = quote_for(std::vector{visit, visit}, tiers);
  EXPECT_EQ(two.low, 400);
  EXPECT_EQ(two.high, 480);
  EXPECT_EQ(two.sentence, "2 visits, 400 to 480 together; deposit 100.");
}

TEST(PlanMoney, an_hour_of_over_run_is_free) {
  EXPECT_EQ(over_run_charge(300, 360, 40), 0);
  EXPECT_NEAR(over_run_charge(300, 390, 40), 20, 1e-9);
  EXPECT_EQ(over_run_charge(300, 200, 40), 0);
  EXPECT_NEAR(over_run_charge(300, 390, 40, 0), 60, 1e-9);
}

TEST(PlanMoney, a_year_of_upkeep) {
  const std::vector<Upkeep> items{{"gloss", 8, {55, 60, 70}},
                                  {"lift and retouch", 3, {170, 180, 200}}};
  const Band year = yearly_upkeep(items, 150);
  EXPECT_PUBLISHED("year of 8 glosses, 3 retouches and home products", kExample, 1170, year.mid,
                   0.5);
  EXPECT_NEAR(year.low, 8 * 55 + 3 * 170 + 150, 1e-9);
  EXPECT_NEAR(year.high, 8 * 70 + 3 * 200 + 150, 1e-9);
  EXPECT_NEAR(times_a_year(6), 8.7, 0.05);
}

TEST(PlanMoney, regrowth_in_weeks) {
  const test::Source growth{"loussouarn_2001", "256 and 396 um a day"};
  EXPECT_PUBLISHED("weeks to 11 mm at 256 um a day", growth, 6, weeks_to_regrow(11, 256), 0.5);
  EXPECT_PUBLISHED("weeks to 11 mm at 396 um a day", growth, 4, weeks_to_regrow(11, 396), 0.5);
  EXPECT_PUBLISHED("days to half an inch at 256 um a day", growth, 50,
                   7 * weeks_to_regrow(12.7, 256), 0.5);
  EXPECT_PUBLISHED("days to half an inch at 396 um a day", growth, 32,
                   7 * weeks_to_regrow(12.7, 396), 0.5);
}

TEST(PlanMoney, reorders_before_the_shelf_is_empty) {
  EXPECT_TRUE(reorder_due(99, 40, 2, 20));
  EXPECT_FALSE(reorder_due(100, 40, 2, 20));
}

TEST(PlanMoney, out_of_range_names_the_place) {
  const auto fault = [](auto change) {
    std::vector<UsedProduct> products{{"red", {1, 2, 3}, 0.1}};
    Band minutes{10, 20, 30};
    PriceList prices = usual();
    change(products[0], minutes, prices);
    const auto made = visit_money(products, minutes, prices);
    return made ? std::string("none") : made.error().where;
  };
  using U = UsedProduct&;
  using B = Band&;
  using P = PriceList&;
  EXPECT_EQ(fault([](U, B, P) {}), "none");
  EXPECT_EQ(fault([](U u, B, P) { u.grams.low = 3; }), "products[0].grams");
  EXPECT_EQ(fault([](U u, B, P) { u.price_per_g = -1; }), "products[0].price_per_g");
  EXPECT_EQ(fault([](U, B b, P) { b.low = -1; }), "minutes");
  EXPECT_EQ(fault([](U, B, P p) { p.labour_per_hour = std::nan(""); }), "prices.labour_per_hour");
  EXPECT_EQ(fault([](U, B, P p) { p.hands = 0; }), "prices.hands");
  EXPECT_EQ(fault([](U, B, P p) { p.overhead = -1; }), "prices.overhead");
  EXPECT_EQ(fault([](U, B, P p) { p.product_allowance = -1; }), "prices.product_allowance");
  EXPECT_EQ(fault([](U, B, P p) { p.margin = 0.91; }), "prices.margin");
  EXPECT_EQ(fault([](U, B, P p) { p.quote_step = 0; }), "prices.quote_step");
}

}  // namespace
}  // namespace hw::plan
