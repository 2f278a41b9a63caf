// The whole answer: courses, what stands against them, what is left out.
#include <gmock/gmock.h>

#include <algorithm>
#include <set>

#include "huewright/plan/plan.h"
#include "support/demo_case.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

process::Product colour(const char* id, process::DyeClass dye_class, double level,
                        const char* tone) {
  process::Product product;
  product.id = id;
  product.kind = process::PartKind::colour;
  product.dye_class = dye_class;
  product.level = level;
  product.tone = tone;
  product.price_per_g = 0.1;
  return product;
}

Case with_colours() {
  using enum process::DyeClass;
  Case head = test::plain_head();
  head.person.skin_test = process::SkinTest::clear;
  head.wished_level.reset();
  head.target = *target_colour({30, 16, 13});
  head.shelf.push_back(colour("red", demi, 6, "red"));
  head.shelf.push_back(colour("brown", demi, 5, "neutral"));
  head.shelf.push_back(colour("copper", demi, 7, "copper"));
  head.shelf.push_back(colour("clear", demi, 5, "clear"));
  head.shelf.push_back(colour("mask", direct, 6, "red"));
  head.shelf.push_back(colour("perm-red", permanent, 6, "red"));
  return head;
}

HeadPlan planned(const Case& head) {
  InlineExecutor executor;
  auto plan = plan_head(head, executor);
  EXPECT_TRUE(plan.has_value()) << one_line(plan.error());
  return *std::move(plan);
}

TEST(PlanHead, shows_at_most_four_courses_that_differ) {
  const HeadPlan plan = planned(with_colours());
  ASSERT_FALSE(plan.courses.empty());
  EXPECT_LE(plan.courses.size(), 4U);
  EXPECT_GE(plan.examined, 200U);
  std::set<std::string> names;
  for (const Course& course : plan.courses) {
    names.insert(course.name);
    EXPECT_FALSE(course.sentence.empty());
  }
  EXPECT_EQ(names.size(), plan.courses.size());
}

TEST(PlanHead, no_course_is_worse_than_another_in_everything) {
  const HeadPlan plan = planned(with_colours());
  for (const Course& a : plan.courses) {
    for (const Course& b : plan.courses) {
      const bool worse = a.expected_de00 > b.expected_de00 && a.wear_high > b.wear_high &&
                         a.minutes.mid > b.minutes.mid && a.cost.mid > b.cost.mid;
      EXPECT_FALSE(worse) << a.name << " / " << b.name;
    }
  }
}

TEST(PlanHead, a_lift_brings_the_red_that_dark_hair_hides) {
  const HeadPlan plan = planned(with_colours());
  const Course& best = plan.courses.front();
  ASSERT_TRUE(best.zones[1].after_lift);
  EXPECT_GT(best.zones[1].result.lab.a, best.zones[1].now.lab.a + 5);
  EXPECT_LT(best.expected_de00, 8);
}

TEST(PlanHead, a_person_under_sixteen_gets_neither_oxidative_colour_nor_lightener_on_the_scalp) {
  Case head = with_colours();
  head.person.age_years = 15;
  const HeadPlan plan = planned(head);
  EXPECT_TRUE(plan.refused());
  for (const Course& course : plan.courses) {
    for (const CourseBowl& bowl : course.bowls) {
      EXPECT_FALSE(bowl.purpose == Purpose::lift && bowl.on_scalp);
      EXPECT_FALSE(bowl.deposit && bowl.deposit->developer_parts > 0);
    }
  }
  EXPECT_TRUE(std::any_of(plan.refusals.begin(), plan.refusals.end(),
                          [](const auto& r) { return r.id == "oxidative_colour_under_age"; }));
}

TEST(PlanHead, what_a_dated_test_covers_is_offered_and_the_rest_waits) {
  Case head = with_colours();
  head.visit_at = *process::moment_from_iso("2026-03-10T10:00+01:00");
  process::SkinTestRecord test;
  test.colour = {"red", "red"};
  test.applied = *process::moment_from_iso("2026-03-07T09:00+01:00");
  test.read = *process::moment_from_iso("2026-03-09T10:00+01:00");
  test.result = process::SkinTest::clear;
  head.tests = process::TestsRecord{{test}, {}, {}};
  const HeadPlan plan = planned(head);
  bool drafts = false;
  bool open = false;
  for (const Course& course : plan.courses) {
    bool untested = false;
    for (const CourseBowl& bowl : course.bowls) {
      if (!bowl.deposit || bowl.deposit->developer_parts <= 0) continue;
      for (const auto& pour : bowl.pours) untested = untested || pour.shade.id != "red";
    }
    EXPECT_EQ(course.draft, untested) << course.name;
    (course.draft ? drafts : open) = true;
  }
  EXPECT_TRUE(open);
  EXPECT_EQ(drafts, !plan.tests_to_make.empty());
  // What another shade waits for is no word against the head.
  EXPECT_TRUE(plan.refusals.empty()) << plan.refusals.front().text;
}

TEST(PlanHead, what_not_every_course_must_mind_is_said_with_those_that_must) {
  Case head = with_colours();
  head.target =
      *target_colour({19, 8, 6});  // within reach of colour alone, and of a lift before it
  const HeadPlan plan = planned(head);
  const auto holds = [](const std::vector<process::Refusal>& list, const std::string& id) {
    return std::any_of(list.begin(), list.end(), [&](const auto& one) { return one.id == id; });
  };
  bool with = false;
  bool without = false;
  for (const Course& course : plan.courses) {
    const bool powder =
        std::any_of(course.bowls.begin(), course.bowls.end(), [](const CourseBowl& bowl) {
          return std::any_of(bowl.parts.begin(), bowl.parts.end(), [](const BowlPart& part) {
            return part.kind == process::PartKind::lightener;
          });
        });
    (powder ? with : without) = true;
    EXPECT_EQ(powder,
              holds(plan.cautions, "persulfate_dust") || holds(course.cautions, "persulfate_dust"))
        << course.name;
    for (const auto& one : course.cautions) EXPECT_FALSE(holds(plan.cautions, one.id)) << one.id;
  }
  EXPECT_TRUE(with);
  EXPECT_TRUE(without);
  EXPECT_TRUE(holds(plan.cautions, "gloves"));
}

TEST(PlanHead, what_waits_for_nothing_is_shown_beside_drafts) {
  Case head = with_colours();
  head.person.skin_test = process::SkinTest::not_done;  // every oxidative colour waits
  const HeadPlan plan = planned(head);
  EXPECT_TRUE(std::any_of(plan.refusals.begin(), plan.refusals.end(),
                          [](const auto& one) { return one.id == "skin_test_missing"; }));
  bool drafts = false;
  bool open = false;
  for (const Course& course : plan.courses) (course.draft ? drafts : open) = true;
  EXPECT_TRUE(drafts);
  EXPECT_TRUE(open);
}

TEST(PlanHead, without_a_target_a_lift_alone_is_planned) {
  const HeadPlan plan = planned(test::plain_head());
  ASSERT_FALSE(plan.courses.empty());
  for (const Course& course : plan.courses) {
    for (const CourseBowl& bowl : course.bowls) EXPECT_EQ(bowl.purpose, Purpose::lift);
  }
  EXPECT_GT(plan.courses.front().zones[0].after_lift->level.mid, 4.5);
}

// Virgin hair going lighter: the half inch at the scalp starts about 20 minutes after the lengths
// (a page on hot roots, trade; common practice). Between them lies what the warm scalp saves.
TEST(PlanHead, the_half_inch_at_the_scalp_of_virgin_coils_needs_about_twenty_minutes_less) {
  Case head = test::plain_head();
  head.zones = {test::zone("roots", 0, 1.27, 1.5), test::zone("lengths", 1.27, 15, 1.5)};
  head.shrinkage = 0.6;
  head.wished_level = 6;
  head.members = 512;
  head.shelf = {test::lightener("cream", true), test::developer("d6", 6)};
  const HeadPlan plan = planned(head);
  ASSERT_FALSE(plan.courses.empty());
  const CourseBowl& bowl = plan.courses[0].bowls[0];
  ASSERT_EQ(bowl.zones.size(), 2U);
  const double stagger = bowl.zones[1].stop_min.mid - bowl.zones[0].stop_min.mid;
  const test::Source kHome{"hot_roots_page", "half inch, 20 min"};
  EXPECT_PUBLISHED_RANGE("roots behind lengths on virgin coils [min]", kHome, 12, 28, stagger);
}

TEST(PlanHead, hair_that_is_there_already_is_left_alone) {
  Case head = test::plain_head();
  head.wished_level = 2;
  const HeadPlan plan = planned(head);
  ASSERT_EQ(plan.courses.size(), 1U);
  EXPECT_EQ(plan.courses[0].kind, CourseKind::leave_alone);
  EXPECT_FALSE(plan.refused());
}

TEST(PlanHead, same_answer_at_any_number_of_threads) {
  const Case head = with_colours();
  const auto pool = make_thread_pool(3);
  const auto many = plan_head(head, *pool);
  ASSERT_TRUE(many);
  const HeadPlan one = planned(head);
  ASSERT_EQ(one.courses.size(), many->courses.size());
  for (std::size_t i = 0; i < one.courses.size(); ++i) {
    EXPECT_EQ(one.courses[i].name, many->courses[i].name);
    EXPECT_EQ(one.courses[i].expected_de00, many->courses[i].expected_de00);
  }
}

TEST(PlanHead, says_what_to_look_at_next_and_how_much_it_tells) {
  const HeadPlan plan = planned(with_colours());
  ASSERT_FALSE(plan.look_next.empty());
  double before = 1;
  for (const LookNext& look : plan.look_next) {
    EXPECT_GT(look.narrows, 0);
    EXPECT_LE(look.narrows, before);
    before = look.narrows;
  }
  EXPECT_THAT(plan.look_next.front().sentence, testing::HasSubstr("doubt"));
}

TEST(PlanHead, one_zone_that_gives_way_keeps_lightener_and_peroxide_off_the_whole_head) {
  Case head = with_colours();
  head.zones.back().facts.stretch = {process::WetStretch::gummy, 5, 3};
  const HeadPlan plan = planned(head);
  ASSERT_FALSE(plan.courses.empty());
  bool rests = false;
  for (const Course& course : plan.courses) {
    rests |= course.kind == CourseKind::leave_alone;
    for (const CourseBowl& bowl : course.bowls) EXPECT_EQ(bowl.peroxide_percent, 0) << course.name;
    EXPECT_THAT(course.notes, testing::Contains(testing::HasSubstr(head.zones.back().name +
                                                                   ": wet strands gave way")));
  }
  EXPECT_TRUE(rests);
  // Springing back, the same head is lifted.
  head.zones.back().facts.stretch.worst = process::WetStretch::springs_back;
  bool lifts = false;
  for (const Course& course : planned(head).courses) {
    for (const CourseBowl& bowl : course.bowls) lifts |= bowl.purpose == Purpose::lift;
  }
  EXPECT_TRUE(lifts);
}

/// A head whose lengths are kept dark by old colour, with what takes it out.
Case with_old_colour() {
  Case head = with_colours();
  head.zones[1].readings[0].level = 1.5;
  head.zones[1].past.permanent_colours = 3;
  head.zones[1].past.old_colour = OldColour{"neutral", process::OldDye::oxidative};
  process::Product remover;
  remover.id = "remover";
  remover.kind = process::PartKind::remover;
  head.shelf.push_back(remover);
  process::Product chelator;
  chelator.id = "chelator";
  chelator.kind = process::PartKind::chelator;
  head.shelf.push_back(chelator);
  return head;
}

TEST(PlanHead, old_dye_comes_out_before_the_lift_where_a_remover_is_at_hand) {
  const Case head = with_old_colour();
  const HeadPlan plan = planned(head);
  const auto removes = std::find_if(
      plan.courses.begin(), plan.courses.end(),
      [](const Course& course) { return course.bowls.front().purpose == Purpose::remove; });
  ASSERT_NE(removes, plan.courses.end());
  EXPECT_EQ(removes->kind, CourseKind::remove_then_colour);
  const CourseBowl& bowl = removes->bowls.front();
  ASSERT_EQ(bowl.zones.size(), 1U);
  EXPECT_EQ(bowl.zones[0].zone, 1U);
  EXPECT_EQ(bowl.peroxide_percent, 0);
  EXPECT_GT(bowl.order_g, 0);
  ASSERT_GE(removes->bowls.size(), 2U);
  EXPECT_GE(removes->bowls[1].zones[0].times.apply_at, bowl.zones[0].times.stop_at);
  // Nothing to take out, nothing to take it out with: no such course.
  Case natural = head;
  natural.zones[1].past.old_colour.reset();
  Case bare = head;
  std::erase_if(bare.shelf, [](const auto& p) { return p.kind == process::PartKind::remover; });
  for (const Case* other : {&natural, &bare}) {
    for (const Course& course : planned(*other).courses) {
      EXPECT_NE(course.kind, CourseKind::remove_then_colour) << course.name;
    }
  }
}

TEST(PlanHead, minerals_come_out_first_and_then_nothing_waits_for_it) {
  Case head = with_old_colour();
  for (ZoneCase& zone : head.zones) zone.facts.mineral_build_up = true;
  bool ready = false;
  for (const Course& course : planned(head).courses) {
    const bool first = course.bowls.front().purpose == Purpose::chelate;
    for (const CourseBowl& bowl : course.bowls) {
      if (bowl.powder_percent > 0) {
        EXPECT_TRUE(first || course.draft) << course.name;
      }
    }
    ready |= first && !course.draft;
  }
  EXPECT_TRUE(ready);
}

}  // namespace
}  // namespace hw::plan
