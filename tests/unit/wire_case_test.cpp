// A case file as the planner gets it: every field where it belongs, wishes and dates worked out.
#include <gmock/gmock.h>

#include <array>
#include <map>

#include "huewright/plan/target.h"
#include "huewright/process/moment.h"
#include "huewright/wire/case_file.h"
#include "huewright/wire/json.h"
#include "support/reference.h"

namespace hw::wire {
namespace {

CaseFile file_of(const std::string& text) {
  auto file = decode<CaseFile>(text);
  EXPECT_TRUE(file) << one_line(file.error());
  return *std::move(file);
}

CaseFile every_key() {
  return file_of(test::test_text("every_key_case.json"));
}

plan::Case ready_of(const CaseFile& file) {
  auto head = ready(file);
  EXPECT_TRUE(head) << one_line(head.error());
  return *std::move(head);
}

std::string fault_of(const CaseFile& file) {
  const auto head = ready(file);
  return head ? std::string() : one_line(head.error());
}

std::array<double, 3> numbers_of(const colour::HairLab& lab) {
  return {lab.l, lab.a, lab.b};
}

TEST(WireCase, a_photo_s_doubt_is_looked_at) {
  CaseFile file = every_key();
  plan::Reading& photo = file.head.zones[0].readings[1];
  ASSERT_EQ(photo.by, plan::Reader::photo);
  EXPECT_EQ(fault_of(file), "");
  const auto good = *photo.covariance;
  for (const auto& [place, value] :
       std::array<std::pair<std::size_t, double>, 4>{{{0, 0}, {4, -1}, {1, 5}, {8, 1e6}}}) {
    photo.covariance = good;
    (*photo.covariance)[place] = value;
    EXPECT_NE(fault_of(file).find("no covariance"), std::string::npos) << place;
  }
  // Symmetric, but more shared than there is: no normal has it.
  photo.covariance = {1, 2, 0, 2, 1, 0, 0, 0, 1};
  EXPECT_NE(fault_of(file).find("no covariance"), std::string::npos);
  photo.covariance.reset();
  EXPECT_NE(fault_of(file).find("a photo gives lab and covariance"), std::string::npos);
  photo.by = plan::Reader::instrument;
  EXPECT_EQ(fault_of(file), "");
  photo.covariance = good;
  EXPECT_NE(fault_of(file).find("nobody else a covariance"), std::string::npos);
}

TEST(WireCase, comes_back_as_it_went_out) {
  const CaseFile file = every_key();
  const std::string once = encode(file);
  EXPECT_EQ(encode(file_of(once)), once);
}

TEST(WireCase, frame_of_the_work_is_read) {
  const plan::Case head = ready_of(every_key());
  EXPECT_EQ(head.limits.minutes, 240);
  EXPECT_EQ(head.limits.money, 300);
  EXPECT_EQ(head.limits.wear, 0.3);
  EXPECT_EQ(head.limits.most_shades, 2u);
  EXPECT_EQ(head.limits.most_visits, 2);
  EXPECT_EQ(head.salon.hands, 2);
  EXPECT_EQ(head.salon.prices.hands, 2);  // who works is paid
  EXPECT_EQ(head.salon.grams_per_min, 3);
  EXPECT_EQ(head.salon.amount_factor, 1.1);
  EXPECT_EQ(head.salon.scale_step_g, 0.5);
  EXPECT_EQ(head.salon.prices.labour_per_hour, 40);
  EXPECT_EQ(head.salon.prices.overhead, 8);
  EXPECT_EQ(head.salon.prices.product_allowance, 10);
  EXPECT_EQ(head.salon.prices.margin, 0.2);
  EXPECT_EQ(head.salon.prices.quote_step, 10);
  ASSERT_EQ(head.salon.deposits.size(), 2u);
  EXPECT_EQ(head.salon.deposits[1].from, 400);
  EXPECT_EQ(head.salon.deposits[1].deposit, 100);
  EXPECT_EQ(head.habits.washes_per_week, 2);
  EXPECT_EQ(head.habits.wash.temperature_c, 36);
  EXPECT_EQ(head.habits.wash.ph, 5.5);
  EXPECT_TRUE(head.habits.wash.hard);
  EXPECT_EQ(head.habits.light_h_per_week, 3);
  EXPECT_EQ(head.habits.weeks_to_next, 8);
  EXPECT_EQ(head.habits.growth_um_per_day, 300);
  EXPECT_FALSE(head.style.twists);
  EXPECT_EQ(head.style.parting_cm, 2);
}

TEST(WireCase, old_colour_and_minerals_of_a_zone_are_read) {
  const plan::Case head = ready_of(every_key());
  ASSERT_TRUE(head.zones[0].past.old_colour.has_value());
  EXPECT_EQ(head.zones[0].past.old_colour->kind, process::OldDye::oxidative);
  EXPECT_TRUE(head.zones[0].facts.mineral_build_up);
  EXPECT_FALSE(head.zones[1].facts.mineral_build_up);
}

TEST(WireCase, products_keep_what_their_label_says) {
  const plan::Case head = ready_of(every_key());
  ASSERT_EQ(head.shelf.size(), 4u);
  const process::Product& colour = head.shelf[2];
  EXPECT_EQ(colour.name, "Silt");
  EXPECT_EQ(colour.developer_parts, 1.5);
  EXPECT_EQ(colour.label_min->value(), 20);
  EXPECT_EQ(colour.mix_life->value(), 30);
  EXPECT_TRUE(colour.test_each_use);
  EXPECT_THAT(colour.ingredients, testing::ElementsAre("Aqua", "Toluene-2,5-Diamine"));
  EXPECT_EQ(colour.swatch_lab->b, 14);
  EXPECT_FALSE(head.shelf[1].developer_parts.has_value());
  EXPECT_TRUE(head.shelf[3].protein);
  EXPECT_TRUE(head.shelf[3].label_allows_mixing);
}

TEST(WireCase, a_swatch_tells_the_level_that_nobody_gave) {
  CaseFile file = every_key();
  file.ladder_lstar.clear();
  file.head.shelf[2].level = 0;  // as the decoder leaves it
  const plan::Case head = ready_of(file);
  EXPECT_EQ(head.shelf[2].level, head.ladder.level_of(35));
  file.head.shelf[2].swatch_lab.reset();
  EXPECT_THAT(fault_of(file), testing::HasSubstr("shelf[2]: a colour must say its level"));
}

TEST(WireCase, targets_are_worked_out_for_head_and_zone) {
  CaseFile file = every_key();
  file.ladder_lstar.clear();
  const plan::Case head = ready_of(file);
  ASSERT_TRUE(head.target);
  EXPECT_EQ(head.target->words, "chestnut");
  EXPECT_EQ(numbers_of(head.target->centre), numbers_of(plan::look("chestnut")->centre));
  ASSERT_TRUE(head.zones[0].target);
  EXPECT_EQ(head.zones[0].target->source, plan::TargetSource::swatch);
  EXPECT_EQ(head.zones[0].target->centre.a, 14);
  EXPECT_FALSE(head.zones[1].target);
  // The ends take the head's, a level darker.
  const auto ends = plan::target_of(head, head.zones[1]);
  EXPECT_NEAR(head.ladder.level_of(ends->centre.l), head.ladder.level_of(head.target->centre.l) - 1,
              1e-9);
}

TEST(WireCase, each_way_to_say_a_colour_has_its_own_spread) {
  const colour::HairLab lab{60, 9, 22};
  const std::map<std::string, plan::Target> ways{{"lab", *plan::target_colour(lab)},
                                                 {"swatch_lab", *plan::target_swatch(lab)},
                                                 {"photo_lab", *plan::target_photo(lab)},
                                                 {"last_time_lab", *plan::target_last_time(lab)}};
  for (const auto& [key, target] : ways) {
    const CaseFile file =
        file_of(R"({"person":{},"zones":[{"name":"all","from_cm":0,"to_cm":9,"readings":[)"
                R"({"level":4}]}],"shelf":[{"id":"a","kind":"lightener"}],"target":{")" +
                key + R"(":[60,9,22]}})");
    const plan::Case head = ready_of(file);
    EXPECT_EQ(head.target->source, target.source) << key;
    EXPECT_EQ(numbers_of(head.target->centre), numbers_of(target.centre)) << key;
    EXPECT_EQ(head.target->sd_l, target.sd_l) << key;
  }
}

TEST(WireCase, a_target_follows_the_salons_own_ladder_and_looks) {
  CaseFile file = every_key();
  const double usual = plan::look("chestnut")->centre.l;
  EXPECT_NE(ready_of(file).target->centre.l, usual);  // other rungs
  file.looks = *plan::parse_looks(
      "word,level,sd_level,a,sd_a,b,sd_b,note,grade,source\nrust,5,1,18,3,20,3,,guess,own\n",
      "looks.csv");
  EXPECT_THAT(fault_of(file), testing::HasSubstr("target: no look is called \"chestnut\""));
  file.target->look = "Rust ";
  EXPECT_EQ(ready_of(file).target->centre.a, 18);
}

TEST(WireCase, moments_are_read_with_their_offset) {
  const plan::Case head = ready_of(every_key());
  EXPECT_EQ(process::iso_text(*head.visit_at), "2025-03-30T10:00:00+02:00");
  EXPECT_EQ(process::iso_text(*head.asked_at), "2025-03-20T08:15:30+00:00");
  ASSERT_TRUE(head.tests);
  const process::SkinTestRecord& test = head.tests->skin_tests.at(0);
  EXPECT_EQ(test.colour, (process::ColourName{"Silt", "c"}));
  // The clocks went forward in the night between: 48.5 h on the wall and in truth before it.
  EXPECT_EQ(process::hours_between(test.applied, *test.read), 48.5);
  EXPECT_EQ(test.result, process::SkinTest::clear);
  EXPECT_EQ(process::iso_text(*head.tests->last_relaxer_or_smoothing), "2025-03-01");
  ASSERT_EQ(head.tests->visits.size(), 1u);
  EXPECT_EQ(head.tests->visits[0].colours.size(), 1u);
}

TEST(WireCase, days_since_the_relaxer_follow_from_its_date_where_hair_had_one) {
  CaseFile file = every_key();
  plan::Case head = ready_of(file);
  EXPECT_EQ(head.zones[0].facts.texture.days_since_relaxer_or_smoothing, 30);  // as it says
  EXPECT_EQ(head.zones[1].facts.texture.days_since_relaxer_or_smoothing, 29);  // 1 to 30 March
  file.head.zones[1].facts.texture = {};
  head = ready_of(file);
  EXPECT_FALSE(head.zones[1].facts.texture.days_since_relaxer_or_smoothing);
}

TEST(WireCase, two_sections_may_lie_at_the_same_place_of_the_strand) {
  CaseFile file = every_key();
  file.head.zones[1].from_cm = 0;
  EXPECT_THAT(fault_of(file), testing::HasSubstr("zones[1].from_cm: starts at 0 cm, inside"));
  file.head.zones[1].section = "nape";
  EXPECT_EQ(fault_of(file), "");
}

}  // namespace
}  // namespace hw::wire
