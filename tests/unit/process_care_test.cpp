#include <algorithm>
#include <set>

#include "huewright/process/care.h"
#include "support/reference.h"

namespace hw::process {
namespace {

const test::Source kPractice{"common practice, no source", ""};

std::vector<std::string> ids_of(const std::vector<CareStep>& steps) {
  std::vector<std::string> ids;
  for (const CareStep& step : steps) ids.push_back(step.id);
  return ids;
}

WetStretch look(StretchLook what) {
  const auto stretch = judged(what);
  EXPECT_TRUE(stretch.has_value());
  return stretch.value_or(WetStretch::not_tested);
}

TEST(ProcessCare, wet_hair_stretches_forty_to_fifty_and_returns) {
  const test::Source texas{"texas_elasticity_module", "activity 2.1"};
  EXPECT_PUBLISHED("wet stretch that passes, low [%]", texas, 40, care_figure("wet_stretch").low,
                   0.5);
  EXPECT_PUBLISHED("wet stretch that passes, high [%]", texas, 50, care_figure("wet_stretch").high,
                   0.5);
  EXPECT_PUBLISHED("dry stretch [%]", texas, 20, care_figure("dry_stretch").high, 0.5);
  for (const double percent : {40, 45, 50, 60}) {
    EXPECT_EQ(look({.percent = percent}), WetStretch::springs_back) << percent;
  }
}

TEST(ProcessCare, stretch_edges_lie_five_points_off_the_printed_figures) {
  EXPECT_EQ(look({.percent = 34.9, .springs_back = false, .broke = true}), WetStretch::snaps);
  EXPECT_EQ(look({.percent = 45, .springs_back = false, .broke = true}), WetStretch::snaps);
  EXPECT_EQ(look({.percent = 65}), WetStretch::springs_back);
  EXPECT_EQ(look({.percent = 65.1}), WetStretch::stays_stretched);
  EXPECT_EQ(look({.percent = 45, .springs_back = false}), WetStretch::stays_stretched);
  EXPECT_EQ(look({.percent = 10, .springs_back = false, .gummy = true}), WetStretch::gummy);
  EXPECT_EQ(look({.wet = false, .percent = 14, .broke = true}), WetStretch::snaps);
  EXPECT_EQ(look({.wet = false, .percent = 20}), WetStretch::springs_back);
  for (const double percent : {-0.1, 200.1, std::nan("")}) {
    const auto result = judged({.percent = percent});
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(result.error().where, "stretch.percent");
  }
}

TEST(ProcessCare, moisture_or_protein_follows_the_wet_stretch) {
  EXPECT_EQ(meaning_of(WetStretch::snaps), StretchMeaning::lacks_moisture);
  EXPECT_EQ(meaning_of(WetStretch::stays_stretched), StretchMeaning::lacks_protein);
  EXPECT_EQ(meaning_of(WetStretch::gummy), StretchMeaning::lacks_protein);
  EXPECT_EQ(meaning_of(WetStretch::springs_back), StretchMeaning::balanced);
  EXPECT_EQ(meaning_of(WetStretch::not_tested), StretchMeaning::balanced);
  std::set<std::string> sentences;
  for (const auto s : {WetStretch::snaps, WetStretch::gummy, WetStretch::springs_back}) {
    sentences.insert(treatment_words(s));
  }
  EXPECT_EQ(sentences.size(), 3U);
  EXPECT_NE(treatment_words(WetStretch::gummy).find("never blended"), std::string::npos);
}

TEST(ProcessCare, cleansing_stands_before_the_deposit_and_not_after) {
  const auto before = care_after(After::lightener, WetStretch::springs_back);
  EXPECT_EQ(ids_of(before), (std::vector<std::string>{"rinse", "shampoo", "mask", "detangle",
                                                      "towel", "read_dry"}));
  const auto shampoo = std::find_if(before.begin(), before.end(),
                                    [](const auto& step) { return step.id == "shampoo"; });
  EXPECT_PUBLISHED("shampoos after lightener", kPractice, 2, shampoo->times, 0.5);
  for (const DyeClass dye :
       {DyeClass::direct, DyeClass::cationic, DyeClass::demi, DyeClass::permanent}) {
    const auto after = ids_of(care_after(After::deposit, WetStretch::springs_back, dye));
    EXPECT_EQ(after.front(), "rinse");
    EXPECT_EQ(std::count(after.begin(), after.end(), "shampoo"), 0);
    const bool alkaline = dye == DyeClass::demi || dye == DyeClass::permanent;
    EXPECT_EQ(std::count(after.begin(), after.end(), "acid_rinse"), alkaline ? 1 : 0);
    EXPECT_EQ(after.back(), "cool_rinse");
  }
  EXPECT_EQ(wash_order().before_deposit, 2);
  EXPECT_EQ(wash_order().after_deposit, 0);
  EXPECT_TRUE(care_after(After::nothing_yet, WetStretch::springs_back).empty());
}

TEST(ProcessCare, a_remover_is_rinsed_long_and_read_and_a_chelator_dried_before_lightener) {
  EXPECT_EQ(ids_of(care_after(After::remover, WetStretch::springs_back)),
            (std::vector<std::string>{"rinse", "shampoo", "towel", "read_dry"}));
  EXPECT_EQ(ids_of(care_after(After::chelator, WetStretch::springs_back)),
            (std::vector<std::string>{"rinse", "dry"}));
}

TEST(ProcessCare, a_mask_is_never_longer_than_half_an_hour_and_gum_asks_for_protein) {
  const test::Source pages{"stretch_test_pages", "mask time and protein interval"};
  const auto steps = care_after(After::lightener, WetStretch::gummy);
  const auto protein =
      std::find_if(steps.begin(), steps.end(), [](const auto& s) { return s.id == "protein"; });
  ASSERT_NE(protein, steps.end());
  EXPECT_PUBLISHED("longest mask [min]", pages, 30, protein->minutes_high, 0.5);
  EXPECT_PUBLISHED_RANGE("weeks between protein treatments, low", pages, 4, 9,
                         care_figure("protein_interval").low);
  EXPECT_PUBLISHED_RANGE("weeks between protein treatments, high", pages, 4, 9,
                         care_figure("protein_interval").high);
}

TEST(ProcessCare, water_is_told_in_words_and_cooler_at_the_end) {
  const CareFigure& wash = care_figure("wash_water");
  const CareFigure& last = care_figure("last_rinse_water");
  EXPECT_LT(last.high, wash.low);
  EXPECT_EQ(wash.grade, "guess");
  const auto steps = care_after(After::deposit, WetStretch::springs_back, DyeClass::direct);
  EXPECT_NE(steps.back().words.find("cool water"), std::string::npos);
  EXPECT_NE(care_after(After::lightener, WetStretch::springs_back)[0].words.find("lukewarm"),
            std::string::npos);
}

TEST(ProcessCare, protein_is_used_by_itself) {
  const Ingredient protein{PartKind::treatment, true, true};
  EXPECT_TRUE(check_blend(std::vector{protein}).empty());
  for (const PartKind other : {PartKind::shampoo, PartKind::conditioner, PartKind::colour,
                               PartKind::water, PartKind::treatment}) {
    const auto list = check_blend(std::vector<Ingredient>{protein, {other, false, true}});
    ASSERT_EQ(list.size(), 1U);
    EXPECT_EQ(list[0].id, "protein_treatment_blended");
    EXPECT_EQ(list[0].kind, RefusalKind::never);
  }
}

TEST(ProcessCare, no_dispute_is_settled_by_silence) {
  // Every numbered contradiction of the trade that a figure can show stands with both its ends.
  std::set<std::string> ids;
  for (const Dispute& one : disputes()) {
    EXPECT_TRUE(ids.insert(one.id).second) << one.id;
    EXPECT_EQ(one.low.has_value(), one.high.has_value()) << one.id;
    if (one.low) {
      EXPECT_LT(*one.low, *one.high) << one.id;
      EXPECT_FALSE(one.unit.empty()) << one.id;
    }
    EXPECT_NE(one.one_side, one.other_side) << one.id;
    for (const std::string& text :
         {one.question, one.one_side, one.other_side, one.house, one.source}) {
      EXPECT_FALSE(text.empty()) << one.id;
    }
  }
  for (const char* id :
       {"developer_lift", "warm_stage", "soap_cap_lift", "red_size", "coily_porosity",
        "skin_test_hours", "first_wash", "soap_cap_shampoo", "history_rule", "wash_before_colour",
        "tint_life", "averaging_rule", "filler_when", "white_naturals", "green_on_red"}) {
    EXPECT_TRUE(ids.contains(id)) << id;
  }
}

TEST(ProcessCare, figures_with_two_answers_stay_bands) {
  const auto band = [](const std::string& id) {
    for (const Dispute& one : disputes()) {
      if (one.id == id) return std::pair(one.low.value_or(0), one.high.value_or(0));
    }
    return std::pair(0.0, 0.0);
  };
  EXPECT_EQ(band("first_wash"), std::pair(24.0, 72.0));
  EXPECT_EQ(band("first_wash"),
            std::pair(care_figure("first_wash").low, care_figure("first_wash").high));
  EXPECT_EQ(band("skin_test_hours"), std::pair(24.0, 48.0));
  EXPECT_EQ(band("tint_life"), std::pair(30.0, 45.0));
}

TEST(ProcessCare, washes_a_week_turn_washes_into_weeks) {
  const test::Source advice{"own derivation", "10 washes to a visible change of red"};
  EXPECT_PUBLISHED("weeks, once a week", advice, 10, weeks_of_washing(10, 1), 0.5);
  EXPECT_PUBLISHED_RANGE("weeks, three times a week", advice, 3, 4, weeks_of_washing(10, 3));
}

TEST(ProcessCare, aftercare_keeps_the_trade_s_intervals) {
  struct Row {
    const char* id;
    double low, high;
  };
  for (const Row& row :
       {Row{"first_wash", 24, 72}, Row{"gloss_interval", 4, 6}, Row{"root_interval", 3, 4},
        Row{"acid_rinse_ph", 3.5, 4.5}, Row{"acid_rinse", 1, 5}, Row{"red_washes", 0, 3}}) {
    const CareFigure& figure = care_figure(row.id);
    const std::string name = std::string(row.id) + " [" + figure.unit + "]";
    EXPECT_PUBLISHED(name + ", low", kPractice, row.low, figure.low, 0.05);
    EXPECT_PUBLISHED(name + ", high", kPractice, row.high, figure.high, 0.05);
  }
}

TEST(ProcessCare, a_year_of_history_is_shorter_on_slow_growing_hair) {
  const test::Source growth{"loussouarn_2001", "256 um a day"};
  const auto all = disputes();
  const auto rule = std::find_if(all.begin(), all.end(),
                                 [](const auto& one) { return one.id == "history_rule"; });
  ASSERT_NE(rule, all.end());
  constexpr double kCmPerYear = 256e-4 * 365.25;
  EXPECT_PUBLISHED("growth of a year [cm]", growth, 9.3, kCmPerYear, 0.1);
  EXPECT_NEAR(*rule->low, kCmPerYear, 0.1);
  EXPECT_PUBLISHED("share of history that 15 cm a year misses [%]",
                   {"own derivation", "1 - 1 year over 15 cm at 256 um a day"}, 39,
                   100 * (1 - kCmPerYear / *rule->high), 1.5);
}

TEST(ProcessCare, every_figure_says_where_it_comes_from) {
  const std::set<std::string> grades{"published", "common practice", "guess"};
  std::set<std::string> ids;
  for (const CareFigure& row : care_figures()) {
    EXPECT_TRUE(ids.insert(row.id).second) << row.id;
    EXPECT_LE(row.low, row.high) << row.id;
    EXPECT_FALSE(row.unit.empty()) << row.id;
    EXPECT_FALSE(row.source.empty()) << row.id;
    EXPECT_TRUE(grades.contains(row.grade)) << row.id;
  }
}

}  // namespace
}  // namespace hw::process
