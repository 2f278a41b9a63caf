// The answer of `plan` as JSON: the keys that other programs rely on.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "huewright/wire/json.h"
#include "huewright/wire/plan_answer.h"
#include "support/demo_case.h"

namespace hw::wire {
namespace {

using nlohmann::json;

plan::Case head_with_colour() {
  plan::Case head = test::plain_head();
  head.members = 64;
  head.wished_level.reset();
  head.target = *plan::target_colour({30, 16, 13});
  process::Product tube;
  tube.id = "red";
  tube.kind = process::PartKind::colour;
  tube.dye_class = process::DyeClass::demi;
  tube.level = 6;
  tube.tone = "red";
  head.shelf.push_back(tube);
  return head;
}

json answered(const plan::Case& head) {
  InlineExecutor here;
  auto plan = plan::plan_head(head, here);
  EXPECT_TRUE(plan) << one_line(plan.error());
  return json::parse(encode(PlanAnswer{head, *std::move(plan)}));
}

void expect_keys(const json& object, std::initializer_list<const char*> keys) {
  for (const char* key : keys) EXPECT_TRUE(object.contains(key)) << key;
}

TEST(WirePlan, holds_every_key_that_must_stay) {
  const json plan = answered(head_with_colour());
  expect_keys(plan, {"refusals", "cautions", "courses", "look_next"});
  ASSERT_FALSE(plan["courses"].empty());
  for (const json& course : plan["courses"]) {
    expect_keys(course, {"name", "sentence", "draft", "visits", "minutes", "minutes_low",
                         "minutes_high", "cost_low", "cost_high", "wear", "wear_left", "p_within_3",
                         "bowls", "zones", "fade"});
    for (const json& bowl : course["bowls"]) {
      expect_keys(bowl, {"visit", "purpose", "items", "peroxide_percent", "zones"});
      for (const json& item : bowl["items"]) expect_keys(item, {"product", "grams"});
      for (const json& zone : bowl["zones"]) {
        expect_keys(zone, {"zone", "apply_at_min", "stop_at_min", "checks_at_min"});
      }
    }
    for (const json& zone : course["zones"]) {
      expect_keys(zone, {"zone", "now", "result"});
      expect_keys(zone["now"], {"level", "lab"});
      if (zone.contains("after_lift")) expect_keys(zone["after_lift"], {"level", "lab"});
      expect_keys(zone["result"], {"level", "lab", "lab_low", "lab_high", "words"});
    }
    for (const json& row : course["fade"]) {
      expect_keys(row, {"wash", "zone", "lab", "de00", "de76"});
    }
  }
  for (const json& refusal : plan["refusals"]) {
    expect_keys(refusal, {"id", "kind", "text", "source"});
  }
}

TEST(WirePlan, purposes_are_the_eight_words) {
  for (const auto& [purpose, word] : std::initializer_list<std::pair<plan::Purpose, const char*>>{
           {plan::Purpose::lift, "lift"},
           {plan::Purpose::fill, "fill"},
           {plan::Purpose::deposit, "deposit"},
           {plan::Purpose::tone, "tone"},
           {plan::Purpose::gloss, "gloss"},
           {plan::Purpose::remove, "remove"},
           {plan::Purpose::chelate, "chelate"},
           {plan::Purpose::strand_test, "strand_test"}}) {
    EXPECT_EQ(name_of(purpose), word);
  }
}

TEST(WirePlan, what_waits_for_a_test_is_a_draft_of_kind_not_until) {
  const json plan = answered(head_with_colour());  // nobody made a skin test
  bool waits = false;
  for (const json& refusal : plan["refusals"]) {
    EXPECT_TRUE(refusal["kind"] == "never" || refusal["kind"] == "not_until");
    waits = waits || refusal["id"] == "skin_test_missing";
  }
  EXPECT_TRUE(waits);
  for (const json& course : plan["courses"]) {
    for (const json& bowl : course["bowls"]) {
      EXPECT_TRUE(bowl["purpose"] == "lift" || course["draft"].get<bool>());
    }
  }
}

TEST(WirePlan, wear_is_the_edge_of_the_most_worn_zone_and_the_chance_that_of_the_least_likely) {
  const json plan = answered(head_with_colour());
  for (const json& course : plan["courses"]) {
    double wear = 0;
    double chance = 1;
    for (const json& zone : course["zones"]) {
      wear = std::max(wear, zone["wear_high"].get<double>());
      chance = std::min(chance, zone["result"]["p_within_3"].get<double>());
    }
    EXPECT_DOUBLE_EQ(course["wear"].get<double>(), wear);
    EXPECT_DOUBLE_EQ(course["p_within_3"].get<double>(), chance);
    EXPECT_NEAR(course["wear_left"].get<double>(), plan::kWearLimit - wear, 1e-12);
  }
}

TEST(WirePlan, a_lift_alone_leaves_the_fields_of_colour_out) {
  plan::Case head = test::plain_head();
  head.members = 64;
  const json plan = answered(head);
  ASSERT_FALSE(plan["courses"].empty());
  for (const json& course : plan["courses"]) {
    EXPECT_FALSE(course.contains("p_within_3"));
    EXPECT_FALSE(course.contains("fade"));
    for (const json& zone : course["zones"]) {
      EXPECT_FALSE(zone.contains("result"));
      EXPECT_TRUE(zone.contains("after_lift"));
    }
  }
}

}  // namespace
}  // namespace hw::wire
