#include <algorithm>
#include <cctype>
#include <limits>
#include <set>
#include <utility>

#include "huewright/process/rules.h"
#include "process_rules_cases.h"

namespace hw::process {
namespace {

using test::developer;
using test::part;
using test::quiet_colour;
using test::quiet_lightener;
using test::refusals_after;
using test::rule_cases;
using test::Situation;

bool holds(const std::vector<Refusal>& list, const std::string& id) {
  return std::any_of(list.begin(), list.end(), [&](const Refusal& r) { return r.id == id; });
}

std::vector<std::string> ids_of(const std::vector<Refusal>& list) {
  std::vector<std::string> ids;
  for (const Refusal& refusal : list) ids.push_back(refusal.id);
  return ids;
}

const Refusal& find(const std::vector<Refusal>& list, const std::string& id) {
  const auto at = std::find_if(list.begin(), list.end(), [&](auto& r) { return r.id == id; });
  EXPECT_NE(at, list.end()) << id;
  return at == list.end() ? list.front() : *at;
}

bool says_safe(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text.find("safe") != std::string::npos;
}

Bowl one_to_two(double percent, bool on_scalp = false, bool for_scalp = false) {
  Bowl bowl{{part(PartKind::lightener, 30), developer(60, percent)}, on_scalp};
  bowl.parts[0].for_scalp = for_scalp;
  return bowl;
}

std::vector<Refusal> of_bowl(const Bowl& bowl, const RuleSettings& settings = {}) {
  return check_bowl(bowl, *mix_bowl(bowl), settings);
}

ApplicationFacts application(const Bowl& bowl, double minutes) {
  ApplicationFacts facts;
  facts.bowl = bowl;
  facts.mix = *mix_bowl(bowl);
  facts.minutes = Minutes(minutes);
  return facts;
}

RuleSettings settings_with(const std::string& id, double limit) {
  const auto settings = tightened({{id, limit}});
  EXPECT_TRUE(settings.has_value()) << one_line(settings.error());
  return settings.value_or(RuleSettings{});
}

TEST(ProcessRules, each_rule_is_raised_and_kept_quiet) {
  for (const auto& one : rule_cases()) {
    EXPECT_TRUE(holds(refusals_after(one.raises), one.id)) << one.id << ", " << one.name;
    EXPECT_FALSE(holds(refusals_after(one.stays_quiet), one.id)) << one.id << ", " << one.name;
  }
}

TEST(ProcessRules, every_row_of_the_table_has_a_case) {
  std::set<std::string> cased;
  for (const auto& one : rule_cases()) cased.insert(one.id);
  std::set<std::string> known;
  RefusalKind last = RefusalKind::never;
  for (const Rule& rule : rules()) {
    EXPECT_LE(std::exchange(last, rule.kind), rule.kind) << rule.id << " is out of order";
    EXPECT_TRUE(known.insert(rule.id).second) << rule.id << " stands twice";
    EXPECT_TRUE(cased.contains(rule.id)) << rule.id << " has no case";
  }
  for (const std::string& id : cased) EXPECT_TRUE(known.contains(id)) << id << " is no rule";
}

TEST(ProcessRules, a_quiet_step_holds_only_reminders) {
  EXPECT_EQ(ids_of(refusals_after([](Situation&) {})),
            (std::vector<std::string>{"persulfate_dust", "gloves", "eyes", "fresh_mix_only"}));
  EXPECT_EQ(ids_of(refusals_after([](Situation& s) { s = quiet_colour(); })),
            (std::vector<std::string>{"skin_test_can_miss", "gloves", "eyes", "fresh_mix_only"}));
}

TEST(ProcessRules, texts_are_single_calm_sentences_that_promise_nothing) {
  const std::set<std::string> grades{"published", "common practice", "guess", "house rule"};
  for (const Rule& rule : rules()) {
    EXPECT_FALSE(rule.source.empty()) << rule.id;
    EXPECT_TRUE(grades.contains(rule.grade)) << rule.id;
    EXPECT_TRUE(rule.text.ends_with(".")) << rule.id;
    EXPECT_EQ(rule.text.find('!'), std::string::npos) << rule.id;
    EXPECT_EQ(rule.text.find(". "), std::string::npos) << rule.id;
    EXPECT_FALSE(says_safe(rule.text + rule.source + rule.id)) << rule.id;
    EXPECT_EQ(rule.limit.has_value(), rule.edge != RuleEdge::stated) << rule.id;
    EXPECT_EQ(rule.unit.empty(), rule.edge == RuleEdge::stated) << rule.id;
  }
  EXPECT_FALSE(says_safe(closing_advice()));
  for (const char* word :
       {"makers' instructions", "local law", "licensed professional decides", "strand test"}) {
    EXPECT_NE(closing_advice().find(word), std::string::npos) << word;
  }
}

TEST(ProcessRules, raised_texts_have_no_empty_slots) {
  for (const auto& one : rule_cases()) {
    for (const Refusal& refusal : refusals_after(one.raises)) {
      EXPECT_EQ(refusal.text.find('{'), std::string::npos) << refusal.text;
      EXPECT_FALSE(refusal.source.empty());
    }
  }
}

TEST(ProcessRules, lists_stand_in_one_order_without_repeats) {
  for (const auto& one : rule_cases()) {
    const auto list = refusals_after(one.raises);
    std::set<std::string> seen;
    for (std::size_t i = 0; i < list.size(); ++i) {
      EXPECT_TRUE(seen.insert(list[i].id).second) << list[i].id;
      if (i > 0) {
        EXPECT_LE(list[i - 1].kind, list[i].kind);
      }
    }
    EXPECT_EQ(list, refusals_after(one.raises));
  }
}

TEST(ProcessRules, bowl_of_a_soap_cap_raises_nothing) {
  Bowl bowl = one_to_two(6);
  bowl.parts.push_back(part(PartKind::shampoo, 30));
  bowl.parts.push_back(part(PartKind::water, 30));
  EXPECT_TRUE(of_bowl(bowl).empty());
}

TEST(ProcessRules, bowl_over_the_law_names_what_it_holds) {
  const auto list = of_bowl({{developer(100, 12.01)}});
  EXPECT_EQ(ids_of(list),
            (std::vector<std::string>{"mix_peroxide_over_limit", "bottle_over_limit"}));
  EXPECT_EQ(list[0].kind, RefusalKind::never);
  EXPECT_NE(list[0].text.find("12.01 %"), std::string::npos) << list[0].text;
  EXPECT_NE(list[0].text.find("more than 12 %"), std::string::npos) << list[0].text;
  EXPECT_EQ(ids_of(of_bowl(one_to_two(18))),
            (std::vector<std::string>{"bottle_over_limit", "strong_off_scalp_developer"}));
}

TEST(ProcessRules, strong_developer_alone_may_touch_the_scalp_rules_of_lightener_only) {
  const Bowl high_lift{{part(PartKind::colour, 30), developer(60, 12)}, true};
  EXPECT_TRUE(of_bowl(high_lift).empty());
  EXPECT_EQ(
      ids_of(of_bowl(one_to_two(12, true))),
      (std::vector<std::string>{"scalp_developer_over_limit", "off_scalp_lightener_on_scalp"}));
}

TEST(ProcessRules, series_adds_minutes_and_remembers_the_scalp) {
  const auto gentle = application(one_to_two(6, true, true), 22.5);
  const auto off = application(one_to_two(6), 22.5);
  const auto colour = application({{part(PartKind::colour, 30), developer(30, 6)}}, 40);
  EXPECT_TRUE(check_series(std::vector{off, colour, off}).empty());
  EXPECT_EQ(ids_of(check_series(std::vector{gentle, gentle})),
            (std::vector<std::string>{"second_scalp_lightener_today"}));
  EXPECT_TRUE(check_series(std::vector{gentle, off}).empty());
  auto long_one = off;
  long_one.minutes = Minutes(23);
  const auto list = check_series(std::vector{off, long_one, off});
  ASSERT_EQ(ids_of(list), (std::vector<std::string>{"lightener_over_total_minutes"}));
  EXPECT_NE(list[0].text.find("68 minutes"), std::string::npos) << list[0].text;
}

TEST(ProcessRules, a_value_that_is_no_number_counts_as_beyond) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(
      holds(refusals_after([&](Situation& s) { s.hair.wear_high_90 = nan; }), "wear_over_limit"));
  EXPECT_TRUE(holds(refusals_after([&](Situation& s) { s.hair.wet_strength_ratio = nan; }),
                    "wet_strength_below_half"));
  EXPECT_TRUE(holds(refusals_after([&](Situation& s) { s.step.minutes = Minutes(nan); }),
                    "lightener_over_total_minutes"));
}

TEST(ProcessRules, person_alone_is_asked_for_the_step_in_hand) {
  Person person;
  person.past_reaction_to_dye = true;
  person.consent = Consent::given;
  person.age_years = 40;
  EXPECT_TRUE(check_person(person, {}).empty());
  const StepUse colour{.oxidative_colour = true, .oxidises = true};
  EXPECT_TRUE(forbids(check_person(person, colour)));
  const StepUse lightener{.lightener = true, .oxidises = true};
  EXPECT_FALSE(holds_back(check_person(person, lightener)));
}

TEST(ProcessRules, not_until_holds_back_and_does_not_forbid) {
  const auto list = refusals_after([](Situation& s) { s.person.consent = Consent::not_asked; });
  EXPECT_EQ(find(list, "consent_not_asked").kind, RefusalKind::not_until);
  EXPECT_TRUE(holds_back(list));
  EXPECT_FALSE(forbids(list));
  EXPECT_FALSE(holds_back(refusals_after([](Situation&) {})));
}

TEST(ProcessRules, stated_oxidative_colour_counts_without_a_bowl_that_shows_it) {
  const auto list = refusals_after([](Situation& s) {
    s.step.bowl.parts = {part(PartKind::colour, 30)};
    s.step.is_oxidative_colour = true;
    s.person.age_years = 15;
  });
  EXPECT_TRUE(holds(list, "oxidative_colour_under_age"));
  EXPECT_TRUE(holds(list, "gloves"));
}

TEST(ProcessRuleSettings, a_salon_may_tighten) {
  const auto strict = settings_with("scalp_developer_over_limit", 3);
  EXPECT_TRUE(of_bowl(one_to_two(6, true, true)).empty());
  const auto list = of_bowl(one_to_two(6, true, true), strict);
  ASSERT_EQ(ids_of(list), (std::vector<std::string>{"scalp_developer_over_limit"}));
  EXPECT_NE(list[0].text.find("3 %"), std::string::npos) << list[0].text;
  EXPECT_TRUE(of_bowl(one_to_two(3, true, true), strict).empty());

  const auto older = settings_with("oxidative_colour_under_age", 18);
  Person person{.age_years = 17, .skin_test = SkinTest::clear, .consent = Consent::given};
  const StepUse colour{.oxidative_colour = true, .oxidises = true};
  EXPECT_FALSE(forbids(check_person(person, colour)));
  EXPECT_TRUE(forbids(check_person(person, colour, older)));
}

TEST(ProcessRuleSettings, a_salon_may_never_loosen) {
  for (const Rule& rule : rules()) {
    if (!rule.limit) continue;
    const double step = rule.edge == RuleEdge::below ? -0.01 : 0.01;
    const auto looser = tightened({{rule.id, *rule.limit + step}}, "rules");
    ASSERT_FALSE(looser.has_value()) << rule.id;
    EXPECT_EQ(looser.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(looser.error().where, "rules[0].limit");
    EXPECT_TRUE(tightened({{rule.id, *rule.limit}}).has_value()) << rule.id;
    EXPECT_TRUE(tightened({{rule.id, *rule.limit - step}}).has_value()) << rule.id;
  }
}

TEST(ProcessRuleSettings, faults_are_named) {
  EXPECT_EQ(tightened({{"no_such_rule", 1}}).error().code, ErrorCode::unknown_name);
  EXPECT_EQ(tightened({{"gloves", 1}}).error().code, ErrorCode::conflict);
  EXPECT_EQ(tightened({{"wear_over_limit", -0.1}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(tightened({{"wear_over_limit", std::nan("")}}).error().code, ErrorCode::out_of_range);
  const auto twice = tightened({{"wear_over_limit", 0.3}, {"wear_over_limit", 0.2}}, "rules");
  EXPECT_EQ(twice.error().code, ErrorCode::conflict);
  EXPECT_EQ(twice.error().where, "rules[1].rule");
}

TEST(ProcessRules, lists_of_zones_merge_into_one) {
  const auto roots = refusals_after([](Situation& s) { s.hair.thin_edges = true; });
  const auto ends = refusals_after([](Situation& s) { s.hair.wear_high_90 = 0.5; });
  const auto all = merged(std::vector{roots, ends});
  EXPECT_EQ(all.front().id, "wear_over_limit");
  EXPECT_TRUE(holds(all, "thin_edges"));
  EXPECT_EQ(std::count_if(all.begin(), all.end(), [](auto& r) { return r.id == "gloves"; }), 1);
}

TEST(ProcessRules, kinds_and_words_agree) {
  for (const char* word : {"never", "not_until", "caution"}) {
    EXPECT_EQ(name_of(*refusal_kind_of(word)), word);
  }
  EXPECT_FALSE(refusal_kind_of("advice").has_value());
}

}  // namespace
}  // namespace hw::process
