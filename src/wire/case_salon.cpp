// The frame of the work: limits, salon, habits, style.
#include "case_parts.h"
#include "huewright/wire/fade.h"

namespace hw::plan {
namespace {

constexpr double kMostMoney = 1000000;  // of any currency; house rule, no source

}  // namespace

void describe(wire::Object& object, DepositTier& tier) {
  wire::number(object.required("from", "price from which it is asked"), tier.from,
               {.low = 0, .high = kMostMoney});
  wire::number(object.required("deposit", "asked for then"), tier.deposit,
               {.low = 0, .high = kMostMoney});
}

void describe(wire::Object& object, PriceList& prices) {
  wire::number(object.optional("labour_per_hour", "of one pair of hands"), prices.labour_per_hour,
               {.low = 0, .high = kMostMoney});
  wire::number(object.optional("overhead", "of a visit: gloves, foil, towels, room"),
               prices.overhead, {.low = 0, .high = kMostMoney});
  wire::number(object.optional("product_allowance", "product that the labour's price includes"),
               prices.product_allowance, {.low = 0, .high = kMostMoney});
  wire::number(object.optional("margin", "share of the price that stays"), prices.margin,
               {.low = 0, .high = 0.9});
  wire::number(object.optional("quote_step", "quotes are rounded outwards to it"),
               prices.quote_step, {.low = 0, .high = 1000, .above_low = true});
}

void describe(wire::Object& object, CaseLimits& limits) {
  wire::number(object.optional("minutes", "in the chair, one visit"), limits.minutes,
               {.low = 0, .high = 1440, .unit = "min", .above_low = true});
  wire::number(object.optional("money", "price of all visits together"), limits.money,
               {.low = 0, .high = kMostMoney, .above_low = true});
  wire::number(object.optional("wear", "share of cystine that chemistry may use, whole life"),
               limits.wear, {.low = 0, .high = kWearLimit});
  wire::count(object.optional("most_shades", "of one bowl"), limits.most_shades, 1, 4);
  wire::count(object.optional("most_visits", "of one course"), limits.most_visits, 1, 5);
}

void describe(wire::Object& object, Salon& salon) {
  wire::count(object.optional("hands", "pairs at work on this head"), salon.hands, 1, 6);
  wire::number(object.optional("grams_per_min", "of mix that one pair puts on"),
               salon.grams_per_min, {.low = 0.2, .high = 20, .unit = "g/min"});
  wire::number(object.optional("amount_factor", "grams really used over those reckoned"),
               salon.amount_factor, {.low = 0.2, .high = 5});
  wire::number(object.optional("scale_step_g", "what the scale can weigh"), salon.scale_step_g,
               {.low = 0.01, .high = 10, .unit = "g"});
  object.optional("prices", "how the salon reckons, in its own currency")
      .object([&](wire::Object& fields) { describe(fields, salon.prices); });
  wire::objects(object.optional("deposits", "asked for at booking, by price"), salon.deposits,
                {0, 20});
}

void describe(wire::Object& object, Habits& habits) {
  wire::number(object.optional("washes_per_week", "at home"), habits.washes_per_week,
               {.low = 0, .high = 14, .above_low = true});
  object.optional("wash", "the same every time").object([&](wire::Object& fields) {
    wire::describe_wash(fields, habits.wash);
  });
  wire::number(object.optional("light_h_per_week", "hours of strong light on the hair"),
               habits.light_h_per_week,
               {.low = 0, .high = 168, .unit = "h at 0.35 W/m²/nm at 340 nm"});
  wire::number(object.optional("weeks_to_next", "until the next visit"), habits.weeks_to_next,
               {.low = 1, .high = 52, .unit = "weeks"});
  wire::number(object.optional("growth_um_per_day", "of the hair"), habits.growth_um_per_day,
               {.low = 50, .high = 1000, .unit = "µm/day"});
}

void describe(wire::Object& object, StyleWish& style) {
  object.optional("twists", "finished in twists").flag(style.twists);
  wire::number(object.optional("parting_cm", "of each twist; 0: the fitting one"), style.parting_cm,
               {.low = 0, .high = 10, .unit = "cm"});
}

}  // namespace hw::plan

namespace hw::process {

void describe(wire::Object& object, OwnLimit& limit) {
  object.required("rule", "id of the rule").text(limit.rule_id, 100);
  wire::number(object.required("limit", "in the rule's own unit"), limit.limit, {.low = 0});
}

}  // namespace hw::process

namespace hw::wire {

void describe_frame(Object& object, plan::Case& head) {
  object.optional("limits", "what a course must stay inside").object([&](Object& fields) {
    plan::describe(fields, head.limits);
  });
  object.optional("salon", "hands, scale and prices on that day").object([&](Object& fields) {
    plan::describe(fields, head.salon);
  });
  object.optional("habits", "how the colour will be lived with").object([&](Object& fields) {
    plan::describe(fields, head.habits);
  });
  object.optional("style", "how the hair is finished").object([&](Object& fields) {
    plan::describe(fields, head.style);
  });
}

}  // namespace hw::wire
