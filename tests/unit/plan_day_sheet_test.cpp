// A course on scale and clock.
#include <algorithm>
#include <numeric>

#include "huewright/plan/amounts.h"
#include "huewright/plan/day_sheet.h"
#include "huewright/plan/plan.h"
#include "support/demo_course.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

const test::Source kPractice{"common practice, no source", ""};

Course laid(const Case& head, Course course) {
  const auto done = lay_out(head, course);
  EXPECT_TRUE(done.has_value()) << (done ? "" : one_line(done.error()));
  return course;
}

std::string fault(const Case& head, Course course) {
  const auto done = lay_out(head, course);
  return done ? "none" : done.error().where;
}

bool says(const std::vector<std::string>& notes, const std::string& words) {
  return std::any_of(notes.begin(), notes.end(), [&](const std::string& note) {
    return note.find(words) != std::string::npos;
  });
}

const DayBlock* block(const VisitDay& day, const std::string& id) {
  for (const DayPart& part : day.day.parts) {
    if (part.block.id == id) return &part.block;
  }
  return nullptr;
}

TEST(DaySheet, orders_by_hair_scalp_and_what_the_salon_really_used) {
  Case head = test::head_to_lay_out();
  const auto mass = zone_mass_g(head);
  const auto off = order_for(head, {0, 1}, true, false);
  const auto on = order_for(head, {0, 1}, true, true);
  ASSERT_TRUE(off && on);
  EXPECT_NEAR(off->zone_g[1], 1.4 * mass[1], 1e-9);
  // 0.3 mm on 580 cm² lies under the zone at the scalp.
  EXPECT_NEAR(on->zone_g[0] - off->zone_g[0], 17.4, 1e-9);
  EXPECT_NEAR(on->zone_g[1], off->zone_g[1], 1e-9);
  EXPECT_NEAR(order_for(head, {0, 1}, false, false)->zone_g[1], mass[1], 1e-9);
  head.salon.amount_factor = 1.5;
  EXPECT_NEAR(order_for(head, {0, 1}, true, true)->order_g, 1.5 * on->order_g, 1e-9);
  head.mix_per_hair = 2;
  head.salon.amount_factor = 1;
  EXPECT_NEAR(order_for(head, {1}, true, false)->zone_g[0], 2 * mass[1], 1e-9);
  EXPECT_EQ(order_for(head, {2}, true, false).error().where, "zones");
}

TEST(DaySheet, a_retouch_is_a_surface_and_not_a_mass) {
  Case head = test::head_to_lay_out();
  head.zones = {test::zone("regrowth", 0, 1.1, 2), test::zone("old", 1.1, 15, 5)};
  const auto order = order_for(head, {0}, false, true);
  ASSERT_TRUE(order);
  EXPECT_PUBLISHED_RANGE("retouch of 11 mm: mix [g]",
                         {"common practice, no source", "25 to 40 g; two trade articles"}, 25, 40,
                         order->grams.high);
}

TEST(DaySheet, pours_whole_steps_inside_the_ratio_and_enough) {
  const Case head = test::head_to_lay_out();
  const Course course = laid(head, test::lift_and_colour());
  for (const CourseBowl& bowl : course.bowls) {
    EXPECT_GE(bowl.poured.grams, bowl.order_g - 1e-9);
    EXPECT_LT(bowl.poured.grams, bowl.order_g + 8);
    double on_head = 0, sum = 0;
    for (const BowlZone& zone : bowl.zones) on_head += zone.grams;
    for (const PouredBowl& one : bowl.poured.bowls) {
      for (const Pour& pour : one.pours) {
        EXPECT_NEAR(pour.grams, std::round(pour.grams), 1e-9);
        sum += pour.grams;
      }
    }
    EXPECT_NEAR(sum, bowl.poured.grams, 1e-9);
    EXPECT_LT(on_head, bowl.order_g);
  }
  const PouredBowls& lift = course.bowls[0].poured;
  EXPECT_LE(lift.grams_of("d6"), 2 * lift.grams_of("cream") + 1e-9);
  const PouredBowls& red = course.bowls[1].poured;
  EXPECT_LE(red.grams_of("d3"), 1.5 * (red.grams_of("red") + red.grams_of("clear")) + 1e-9);
  EXPECT_NEAR(course.bowls[1].cost,
              0.12 * (red.grams_of("red") + red.grams_of("clear")) + 0.04 * red.grams_of("d3"),
              1e-9);
}

TEST(DaySheet, the_colour_follows_the_wash_after_the_lift) {
  const Case head = test::head_to_lay_out();
  const Course course = laid(head, test::lift_and_colour());
  double rinsed = 0, coloured = 1e9;
  for (const BowlZone& zone : course.bowls[0].zones) rinsed = std::max(rinsed, zone.times.stop_at);
  for (const BowlZone& zone : course.bowls[1].zones) {
    coloured = std::min(coloured, zone.times.apply_at);
  }
  // Two shampoos, mask, rinse and detangling, with two pairs of hands at a share of 0.3.
  EXPECT_PUBLISHED_RANGE("rinse to colour, wash between [min]", kPractice, 40, 75,
                         coloured - rinsed);
  EXPECT_EQ(std::fmod(coloured, 5), 0);
  double first = 1e9;
  for (const BowlZone& zone : course.bowls[0].zones) first = std::min(first, zone.times.apply_at);
  EXPECT_EQ(first, 0);
  ASSERT_EQ(course.days.size(), 1U);
  const auto& care = course.days[0].care;
  const auto at = [&](const char* id) {
    return std::find_if(care.begin(), care.end(), [&](const auto& step) { return step.id == id; }) -
           care.begin();
  };
  EXPECT_EQ(care[static_cast<std::size_t>(at("shampoo"))].times, 2);
  EXPECT_LT(at("shampoo"), at("mask"));
  EXPECT_LT(at("mask"), at("read_dry"));
  EXPECT_LT(at("read_dry"), at("acid_rinse"));
  EXPECT_TRUE(says(course.days[0].notes, "has not been read dry"));
  EXPECT_TRUE(says(course.days[0].notes, "32 to 38"));
}

TEST(DaySheet, lightener_is_looked_at_every_five_minutes_and_never_passes_its_stop) {
  Case head = test::head_to_lay_out();
  head.zones[1].facts.lightener_minutes_today = Minutes(20);
  const Course course = laid(head, test::lift_and_colour());
  const ZoneTimes& lengths = course.bowls[0].zones[1].times;
  EXPECT_LE(lengths.wipe_from - lengths.apply_at, 25 + 1e-9);
  EXPECT_LE(lengths.stop_at - lengths.applied_by, 25 + 1e-9);
  EXPECT_TRUE(lengths.cut_short);
  ASSERT_GT(lengths.checks_at.size(), 1U);
  EXPECT_NEAR(lengths.checks_at[1] - lengths.checks_at[0], 5, 1e-9);
  EXPECT_TRUE(course.bowls[1].zones[1].times.checks_at.empty());
  head.zones[1].facts.lightener_minutes_today = Minutes(45);
  EXPECT_EQ(fault(head, test::lift_and_colour()), "lift.minutes");
}

TEST(DaySheet, fresh_mix_follows_and_counts_against_the_same_forty_five_minutes) {
  const Case head = test::head_to_lay_out();
  Course course = test::lift_and_colour();
  course.bowls[0] = test::lift_bowl(20, 40);
  course.bowls[0].mixes = 2;
  const double once = laid(head, test::lift_and_colour()).bowls[0].poured.grams;
  course = laid(head, course);
  const CourseBowl& bowl = course.bowls[0];
  EXPECT_NEAR(bowl.poured.grams, 2 * once, 8);
  for (const BowlZone& zone : bowl.zones) {
    ASSERT_EQ(zone.again_at_min.size(), 1U);
    EXPECT_GT(zone.again_at_min[0], zone.times.applied_by);
    EXPECT_LT(zone.again_at_min[0], zone.times.stop_at);
    EXPECT_GT(zone.times.checks_at.back(), zone.again_at_min[0]);
  }
  EXPECT_TRUE(says(course.days[0].notes, "fresh mix"));
}

TEST(DaySheet, a_bowl_mixed_twice_runs_beside_one_mixed_once) {
  const Case head = test::head_to_lay_out();
  Course course;
  course.bowls = {test::lift_bowl(30, 40), test::lift_bowl(30, 40)};
  course.bowls[0].zones.pop_back();
  course.bowls[1].zones.erase(course.bowls[1].zones.begin());
  course.bowls[1].mixes = 2;
  course = laid(head, course);
  const ZoneTimes& roots = course.bowls[0].zones[0].times;
  const BowlZone& lengths = course.bowls[1].zones[0];
  EXPECT_TRUE(course.bowls[0].zones[0].again_at_min.empty());
  ASSERT_EQ(lengths.again_at_min.size(), 1U);
  EXPECT_LT(roots.apply_at, lengths.times.stop_at);
  EXPECT_LT(lengths.times.apply_at, roots.stop_at);
  EXPECT_LT(lengths.times.stop_at, 100);
}

TEST(DaySheet, two_bowls_on_two_zones_run_side_by_side) {
  const Case head = test::head_to_lay_out();
  Course one = test::lift_and_colour();
  Course two = one;
  two.bowls.push_back(two.bowls[1]);
  two.bowls[1].zones.resize(1);
  two.bowls[2].zones.erase(two.bowls[2].zones.begin());
  two.bowls[2].on_scalp = false;
  one = laid(head, one);
  two = laid(head, two);
  EXPECT_NEAR(two.minutes.mid, one.minutes.mid, 1e-9);
  EXPECT_NEAR(two.bowls[2].zones[0].times.stop_at, one.bowls[1].zones[1].times.stop_at, 1e-9);
}

TEST(DaySheet, no_bowl_is_older_than_its_label_even_when_a_zone_waits) {
  Case head = test::head_to_lay_out();
  Course course = test::lift_and_colour();
  course.bowls[0] = test::lift_bowl(8, 36);
  for (process::Product& product : head.shelf) {
    if (product.id == "cream") product.mix_life = Minutes(15);
  }
  course = laid(head, course);
  const CourseBowl& bowl = course.bowls[0];
  EXPECT_GT(bowl.poured.bowls.size(), 1U);
  for (const PouredBowl& one : bowl.poured.bowls) {
    EXPECT_LE(one.empty_at_min - one.mix_at_min, 15 + 1e-9);
  }
  // The roots go on last, from a bowl mixed for them.
  EXPECT_NEAR(bowl.poured.bowls.back().mix_at_min, bowl.zones[0].times.apply_at, 1e-9);
}

TEST(DaySheet, a_silent_label_does_not_keep_lightener_fresh) {
  Case head = test::head_to_lay_out();
  head.salon.grams_per_min = 1;  // slow hands: one mixing would stand for hours
  const Course course = laid(head, test::lift_and_colour());
  const CourseBowl& bowl = course.bowls[0];
  ASSERT_EQ(bowl.purpose, Purpose::lift);
  EXPECT_GT(bowl.poured.bowls.size(), 1U);
  for (const PouredBowl& one : bowl.poured.bowls) {
    EXPECT_LE(one.empty_at_min - one.mix_at_min, 45 + 1e-9);  // guess: work rate lightener_mix_life
  }
}

TEST(DaySheet, what_the_shelf_does_not_hold_is_left_out_with_a_note_or_refused) {
  Case head = test::head_to_lay_out();
  const Course whole = laid(head, test::lift_and_colour());
  const double red = whole.bowls[1].poured.grams_of("red");
  const auto with_stock = [&](double grams) {
    Case short_of = head;
    for (process::Product& product : short_of.shelf) {
      if (product.id == "red") product.stock = Grams(grams);
    }
    return short_of;
  };
  const Course less = laid(with_stock(red - 2), test::lift_and_colour());
  EXPECT_LE(less.bowls[1].poured.grams_of("red"), red - 2);
  EXPECT_LT(less.bowls[1].poured.grams, whole.bowls[1].poured.grams);
  EXPECT_TRUE(says(less.days[0].notes, "the shelf makes"));
  EXPECT_FALSE(says(whole.days[0].notes, "the shelf makes"));
  EXPECT_EQ(fault(with_stock(red / 2), test::lift_and_colour()), "deposit.stock");
  EXPECT_EQ(fault(with_stock(red), test::lift_and_colour()), "none");
}

TEST(DaySheet, a_strand_test_is_a_bowl_of_five_grams) {
  Case head = test::head_to_lay_out();
  Course course;
  course.bowls = {test::lift_bowl(14, 26)};
  course.bowls[0].purpose = Purpose::strand_test;
  course.bowls[0].parts.push_back({"water", process::PartKind::water, 1});
  course = laid(head, course);
  EXPECT_EQ(course.bowls[0].order_g, 5);
  EXPECT_EQ(course.bowls[0].poured.grams, 5);
  EXPECT_FALSE(course.bowls[0].zones[0].times.checks_at.empty());
}

TEST(DaySheet, a_day_in_its_blocks_with_money_and_a_year) {
  Case head = test::head_to_lay_out();
  head.salon.deposits = example_deposits();
  const Course course = laid(head, test::lift_and_colour());
  const VisitDay& day = course.days[0];
  for (const char* id : {"consultation", "lift", "wash", "colour_apply", "colour_process", "style",
                         "hood", "finish"}) {
    EXPECT_NE(block(day, id), nullptr) << id;
  }
  EXPECT_PUBLISHED_RANGE("whole day of soap cap, colour and twists, two pairs of hands [min]",
                         {"common practice, no source", "4 h 55 to 9 h 30"}, 240, 570,
                         day.minutes.mid);
  EXPECT_LT(day.minutes.low, day.minutes.mid);
  EXPECT_LT(day.minutes.mid, day.minutes.high);
  EXPECT_LT(day.price.low, day.price.high);
  EXPECT_LE(course.quote.low, course.cost.low);
  EXPECT_GE(course.quote.high, course.cost.high);
  EXPECT_EQ(course.quote.deposit, deposit_for(course.quote.low, example_deposits()));
  ASSERT_TRUE(day.twists);
  EXPECT_GT(day.hood_min.mid, 20);
  // 8.7 retouches a year, each less than the whole day.
  EXPECT_GT(course.year_cost.mid, 4 * course.cost.mid);
  EXPECT_LT(course.year_cost.mid, 8.7 * course.cost.mid);
}

// Virgin hair going lighter: the half inch at the scalp starts about 20 minutes after the lengths.
// It is not forced: the warm scalp needs less, and hands are busy with the lengths so long.
TEST(DaySheet, the_half_inch_at_the_scalp_starts_about_twenty_minutes_after_the_lengths) {
  Case head = test::plain_head();
  head.zones = {test::zone("roots", 0, 1.27, 1.5), test::zone("lengths", 1.27, 12, 1.5)};
  head.shrinkage = 0.6;
  head.shelf = {test::lightener("cream", true), test::developer("d6", 6)};
  std::vector<double> stagger;
  for (const double wish : {4.0, 5.0, 6.0}) {
    head.wished_level = wish;
    InlineExecutor here;
    const auto plan = plan_head(head, here);
    ASSERT_TRUE(plan && !plan->courses.empty());
    for (const int hands : {1, 2}) {
      head.salon.hands = hands;
      const Course course = laid(head, plan->courses[0]);
      const auto& zones = course.bowls[0].zones;
      ASSERT_EQ(zones.size(), 2U);
      stagger.push_back(zones[0].times.apply_at - zones[1].times.apply_at);
      EXPECT_GT(stagger.back(), 10);
      EXPECT_LT(stagger.back(), 30);
    }
    head.salon.hands = 1;
  }
  EXPECT_PUBLISHED_RANGE("roots after lengths, levels 4 to 6, one and two pairs of hands [min]",
                         {"hot_roots_page", "half inch, 20 min"}, 12, 28, mean(stagger));
}

TEST(DaySheet, leaving_alone_is_a_day_without_bowls) {
  const Case head = test::head_to_lay_out();
  const Course course = laid(head, Course{});
  EXPECT_EQ(block(course.days[0], "lift"), nullptr);
  EXPECT_EQ(block(course.days[0], "colour_process"), nullptr);
  EXPECT_NE(block(course.days[0], "style"), nullptr);
  EXPECT_LT(course.year_cost.mid, 100);
}

TEST(DaySheet, semi_and_demi_are_cleansed_for_and_permanent_is_not) {
  Case head = test::head_to_lay_out();
  Course course;
  course.bowls = {test::colour_bowl()};
  EXPECT_NE(block(laid(head, course).days[0], "wash"), nullptr);
  for (process::Product& product : head.shelf) {
    if (product.dye_class) product.dye_class = process::DyeClass::permanent;
  }
  const Course permanent = laid(head, course);
  EXPECT_EQ(block(permanent.days[0], "wash"), nullptr);
  EXPECT_FALSE(says(permanent.days[0].notes, "take less well"));
}

TEST(DaySheet, the_wet_stretch_chooses_moisture_or_protein) {
  Case head = test::head_to_lay_out();
  head.zones[1].facts.stretch.worst = process::WetStretch::stays_stretched;
  const auto care = laid(head, test::lift_and_colour()).days[0].care;
  EXPECT_TRUE(
      std::any_of(care.begin(), care.end(), [](const auto& s) { return s.id == "protein"; }));
  EXPECT_FALSE(std::any_of(care.begin(), care.end(), [](const auto& s) { return s.id == "mask"; }));
}

TEST(DaySheet, a_filler_is_wiped_and_the_colour_follows_at_once) {
  const Case head = test::head_to_lay_out();
  Course course = test::lift_and_colour();
  course.bowls.insert(course.bowls.begin() + 1, test::colour_bowl(12));
  course.bowls[1].purpose = Purpose::fill;
  course = laid(head, course);
  const double wiped = course.bowls[1].zones[1].times.stop_at;
  const double next =
      std::min(course.bowls[2].zones[0].times.apply_at, course.bowls[2].zones[1].times.apply_at);
  EXPECT_LE(next - wiped, 10);
  EXPECT_TRUE(says({course.days[0].care[6].words}, "Wipe the filler"));
}

TEST(DaySheet, nothing_enters_an_oxidative_bowl_without_its_label) {
  Case head = test::head_to_lay_out();
  process::Product drops;
  drops.id = "drops";
  drops.kind = process::PartKind::treatment;
  head.shelf.push_back(drops);
  Course course = test::lift_and_colour();
  course.bowls[1].parts.push_back({"drops", process::PartKind::treatment, 0.5});
  const Course refused = laid(head, course);
  ASSERT_EQ(refused.refusals.size(), 1U);
  EXPECT_EQ(refused.refusals[0].id, "added_without_label");
  EXPECT_EQ(laid(head, refused).refusals.size(), 1U);
  head.shelf.back().label_allows_mixing = true;
  EXPECT_TRUE(laid(head, course).refusals.empty());
}

TEST(DaySheet, a_colour_bowl_is_opened_when_every_zone_was_read_dry) {
  const Case head = test::head_to_lay_out();
  const CourseBowl bowl = test::colour_bowl();
  const std::vector<process::Canvas> read{{"roots", true, true}, {"lengths", true, true}};
  EXPECT_TRUE(ready_for_colour(head, bowl, read).empty());
  const auto one = ready_for_colour(head, bowl, std::span(read).first(1));
  ASSERT_EQ(one.size(), 1U);
  EXPECT_EQ(one[0].id, "zone_not_read_dry");
  const std::vector<process::Canvas> oily{{"roots", true, false}, {"lengths", true, true}};
  EXPECT_EQ(ready_for_colour(head, bowl, oily).at(0).id, "canvas_not_clean");
}

TEST(DaySheet, a_second_pair_of_hands_shortens_the_day_and_says_so) {
  Case head = test::head_to_lay_out();
  head.salon.hands = 1;
  const Course slow = laid(head, test::lift_and_colour());
  head.salon.hands = 2;
  const Course quick = laid(head, test::lift_and_colour());
  EXPECT_LT(quick.minutes.mid, slow.minutes.mid - 30);
  EXPECT_TRUE(says(quick.days[0].notes, "2 pairs of hands work side by side"));
  EXPECT_FALSE(says(slow.days[0].notes, "pairs of hands"));
}

TEST(DaySheet, visits_add_up) {
  const Case head = test::head_to_lay_out();
  Course course = test::lift_and_colour();
  course.visits = 2;
  course.bowls.push_back(course.bowls[0]);
  course.bowls.push_back(course.bowls[1]);
  course.bowls[2].visit = course.bowls[3].visit = 2;
  course = laid(head, course);
  ASSERT_EQ(course.days.size(), 2U);
  EXPECT_NEAR(course.minutes.mid, course.days[0].minutes.mid + course.days[1].minutes.mid, 1e-9);
  EXPECT_NEAR(course.cost.high, course.days[0].price.high + course.days[1].price.high, 1e-9);
  EXPECT_EQ(
      std::min(course.bowls[2].zones[0].times.apply_at, course.bowls[2].zones[1].times.apply_at),
      0);
  course.bowls[3].visit = 3;
  EXPECT_EQ(fault(head, course), "deposit.visit");
}

}  // namespace
}  // namespace hw::plan
