#include "huewright/plan/day_sheet.h"

#include <algorithm>
#include <cmath>

#include "huewright/plan/amounts.h"
#include "huewright/process/dry.h"

namespace hw::plan {
namespace {

const process::Product* product_of(const Case& head, const std::string& id) {
  const auto at = std::find_if(head.shelf.begin(), head.shelf.end(),
                               [&](const auto& one) { return one.id == id; });
  return at == head.shelf.end() ? nullptr : &*at;
}

double pace(const Case& head) {
  constexpr double kEachMore = 0.9;  // of the first pair's pace; data/plan/work_rates.csv
  return grams_a_minute(head.salon.grams_per_min, head.salon.hands, kEachMore);
}

std::vector<std::size_t> zones_of(const CourseBowl& bowl) {
  std::vector<std::size_t> zones;
  for (const BowlZone& zone : bowl.zones) zones.push_back(zone.zone);
  return zones;
}

Error named(Error error, const CourseBowl& bowl) {
  error.where = std::string(name_of(bowl.purpose)) + " bowl: " + error.where;
  return error;
}

/// Grams of a bowl, weighed in whole steps.
Result<void> weigh(const Case& head, CourseBowl& bowl) {
  const auto order = order_for(head, zones_of(bowl), bowl.purpose == Purpose::lift, bowl.on_scalp);
  if (!order) return tl::unexpected(named(order.error(), bowl));
  for (std::size_t i = 0; i < bowl.zones.size(); ++i) bowl.zones[i].grams = order->zone_g[i];
  bowl.order_g = order->order_g * bowl.mixes;
  PourRules rules;
  rules.step_g = head.salon.scale_step_g;
  rules.smallest_g = std::max(rules.smallest_g, rules.step_g);
  rules.grams_per_min = pace(head);
  for (const BowlPart& part : bowl.parts) {
    const auto* product = product_of(head, part.id);
    if (product == nullptr || !product->mix_life) continue;
    const double life = product->mix_life->value();
    rules.oldest_min = rules.oldest_min ? std::min(*rules.oldest_min, life) : life;
  }
  auto poured = pour_bowls(bowl.parts, bowl.order_g, rules);
  if (!poured) return tl::unexpected(named(poured.error(), bowl));
  bowl.poured = *std::move(poured);
  bowl.cost = 0;
  for (const BowlPart& part : bowl.parts) {
    const auto* product = product_of(head, part.id);
    if (product == nullptr) continue;
    const double grams = bowl.poured.grams_of(part.id);
    bowl.cost += grams * product->price_per_g;
    if (product->stock && grams > product->stock->value()) {
      return fail(ErrorCode::unreachable, "the shelf holds less than this bowl takes",
                  "stock of " + part.id, "order more, or choose another course");
    }
  }
  return {};
}

/// Starts, checks and stops of a bowl whose first strand is put on at from_min; its last stop.
Result<double> timed(const Case& head, CourseBowl& bowl, double from_min, VisitDay& day) {
  std::vector<ZoneTask> tasks;
  for (const BowlZone& zone : bowl.zones) {
    ZoneTask task;
    task.zone = head.zones[zone.zone].name;
    task.mix_g = zone.grams;
    task.minutes = std::max(1.0, zone.stop_min.mid);
    task.least = std::min(task.minutes, zone.stop_min.low);
    task.most = std::max(task.minutes, zone.stop_min.high);
    task.lightener = bowl.purpose == Purpose::lift;
    if (task.lightener) task.limit = std::min(45.0, bowl.label_min.value_or(head.longest_min));
    task.limit = std::max(task.limit, task.minutes);
    tasks.push_back(task);
  }
  ClockRules rules;
  rules.grams_per_min = pace(head);
  auto table = timetable(tasks, rules);
  if (!table) return tl::unexpected(named(table.error(), bowl));
  for (std::size_t i = 0; i < bowl.zones.size(); ++i) {
    ZoneTimes& times = bowl.zones[i].times;
    times = table->zones[i];
    for (double* minute :
         {&times.apply_at, &times.applied_by, &times.stop_at, &times.hard_stop_at}) {
      *minute += from_min;
    }
    for (double& minute : times.checks_at) minute += from_min;
  }
  day.notes.insert(day.notes.end(), table->notes.begin(), table->notes.end());
  return from_min + table->rinse_at;
}

/// The blocks of one visit, with what is known of them.
Result<void> lay_out_visit(const Case& head, int visit, Course& course) {
  VisitDay day;
  double clock = 0;
  bool lifted = false;
  bool coloured = false;
  double lift_min = 0;
  double colour_min = 0;
  const double wash_min = [] {
    for (const DayBlock& block : usual_blocks()) {
      if (block.id == "wash") return block.minutes.mid;
    }
    return 0.0;
  }();
  std::vector<UsedProduct> used;
  for (CourseBowl& bowl : course.bowls) {
    if (bowl.visit != visit) continue;
    if (const auto weighed = weigh(head, bowl); !weighed) return tl::unexpected(weighed.error());
    const bool lift = bowl.purpose == Purpose::lift;
    // Bowls of one kind go on side by side; a colour waits for the wash after the lift.
    const double from = lift ? 0 : lifted ? lift_min + wash_min : 0;
    const auto end = timed(head, bowl, from, day);
    if (!end) return tl::unexpected(end.error());
    (lift ? lift_min : colour_min) = std::max(lift ? lift_min : colour_min, *end);
    (lift ? lifted : coloured) = true;
    clock = std::max(clock, *end);
    for (const BowlPart& part : bowl.parts) {
      const auto* product = product_of(head, part.id);
      if (product == nullptr) continue;
      const double grams = bowl.poured.grams_of(part.id);
      used.push_back({part.id, {grams * 0.9, grams, grams}, product->price_per_g});
    }
  }
  std::vector<std::string> wanted = {"consultation", "finish"};
  std::vector<KnownBlock> known;
  constexpr double kSpread = 0.2;  // of chemistry and putting on, either way; guess
  const auto about = [](double minutes) {
    return Band{minutes * (1 - kSpread), minutes, minutes * (1 + kSpread)};
  };
  constexpr double kMixRinse = 15;  // min to mix before and rinse after; guess
  if (lifted) {
    wanted.insert(wanted.end(), {"lift", "wash"});
    known.push_back({"lift", about(lift_min + kMixRinse)});
  }
  if (coloured) {
    wanted.emplace_back("colour_process");
    const double start = lifted ? lift_min + wash_min : 0;
    known.push_back({"colour_process", about(colour_min - start + kMixRinse)});
  }
  double length = 0;
  double hair_g = 0;
  for (const ZoneCase& zone : head.zones) length = std::max(length, zone.to_cm);
  for (const double grams : zone_mass_g(head)) hair_g += grams;
  if (head.style.twists && length >= 3) {
    process::TwistTask task;
    task.scalp_cm2 = head.scalp_area_cm2;
    task.stretched_cm = length * head.cut_factor;
    task.hairs_per_cm2 = head.hairs_per_cm2;
    task.hair_g = hair_g;
    task.hands = std::min(4, head.salon.hands);
    if (auto twists = process::twist_plan(task, head.style.parting_cm)) {
      wanted.emplace_back("style");
      known.push_back({"style", twists->minutes});
      day.twists = *std::move(twists);
    }
  }
  process::HoodTask hood;
  hood.hair_g = hair_g;
  hood.twisted = head.style.twists;
  if (const auto minutes = process::hood_minutes(hood)) {
    day.hood_min = *minutes;
    wanted.emplace_back("hood");
    known.push_back({"hood", *minutes});
  }
  auto whole = day_of(wanted, known, head.salon.hands);
  if (!whole) return tl::unexpected(whole.error());
  day.minutes = whole->minutes;
  day.day = *std::move(whole);
  const auto money = visit_money(used, day.minutes, head.salon.prices);
  if (!money) return tl::unexpected(money.error());
  day.price = money->price;
  course.days.push_back(std::move(day));
  return {};
}

}  // namespace

Result<MixOrder> order_for(const Case& head, const std::vector<std::size_t>& zones, bool lightener,
                           bool on_scalp) {
  const auto mass = zone_mass_g(head);
  const auto scalp = zone_scalp_cm2(head);
  CoverFacts facts = cover_facts(lightener);
  if (head.mix_per_hair)
    facts.pick_up = {*head.mix_per_hair, *head.mix_per_hair, *head.mix_per_hair};
  facts.salon_factor = head.salon.amount_factor;
  std::vector<HairToCover> cover;
  for (const std::size_t z : zones) {
    cover.push_back({head.zones[z].name, mass[z], on_scalp ? scalp[z] : 0});
  }
  return mix_order(cover, facts);
}

Result<void> lay_out(const Case& head, Course& course) {
  course.days.clear();
  for (int visit = 1; visit <= course.visits; ++visit) {
    if (auto done = lay_out_visit(head, visit, course); !done) return done;
  }
  course.minutes = course.cost = {};
  for (const VisitDay& day : course.days) {
    course.minutes = {course.minutes.low + day.minutes.low, course.minutes.mid + day.minutes.mid,
                      course.minutes.high + day.minutes.high};
    course.cost = {course.cost.low + day.price.low, course.cost.mid + day.price.mid,
                   course.cost.high + day.price.high};
  }
  return {};
}

}  // namespace hw::plan
