#include <limits>

#include "huewright/process/bowl.h"
#include "huewright/process/peroxide.h"

namespace hw::process {
namespace {

Part part(PartKind kind, double grams) {
  return Part{.kind = kind, .grams = Grams(grams)};
}

Part developer(double grams, double percent) {
  return Part{.kind = PartKind::developer, .grams = Grams(grams), .peroxide = Percent(percent)};
}

Error error_of(const Bowl& bowl, const std::string& where = "bowl") {
  const auto mix = mix_bowl(bowl, where);
  EXPECT_FALSE(mix.has_value());
  return mix ? Error{} : mix.error();
}

TEST(ProcessBowl, soap_cap_comes_out_in_clean_numbers) {
  const auto mix = mix_bowl({{part(PartKind::lightener, 30), developer(60, 6),
                              part(PartKind::shampoo, 30), part(PartKind::water, 30)}});
  ASSERT_TRUE(mix.has_value());
  EXPECT_EQ(mix->grams, Grams(150));
  EXPECT_EQ(mix->peroxide, Percent(2.4));
  EXPECT_EQ(mix->volume, 8.0);
  EXPECT_EQ(mix->powder, Percent(20));
  EXPECT_EQ(mix->shampoo, Grams(30));
  EXPECT_EQ(mix->developer_peroxide_mean, Percent(6));
  EXPECT_EQ(mix->strongest_bottle, Percent(6));
  EXPECT_TRUE(mix->has_persulfate);
  EXPECT_TRUE(mix->has_off_scalp_lightener);
  EXPECT_FALSE(mix->has_oxidative_colour);
}

TEST(ProcessBowl, fractions_of_a_gram_leave_no_noise) {
  // 33.3 · 18 % with 16.65 of powder is 12 % on paper; plain doubles miss it by a last bit.
  for (const double grams : {0.1, 0.3, 7.7, 16.65, 33.35, 123.45}) {
    const auto mix = mix_bowl({{part(PartKind::lightener, grams), developer(2 * grams, 18)}});
    ASSERT_TRUE(mix.has_value());
    EXPECT_EQ(mix->peroxide, Percent(12)) << grams;
    EXPECT_EQ(mix->volume, 40.0) << grams;
  }
}

TEST(ProcessBowl, order_of_parts_does_not_matter) {
  const auto one =
      mix_bowl({{developer(41.3, 9), part(PartKind::lightener, 20.2), developer(17.9, 3)}});
  const auto other =
      mix_bowl({{developer(17.9, 3), developer(41.3, 9), part(PartKind::lightener, 20.2)}});
  ASSERT_TRUE(one && other);
  EXPECT_EQ(one->peroxide, other->peroxide);
  EXPECT_EQ(one->developer_peroxide_mean, other->developer_peroxide_mean);
}

TEST(ProcessBowl, mean_of_developers_is_by_mass_and_counts_what_brings_peroxide) {
  Part colour = part(PartKind::colour, 10);
  colour.peroxide = Percent(12);
  const auto mix = mix_bowl(
      {{part(PartKind::lightener, 30), developer(20, 3), colour, part(PartKind::water, 100)}});
  ASSERT_TRUE(mix.has_value());
  EXPECT_EQ(mix->developer, Grams(30));
  EXPECT_EQ(mix->developer_peroxide_mean, Percent(6));  // (20·3 + 10·12) / 30
  EXPECT_TRUE(mix->has_oxidative_colour);
}

TEST(ProcessBowl, without_developer_there_is_no_mean) {
  const auto mix = mix_bowl({{part(PartKind::conditioner, 30), part(PartKind::colour, 30)}});
  ASSERT_TRUE(mix.has_value());
  EXPECT_EQ(mix->peroxide, Percent(0));
  EXPECT_FALSE(mix->developer_peroxide_mean.has_value());
  EXPECT_FALSE(mix->strongest_bottle.has_value());
  EXPECT_FALSE(mix->has_persulfate);
  EXPECT_FALSE(mix->has_oxidative_colour);
}

TEST(ProcessBowl, one_off_scalp_lightener_keeps_the_whole_bowl_off) {
  Part gentle = part(PartKind::lightener, 10);
  gentle.for_scalp = true;
  EXPECT_FALSE(mix_bowl({{gentle}})->has_off_scalp_lightener);
  EXPECT_TRUE(mix_bowl({{gentle, part(PartKind::lightener, 1)}})->has_off_scalp_lightener);
}

TEST(ProcessBowl, names_the_part_and_the_way_out) {
  EXPECT_EQ(error_of({}).where, "bowl.parts");
  EXPECT_EQ(error_of({}).code, ErrorCode::missing);
  const Error missing = error_of({{part(PartKind::lightener, 3), part(PartKind::developer, 60)}});
  EXPECT_EQ(missing.where, "bowl.parts[1].peroxide_percent");
  EXPECT_EQ(missing.code, ErrorCode::missing);
  EXPECT_FALSE(missing.hint.empty());
  EXPECT_EQ(error_of({{part(PartKind::developer, 60)}}, "").where, "parts[0].peroxide_percent");
}

TEST(ProcessBowl, refuses_grams_that_are_no_weight) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double inf = std::numeric_limits<double>::infinity();
  for (const double grams : {0.0, -1.0, nan, inf, 1.01 * kMaxPartGrams}) {
    const Error error = error_of({{part(PartKind::water, grams)}});
    EXPECT_EQ(error.code, ErrorCode::out_of_range) << grams;
    EXPECT_EQ(error.where, "bowl.parts[0].grams");
  }
  EXPECT_TRUE(mix_bowl({{part(PartKind::water, kMaxPartGrams)}}).has_value());
}

TEST(ProcessBowl, refuses_strengths_that_cannot_be) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double percent : {-0.1, 100.1, nan}) {
    const Error error = error_of({{developer(60, percent)}});
    EXPECT_EQ(error.code, ErrorCode::out_of_range) << percent;
    EXPECT_EQ(error.where, "bowl.parts[0].peroxide_percent");
  }
  EXPECT_TRUE(mix_bowl({{developer(60, 0)}}).has_value());
  EXPECT_TRUE(mix_bowl({{developer(60, 100)}}).has_value());
}

TEST(ProcessBowl, refuses_fields_on_the_wrong_part) {
  Part shampoo = part(PartKind::shampoo, 30);
  shampoo.peroxide = Percent(6);
  EXPECT_EQ(error_of({{shampoo}}).code, ErrorCode::conflict);
  shampoo.peroxide = Percent(0);
  EXPECT_TRUE(mix_bowl({{shampoo}}).has_value());
  Part scalp_developer = developer(30, 6);
  scalp_developer.for_scalp = true;
  EXPECT_EQ(error_of({{scalp_developer}}).where, "bowl.parts[0].for_scalp");
  Part sour = part(PartKind::lightener, 30);
  sour.ph = 14.1;
  EXPECT_EQ(error_of({{sour}}).where, "bowl.parts[0].ph");
  sour.ph = 9.5;
  EXPECT_TRUE(mix_bowl({{sour}}).has_value());
}

TEST(ProcessBowl, kinds_and_words_agree) {
  for (const char* word :
       {"lightener", "developer", "shampoo", "conditioner", "water", "colour", "treatment",
        "remover", "chelator"}) {
    const auto kind = part_kind_of(word);
    ASSERT_TRUE(kind.has_value()) << word;
    EXPECT_EQ(name_of(*kind), word);
  }
  EXPECT_FALSE(part_kind_of("Lightener").has_value());
  EXPECT_FALSE(part_kind_of("").has_value());
}

TEST(ProcessPeroxide, nominal_volume_and_per_cent_invert_each_other) {
  for (double percent = 0; percent <= 18; percent += 0.5) {
    EXPECT_NEAR(percent_of_nominal_volume(nominal_volume(Percent(percent))).value(), percent,
                1e-12);
    EXPECT_NEAR(volumes_of_weight_per_volume(weight_per_volume_of_volumes(percent)), percent,
                1e-12);
  }
  EXPECT_EQ(nominal_volume(Percent(6)), 20.0);
}

TEST(ProcessPeroxide, alligation_balances_for_any_strengths) {
  const std::vector<double> strengths{3, 6, 9, 12, 18};
  for (double target = 3.5; target < 18; target += 0.5) {
    const auto parts = alligation_parts(strengths, target);
    ASSERT_TRUE(parts.has_value());
    double sum = 0;
    double weighted = 0;
    for (std::size_t i = 0; i < strengths.size(); ++i) {
      EXPECT_GE((*parts)[i], 0);
      sum += (*parts)[i];
      weighted += (*parts)[i] * strengths[i];
    }
    EXPECT_NEAR(weighted / sum, target, 1e-12);
  }
}

TEST(ProcessPeroxide, alligation_knows_its_limits) {
  EXPECT_EQ(*alligation_parts({6, 9}, 6), (std::vector<double>{1, 0}));
  EXPECT_EQ(*alligation_parts({6}, 6), (std::vector<double>{1}));
  EXPECT_EQ(alligation_parts({6, 9}, 10).error().code, ErrorCode::unreachable);
  EXPECT_EQ(alligation_parts({6, 9}, std::nan("")).error().code, ErrorCode::unreachable);
  EXPECT_EQ(alligation_parts({}, 6).error().code, ErrorCode::missing);
  EXPECT_EQ(alligation_parts({6, -1}, 6).error().code, ErrorCode::out_of_range);
}

TEST(ProcessPeroxide, held_water_thins_little_mix_more) {
  EXPECT_DOUBLE_EQ(*share_after_held_water(1.2, 0.3), 0.8);
  EXPECT_EQ(*share_after_held_water(3, 0), 1.0);
  EXPECT_LT(*share_after_held_water(1, 0.3), *share_after_held_water(3, 0.3));
  EXPECT_EQ(share_after_held_water(0, 0.3).error().where, "grams_per_gram_hair");
  EXPECT_EQ(share_after_held_water(1, -0.1).error().where, "water_held_g_per_g");
}

TEST(ProcessPeroxide, reach_never_passes_one) {
  EXPECT_EQ(cystine_share_within_reach(100), 1.0);
  EXPECT_EQ(cystine_share_within_reach(0), 0.0);
}

}  // namespace
}  // namespace hw::process
