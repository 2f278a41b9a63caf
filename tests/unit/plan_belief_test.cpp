#include <algorithm>
#include <array>

#include "huewright/plan/belief.h"
#include "support/demo_case.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

using test::plain_head;
using test::zone;

std::vector<ZoneBelief> believed(const Case& head) {
  InlineExecutor executor;
  auto beliefs = believe(head, executor);
  EXPECT_TRUE(beliefs.has_value()) << one_line(beliefs.error());
  return *std::move(beliefs);
}

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
  const double ma = mean(a);
  const double mb = mean(b);
  double ab = 0, aa = 0, bb = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    ab += (a[i] - ma) * (b[i] - mb);
    aa += (a[i] - ma) * (a[i] - ma);
    bb += (b[i] - mb) * (b[i] - mb);
  }
  return ab / std::sqrt(aa * bb);
}

TEST(PlanBelief, an_eye_reading_is_believed_within_about_half_a_level) {
  Case head = plain_head();
  head.members = 512;
  head.zones = {zone("lengths", 3, 15, 5)};
  const auto level = band_of(believed(head)[0].level_now);
  EXPECT_NEAR(level.mid, 5, 0.2);
  // Half a level and a bias of 0.3 give a sd of 0.58: the band is 2.56 of it, about 1.5 levels.
  EXPECT_NEAR(level.high - level.low, 1.5, 0.3);
}

TEST(PlanBelief, a_second_reading_narrows_it_and_wet_hair_widens_it) {
  Case head = plain_head();
  head.members = 512;
  head.zones = {zone("lengths", 3, 15, 5)};
  const auto width = [&](const Case& at) {
    const auto band = band_of(believed(at)[0].level_now);
    return band.high - band.low;
  };
  Case twice = head;
  twice.zones[0].readings.push_back(twice.zones[0].readings[0]);
  Case wet = head;
  wet.zones[0].readings[0].moisture = hair::Moisture::wet;
  EXPECT_LT(width(twice), width(head));
  EXPECT_GT(width(wet), width(head));
  // The same words said of wet hair mean lighter hair underneath.
  EXPECT_GT(band_of(believed(wet)[0].level_now).mid,
            band_of(believed(head)[0].level_now).mid + 0.3);
}

TEST(PlanBelief, an_instrument_narrows_more_than_an_eye_and_finds_the_melanin_of_dark_brown) {
  Case head = plain_head();
  head.members = 512;
  head.strand_um = 70;
  head.zones = {zone("lengths", 3, 15, 3)};
  // The dark-brown tress of scanavez_2000, mean of seven instrument settings.
  head.zones[0].readings = {
      {Reader::instrument, hair::Moisture::dry, {}, colour::HairLab{22.7, 3.9, 4.8}}};
  const auto belief = believed(head)[0];
  const auto& members = belief.members;
  EXPECT_PUBLISHED_RANGE("melanin of a measured dark-brown tress [% of mass]",
                         {"borges_2001", "brown hair, with scanavez_2000 Table III"}, 0.7, 1.5,
                         quantile(members.eumelanin_percent, 0.5));
  const auto level = band_of(belief.level_now);
  EXPECT_LT(level.high - level.low, 1.5);
}

TEST(PlanBelief, a_photo_is_believed_as_far_as_its_own_errors_go) {
  const auto width = [](const Reading& reading) {
    Case head = plain_head();
    head.members = 512;
    head.zones = {zone("lengths", 3, 15, 3)};
    head.zones[0].readings = {reading};
    const auto level = band_of(believed(head)[0].level_now);
    return level.high - level.low;
  };
  const colour::HairLab lab{22.7, 3.9, 4.8};
  const auto photo = [&](double variance) {
    return Reading{Reader::photo,
                   hair::Moisture::dry,
                   {},
                   lab,
                   std::array<double, 9>{variance, 0, 0, 0, variance, 0, 0, 0, variance}};
  };
  const double instrument = width({Reader::instrument, hair::Moisture::dry, {}, lab});
  EXPECT_GT(width(photo(4)), 1.1 * instrument);
  EXPECT_GT(width(photo(25)), 1.2 * width(photo(4)));
  EXPECT_NEAR(width(photo(0.0025)), instrument, 0.2 * instrument);
}

TEST(PlanBelief, black_below_the_default_floor_is_believed_without_turning_the_law_round) {
  Case head = plain_head();
  head.zones = {zone("lengths", 3, 15, 1)};
  head.zones[0].readings = {
      {Reader::instrument, hair::Moisture::dry, {}, colour::HairLab{18.0, 0.02, -0.91}}};
  const auto belief = believed(head)[0];
  EXPECT_LT(quantile(belief.members.surface_term, 0.5), hair::kSurfaceTerm);
  EXPECT_LT(band_of(belief.level_now).mid, 1.5);
}

TEST(PlanBelief, zones_of_one_head_share_rate_and_constants) {
  const auto beliefs = believed(plain_head());
  EXPECT_GT(correlation(beliefs[0].members.rate, beliefs[1].members.rate), 0.7);
  EXPECT_EQ(beliefs[0].members.constants[7].dark_rate_per_min,
            beliefs[1].members.constants[7].dark_rate_per_min);
  EXPECT_EQ(beliefs[0].members.strand_um, beliefs[1].members.strand_um);
}

TEST(PlanBelief, untouched_zones_of_one_head_hold_much_the_same_pigment) {
  Case alone = plain_head();
  alone.members = 512;
  alone.zones = {zone("roots", 0, 3, 4)};
  Case both = alone;
  both.zones.push_back(zone("lengths", 3, 15, 4));
  const auto spread = [](const ZoneBelief& belief) {
    const Band band = band_of(belief.origin.found);
    return std::log(band.high / band.low);
  };
  // Two looks at much the same hair tell each of the zones more than one.
  const auto together = believed(both);
  EXPECT_LT(spread(together[0]), 0.95 * spread(believed(alone)[0]));
  EXPECT_LT(spread(together[1]), 0.95 * spread(believed(alone)[0]));
  EXPECT_GT(correlation(together[0].origin.found, together[1].origin.found), 0.3);
  // A length that sun or an untold past made lighter is still believed as it was read.
  both.zones[1] = zone("lengths", 3, 15, 8);
  const auto apart = believed(both);
  EXPECT_NEAR(band_of(apart[0].level_now).mid, 4, 0.6);
  EXPECT_NEAR(band_of(apart[1].level_now).mid, 8, 0.6);
  // What was coloured tells nothing of natural pigment, and changes nothing there.
  both.zones[1].past.old_colour = OldColour{"neutral"};
  EXPECT_EQ(believed(both)[0].origin.found, believed(alone)[0].origin.found);
}

TEST(PlanBelief, the_past_opens_and_wears_in_the_order_the_trade_knows) {
  Case head = plain_head();
  head.zones = {zone("untouched", 0, 3, 2), zone("coloured", 3, 6, 2), zone("lightened", 6, 9, 6)};
  head.zones[1].past.permanent_colours = 2;
  head.zones[1].past.old_colour = OldColour{"neutral"};
  head.zones[2].past.lightened = 1;
  const auto beliefs = believed(head);
  const auto opened = [&](std::size_t i) { return quantile(beliefs[i].members.opened, 0.5); };
  const auto wear = [&](std::size_t i) { return quantile(beliefs[i].members.wear, 0.5); };
  EXPECT_LT(opened(0), opened(1));
  EXPECT_LT(opened(1), opened(2));
  EXPECT_LT(wear(0), wear(1));
  EXPECT_LT(wear(1), wear(2));
  EXPECT_PUBLISHED_RANGE("cysteic acid of hair lightened once, share of cystine",
                         {"tate_kamath_1993", "p. 358: bleached 200 to 400 of 1460 umol/g"}, 0.11,
                         0.27, wear(2));
}

TEST(PlanBelief, coloured_hair_holds_dye_and_lightened_hair_warmth) {
  Case head = plain_head();
  head.zones = {zone("roots", 0, 3, 4), zone("coloured", 3, 6, 1.5), zone("lightened", 6, 9, 7)};
  head.zones[1].past.old_colour = OldColour{"neutral"};
  head.zones[2].past.lightened = 1;
  const auto beliefs = believed(head);
  EXPECT_GT(quantile(beliefs[1].members.dyes.at(0).amount, 0.1), 0);
  EXPECT_NEAR(band_of(beliefs[1].level_now).mid, 1.5, 0.5);
  EXPECT_GT(quantile(beliefs[2].members.warm_percent, 0.5),
            quantile(beliefs[2].members.eumelanin_percent, 0.5));
  EXPECT_NEAR(band_of(beliefs[2].level_now).mid, 7, 0.4);
}

TEST(PlanBelief, the_same_seed_gives_the_same_members_at_any_thread_count) {
  const Case head = plain_head();
  const auto one = believed(head);
  const auto pool = make_thread_pool(3);
  const auto three = believe(head, *pool);
  ASSERT_TRUE(three);
  EXPECT_EQ(one[1].members.eumelanin_percent, (*three)[1].members.eumelanin_percent);
  Case other = head;
  other.seed = 2;
  EXPECT_NE(one[1].members.eumelanin_percent, believed(other)[1].members.eumelanin_percent);
}

TEST(PlanBelief, readings_that_no_hair_could_give_are_an_error_that_names_the_zone) {
  InlineExecutor executor;
  Case head = plain_head();
  head.zones[1].readings = {
      {Reader::instrument, hair::Moisture::dry, {}, colour::HairLab{40, -60, 40}}};
  const auto green = believe(head, executor);
  ASSERT_FALSE(green);
  EXPECT_NE(green.error().where.find("lengths"), std::string::npos);
  head.zones[1].readings.clear();
  EXPECT_FALSE(believe(head, executor));
}

}  // namespace
}  // namespace hw::plan
