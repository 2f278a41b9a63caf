#include "huewright/base/random.h"
#include "huewright/hair/head.h"

namespace hw::hair {
namespace {

/// A sound head with 1 to 6 zones per section and numbers drawn over their ranges.
Head random_head(const Draws& draws, std::uint64_t stream) {
  std::uint64_t next = 0;
  const auto between = [&](double low, double high) {
    return low + (high - low) * draws.uniform(stream, next++);
  };
  Head head = *usual_head(20);
  head.hairs_per_cm2 = between(90, 290);
  head.scalp_area_cm2 = between(450, 800);
  head.fibre = {between(45, 110), between(1, 3)};
  head.shrinkage = between(0, 0.75);
  head.cut_factor = between(0.5, 1);
  for (Section& section : head.sections) {
    section.zones.clear();
    const auto count = static_cast<int>(between(1, 6.99));
    double at = 0;
    for (int i = 0; i < count; ++i) {
      const double to = at + between(0.2, 12);
      section.zones.push_back({"zone " + std::to_string(i), at, to});
      at = to;
    }
  }
  return head;
}

double share_of_zone(const std::vector<ZoneAmount>& all, const std::string& section) {
  double sum = 0;
  for (const ZoneAmount& amount : all) {
    if (amount.section == section) sum += amount.mass_g;
  }
  return sum;
}

TEST(HairHeadProperty, zones_add_up_to_the_undivided_strand) {
  const Draws draws(5);
  for (std::uint64_t trial = 0; trial < 300; ++trial) {
    const Head head = random_head(draws, trial);
    ASSERT_TRUE(checked(head));
    const auto zoned = amounts(head);
    Head whole = head;
    for (Section& section : whole.sections) {
      section.zones = {{"all", 0, section.zones.back().to_cm}};
    }
    for (const ZoneAmount& undivided : amounts(whole)) {
      EXPECT_NEAR(share_of_zone(zoned, undivided.section), undivided.mass_g,
                  1e-9 * undivided.mass_g);
      EXPECT_GT(undivided.mass_g, 0);
    }
    EXPECT_NEAR(mass_g(head), mass_g(whole), 1e-9 * mass_g(whole));
  }
}

TEST(HairHeadProperty, more_hair_never_weighs_less) {
  const Draws draws(6);
  for (std::uint64_t trial = 0; trial < 200; ++trial) {
    const Head head = random_head(draws, trial);
    const double before = mass_g(head);
    Head more = head;
    more.hairs_per_cm2 *= 1.1;
    EXPECT_GT(mass_g(more), before);
    more = head;
    more.fibre.diameter_um *= 1.1;
    EXPECT_GT(mass_g(more), before);
    EXPECT_LT(surface_m2_per_g(more.fibre), surface_m2_per_g(head.fibre));
    more = head;
    more.sections[0].zones.back().to_cm += 1;
    EXPECT_GT(mass_g(more), before);
    more = head;
    more.shrinkage = 0.7;
    EXPECT_EQ(mass_g(more), before);
  }
}

TEST(HairHeadProperty, a_zone_nearer_the_tip_never_outweighs_an_equal_one_nearer_the_scalp) {
  Head head = *usual_head(30);
  for (Section& section : head.sections) {
    section.zones = {{"a", 0, 10}, {"b", 10, 20}, {"c", 20, 30}};
  }
  for (double cut = 0.5; cut <= 1; cut += 0.05) {
    head.cut_factor = cut;
    const auto all = amounts(head);
    for (std::size_t i = 0; i + 2 < all.size(); i += 3) {
      EXPECT_GE(all[i].mass_g, all[i + 1].mass_g);
      EXPECT_GE(all[i + 1].mass_g, all[i + 2].mass_g);
      EXPECT_GT(all[i + 2].mass_g, 0);
    }
  }
}

TEST(HairHeadProperty, zones_stay_in_order_without_gaps_through_many_visits) {
  const Draws draws(8);
  for (std::uint64_t trial = 0; trial < 200; ++trial) {
    std::vector<Zone> zones = {{"roots", 0, 2}, {"lengths", 2, 18}, {"ends", 18, 22}};
    double length = 22;
    for (std::uint64_t visit = 0; visit < 8; ++visit) {
      const double growth = 3 * draws.uniform(trial, 2 * visit);
      const double trim = 4 * draws.uniform(trial, 2 * visit + 1);
      zones = zones_after(zones, growth, trim, "visit " + std::to_string(visit));
      length += growth - trim;
      double reached = 0;
      for (const Zone& zone : zones) {
        EXPECT_NEAR(zone.from_cm, reached, 1e-9);
        EXPECT_GT(zone.to_cm, zone.from_cm);
        reached = zone.to_cm;
      }
      EXPECT_NEAR(reached, length, 1e-9);
    }
  }
}

}  // namespace
}  // namespace hw::hair
