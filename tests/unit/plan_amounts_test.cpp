#include <numeric>

#include "huewright/plan/amounts.h"
#include "huewright/plan/plan.h"
#include "support/demo_case.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

double whole(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

TEST(PlanAmounts, a_head_of_twenty_centimetres_weighs_what_density_and_thickness_say) {
  Case head = test::plain_head();
  head.strand_um = 73.2;
  head.hairs_per_cm2 = 161;
  head.scalp_area_cm2 = 580;
  head.cut_factor = 1;
  head.zones = {test::zone("roots", 0, 5, 2), test::zone("lengths", 5, 20, 2)};
  EXPECT_PUBLISHED("mass of a head, 161 hairs/cm2 of 73.2 um, 20 cm [g]",
                   {"practical_modern_hair_science_2012", "pp. 197, 204: density and strand area"},
                   104, whole(zone_mass_g(head)), 1);
}

TEST(PlanAmounts, sections_share_the_scalp_and_add_up_to_the_whole_head) {
  Case head = test::plain_head();
  head.zones = {test::zone("all", 0, 20, 2)};
  const double one = whole(zone_mass_g(head));
  head.zones = {test::zone("back", 0, 20, 2), test::zone("front", 0, 20, 2)};
  head.zones[0].section = "back";
  head.zones[1].section = "my own name for the front";
  EXPECT_NEAR(whole(zone_mass_g(head)), one, 1e-9);
}

TEST(PlanAmounts, parts_keep_their_ratio_and_a_bowl_for_the_scalp_holds_its_film) {
  InlineExecutor executor;
  const Case head = test::plain_head();
  const auto plan = plan_head(head, executor);
  ASSERT_TRUE(plan);
  const CourseBowl& bowl = plan->courses.front().bowls.front();
  ASSERT_EQ(bowl.purpose, Purpose::lift);
  EXPECT_NEAR(bowl.poured.grams_of(bowl.parts[1].id) / bowl.poured.grams_of(bowl.parts[0].id),
              bowl.parts[1].parts / bowl.parts[0].parts, 0.05);
  // 0.3 mm on 580 cm² is 17.4 g; the rest is hair. Zone by zone, likely; the order is more.
  const double hair = whole(zone_mass_g(head)) * pick_up_of(head, true);
  double grams = 0;
  for (const BowlZone& zone : bowl.zones) grams += zone.grams;
  EXPECT_NEAR(grams, hair + 17.4, 0.15 * (hair + 17.4));  // waste on top: work rate waste
  EXPECT_GT(bowl.order_g, grams);
}

}  // namespace
}  // namespace hw::plan
