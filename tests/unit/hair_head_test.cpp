#include <limits>

#include "huewright/hair/head.h"

namespace hw::hair {
namespace {

using std::chrono::year_month_day;
using namespace std::chrono_literals;

constexpr year_month_day kSpring = 2024y / 3 / 1;
constexpr year_month_day kSummer = 2024y / 6 / 9;  // 100 days later
constexpr GrowthRate kRate{300, 60};

Head coils() {
  Head head = *usual_head(20);
  for (Section& section : head.sections) {
    section.zones = {{"roots", 0, 2}, {"mid-lengths", 2, 15}, {"ends", 15, 20}};
  }
  return head;
}

std::string where_of(const Head& head) {
  const auto result = checked(head);
  return result ? "" : result.error().where;
}

TEST(HairHead, the_usual_head_is_sound_and_its_shares_add_to_one) {
  const auto head = usual_head(25);
  ASSERT_TRUE(head);
  double sum = 0;
  for (const Section& section : head->sections) sum += section.area_share;
  EXPECT_NEAR(sum, 1, 1e-12);
  EXPECT_EQ(head->sections.size(), 5u);
  EXPECT_FALSE(usual_head(0));
  EXPECT_FALSE(usual_head(900));
}

TEST(HairHead, roots_keep_their_weight_when_layers_thin_the_ends) {
  Head head = coils();
  head.cut_factor = 1;
  const auto blunt = amounts(head);
  head.cut_factor = 0.7;
  const auto layered = amounts(head);
  EXPECT_NEAR(layered[0].mass_g / blunt[0].mass_g, 1 - 0.3 * 2 / 20, 1e-12);
  EXPECT_LT(layered[2].mass_g / blunt[2].mass_g, 0.5);
  EXPECT_NEAR(mass_g(head), 0.7 * 20 * grams_per_cm(head), 1e-9);
}

TEST(HairHead, zones_rest_nearer_the_scalp_than_they_stretch) {
  Head head = coils();
  head.shrinkage = 0.4;
  const auto all = amounts(head);
  EXPECT_DOUBLE_EQ(all[2].resting_to_cm, 12);
  EXPECT_DOUBLE_EQ(all[2].length_cm, 5);
  EXPECT_DOUBLE_EQ(stretched_cm(12, 0.4), 20);
}

TEST(HairHead, names_the_path_of_what_is_wrong) {
  EXPECT_EQ(where_of(coils()), "");
  Head head = coils();
  head.sections[2].zones[1].from_cm = 3;
  EXPECT_EQ(where_of(head), "head.sections[2].zones[1].from_cm");
  head = coils();
  head.sections[0].zones[2].to_cm = 15;
  EXPECT_EQ(where_of(head), "head.sections[0].zones[2].to_cm");
  head = coils();
  head.sections[1].zones[1].name = "roots";
  EXPECT_EQ(where_of(head), "head.sections[1].zones[1].name");
  head = coils();
  head.sections[3].area_share = 0.5;
  EXPECT_EQ(where_of(head), "head.sections");
  head = coils();
  head.sections[4].name.clear();
  EXPECT_EQ(where_of(head), "head.sections[4].name");
  head = coils();
  head.sections[0].zones.clear();
  EXPECT_EQ(where_of(head), "head.sections[0].zones");
}

TEST(HairHead, names_the_number_that_is_out_of_range) {
  Head head = coils();
  head.shrinkage = 0.95;
  EXPECT_EQ(where_of(head), "head.shrinkage");
  head = coils();
  head.hairs_per_cm2 = 1900;
  EXPECT_EQ(where_of(head), "head.hairs_per_cm2");
  head = coils();
  head.scalp_area_cm2 = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(where_of(head), "head.scalp_area_cm2");
  head = coils();
  head.fibre.diameter_um = 7.2;
  EXPECT_EQ(where_of(head), "head.fibre.diameter_um");
  head = coils();
  head.fibre.ellipticity = 0.9;
  EXPECT_EQ(where_of(head), "head.fibre.ellipticity");
  head = coils();
  head.growth.um_per_day = 12;
  EXPECT_EQ(where_of(head), "head.growth.um_per_day");
  head = coils();
  head.cut_factor = 0.3;
  EXPECT_EQ(where_of(head), "head.cut_factor");
}

TEST(HairHead, choices_are_found_by_their_word) {
  EXPECT_EQ(density_choice("high")->hairs_per_cm2, 247);
  EXPECT_EQ(density_choice("bushy").error().where, "density");
  EXPECT_EQ(strand_size("coarse")->fibre.diameter_um, 86);
  EXPECT_EQ(strand_size("wiry").error().code, ErrorCode::unknown_name);
  EXPECT_EQ(growth_choice("slow")->rate.um_per_day, 256);
  EXPECT_FALSE(growth_choice("quick"));
}

TEST(HairZones, move_out_with_growth_and_lose_their_tip) {
  const std::vector<Zone> zones = {{"roots", 0, 3}, {"ends", 3, 20}};
  const auto after = zones_after(zones, 2, 1);
  const std::vector<Zone> want = {{"regrowth", 0, 2}, {"roots", 2, 5}, {"ends", 5, 21}};
  EXPECT_EQ(after, want);
}

TEST(HairZones, join_new_hair_to_regrowth_that_was_left_alone) {
  const std::vector<Zone> zones = {{"regrowth", 0, 3}, {"lengths", 3, 20}};
  const auto after = zones_after(zones, 2, 1);
  const std::vector<Zone> want = {{"regrowth", 0, 5}, {"lengths", 5, 21}};
  EXPECT_EQ(after, want);
}

TEST(HairZones, vanish_when_cut_off_whole) {
  const std::vector<Zone> zones = {{"roots", 0, 3}, {"ends", 3, 20}};
  const auto after = zones_after(zones, 2, 18);
  const std::vector<Zone> want = {{"regrowth", 0, 2}, {"roots", 2, 4}};
  EXPECT_EQ(after, want);
  EXPECT_FALSE(zone_after(zones[1], 20, 2, 18));
  EXPECT_TRUE(zones_after(zones, 0, 20).empty());
}

TEST(HairGrowth, moves_hair_out_by_what_grew) {
  const auto place = place_now(1, kSpring, kSummer, kRate, 4);
  ASSERT_TRUE(place);
  EXPECT_NEAR(place->distance_cm.mean, 4, 1e-12);
  EXPECT_NEAR(place->distance_cm.sd, 0.6, 1e-12);
  EXPECT_NEAR(place->chance_left, 0.5, 1e-12);
  EXPECT_GT(place_now(1, kSpring, kSummer, kRate, 6)->chance_left, 0.999);
  EXPECT_LT(place_now(1, kSpring, kSummer, kRate, 2)->chance_left, 0.001);
  EXPECT_EQ(place_now(1, kSpring, kSpring, kRate, 2)->chance_left, 1);
}

TEST(HairGrowth, counts_only_the_trims_between_the_dates) {
  const std::vector<Trim> trims = {
      {2024y / 6 / 9, 1}, {2024y / 3 / 1, 5}, {2024y / 4 / 1, 2}, {2024y / 7 / 1, 5}};
  const auto later = length_after(20, kSpring, kSummer, kRate, trims);
  ASSERT_TRUE(later);
  EXPECT_NEAR(later->mean, 20 + 3 - 3, 1e-12);
  EXPECT_NEAR(length_before(later->mean, kSpring, kSummer, kRate, trims)->mean, 20, 1e-12);
}

TEST(HairGrowth, a_shaved_head_grows_from_nothing) {
  const std::vector<Trim> trims = {{2024y / 4 / 20, 99}};  // 50 days after kSpring
  EXPECT_NEAR(length_after(20, kSpring, kSummer, kRate, trims)->mean, 1.5, 1e-12);
}

TEST(HairGrowth, says_which_date_or_trim_is_wrong) {
  EXPECT_EQ(grown_cm(kRate, kSummer, kSpring).error().where, "to");
  EXPECT_EQ(grown_cm(kRate, 2024y / 2 / 30, kSpring).error().where, "from");
  const std::vector<Trim> below = {{kSummer, -1}};
  EXPECT_EQ(length_after(5, kSpring, kSummer, kRate, below).error().where, "trims[0].cm");
  const std::vector<Trim> undated = {{kSummer, 1}, {2023y / 2 / 29, 1}};
  EXPECT_EQ(length_after(5, kSpring, kSummer, kRate, undated).error().where, "trims[1].date");
  EXPECT_EQ(history_months(-1, kRate).error().where, "length_cm");
  EXPECT_EQ(history_months(1, {300, 400}).error().where, "growth.sd_um_per_day");
}

}  // namespace
}  // namespace hw::hair
