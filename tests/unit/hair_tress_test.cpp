// What the tress law promises beside its published values: additivity, limits, errors, members.
#include <gtest/gtest.h>

#include <algorithm>

#include "huewright/base/random.h"
#include "huewright/hair/tress.h"

namespace hw::hair {
namespace {

constexpr Micrometres kUsual{70};

TEST(Absorption, adds_in_every_pigment) {
  const Strand eu{.eumelanin_percent = 1.2, .strand_um = kUsual};
  const Strand pheo{.pheomelanin_percent = 0.2, .strand_um = kUsual};
  const Strand warm{.warm_percent = 0.3, .strand_um = kUsual, .base = kLiftedBase};
  const Strand all{1.2, 0.2, 0.3, kUsual, kSurfaceTerm, kLiftedBase};
  const auto sum = absorption(all);
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    const double parts = absorption(eu)[i] + absorption(pheo)[i] + absorption(warm)[i];
    EXPECT_NEAR(sum[i], parts, 1e-12 * sum[i]);
  }
}

TEST(Absorption, warm_residue_is_read_with_the_pheomelanin_table) {
  const auto warm = absorption({.warm_percent = 0.3, .strand_um = kUsual});
  EXPECT_EQ(warm, absorption({.pheomelanin_percent = 0.3, .strand_um = kUsual}));
}

TEST(BaseAbsorption, is_flat_plus_a_blue_slope) {
  const auto base = base_absorption(kLiftedBase);
  const std::size_t at_450 = (450 - 380) / 5;
  EXPECT_NEAR(base[at_450], 10.0, 1e-12);                         // 3 + 7 at 450 nm
  EXPECT_NEAR(base[at_450 + 13], 3 + 7 * std::exp(-1.0), 1e-12);  // 65 nm on
  EXPECT_TRUE(std::is_sorted(base.rbegin(), base.rend()));
  EXPECT_EQ(base_absorption(kNaturalBase), colour::Spectrum{});
}

TEST(TressReflectance, spans_surface_term_to_one) {
  EXPECT_NEAR(tress_reflectance(colour::Spectrum{}, kUsual, kSurfaceTerm)[10], 1, 1e-15);
  colour::Spectrum black{};
  black.fill(1e6);
  EXPECT_NEAR(tress_reflectance(black, kUsual, kSurfaceTerm)[10], kSurfaceTerm, 1e-15);
}

TEST(TressReflectance, thicker_strands_of_the_same_pigment_are_darker) {
  double before = 100;
  for (const double um : {40.0, 60.0, 80.0, 100.0, 120.0}) {
    const double l = tress_lab({0.5, 0.03, 0, Micrometres{um}}).l;
    EXPECT_LT(l, before);
    before = l;
  }
}

TEST(TressReflectance, a_higher_surface_term_is_lighter_and_greyer) {
  const auto low = tress_lab({1.1, 0.06, 0, kUsual, kSurfaceTermLow});
  const auto high = tress_lab({1.1, 0.06, 0, kUsual, kSurfaceTermHigh});
  EXPECT_GT(high.l, low.l + 2);
  EXPECT_LT(std::hypot(high.a, high.b), std::hypot(low.a, low.b));
}

TEST(OldColour, has_unit_strength_and_leans_by_its_word) {
  for (const char* tone : {"neutral", "red", "copper", "ash"}) {
    const auto dye = old_colour_absorption(tone);
    double sum = 0;
    for (int nm = 450; nm <= 650; nm += 5) sum += dye[static_cast<std::size_t>((nm - 380) / 5)];
    EXPECT_NEAR(sum / 41, 1, 1e-12) << tone;
  }
  const auto over_lifted = [](const char* tone) {
    auto mu = base_absorption(kLiftedBase);
    const auto dye = old_colour_absorption(tone);
    for (std::size_t i = 0; i < colour::kBands; ++i) mu[i] += 40 * dye[i];
    return colour::lab_of(tress_reflectance(mu, kUsual, kSurfaceTerm));
  };
  const auto red = over_lifted("red");
  const auto copper = over_lifted("copper");
  const auto ash = over_lifted("ash");
  const auto neutral = over_lifted("neutral");
  EXPECT_GT(red.a, neutral.a + 3);
  EXPECT_GT(copper.a, neutral.a + 3);
  EXPECT_GT(copper.b / copper.a, red.b / red.a) << "copper is the yellower red";
  EXPECT_LT(ash.b, neutral.b - 1);
}

TEST(DyeBand, halves_at_half_its_width) {
  // 500 nm is 20 000 per cm; half of a width of 5 000 away is 17 500 per cm, 571.43 nm.
  const auto dye = dye_absorption({{500, 5000, 8}});
  EXPECT_NEAR(dye[(500 - 380) / 5], 8, 1e-12);
  EXPECT_GT(dye[(570 - 380) / 5], 4);
  EXPECT_LT(dye[(575 - 380) / 5], 4);
}

TEST(AbsorptionFrom, refuses_what_the_law_cannot_show) {
  colour::Spectrum r{};
  r.fill(0.2);
  EXPECT_TRUE(absorption_from(r, kUsual, kSurfaceTerm).has_value());
  r[7] = kSurfaceTerm;
  const auto floor = absorption_from(r, kUsual, kSurfaceTerm);
  ASSERT_FALSE(floor.has_value());
  EXPECT_NE(one_line(floor.error()).find("415 nm"), std::string::npos) << one_line(floor.error());
  r[7] = 1.01;
  EXPECT_FALSE(absorption_from(r, kUsual, kSurfaceTerm).has_value());
  r[7] = std::nan("");
  EXPECT_FALSE(absorption_from(r, kUsual, kSurfaceTerm).has_value());
}

TEST(MelaninForLstar, turns_the_law_round) {
  for (const double lstar : {18.5, 22.0, 30.0, 45.0, 60.0, 80.0}) {
    const auto melanin = melanin_for_lstar(lstar, 0.05, kUsual, kSurfaceTerm);
    ASSERT_TRUE(melanin.has_value()) << lstar;
    EXPECT_NEAR(tress_lab({*melanin * 0.95, *melanin * 0.05, 0, kUsual}).l, lstar, 1e-9);
  }
  EXPECT_FALSE(melanin_for_lstar(17, 0.05, kUsual, kSurfaceTerm).has_value());
  EXPECT_FALSE(melanin_for_lstar(100.5, 0.05, kUsual, kSurfaceTerm).has_value());
  EXPECT_FALSE(melanin_for_lstar(std::nan(""), 0.05, kUsual, kSurfaceTerm).has_value());
}

TEST(TressMembers, agree_with_the_strand_by_strand_law) {
  constexpr std::size_t kMembers = 131;  // two blocks and a rest
  const Draws random(5);
  TressMembers members;
  members.resize(kMembers);
  for (std::size_t m = 0; m < kMembers; ++m) {
    members.eumelanin_percent[m] = 3 * random.uniform(1, m);
    members.pheo_like_percent[m] = 0.5 * random.uniform(2, m);
    members.base_share[m] = random.uniform(3, m);
    members.radius_cm[m] = (25 + 35 * random.uniform(4, m)) * 1e-4;
    members.surface_term[m] = 0.0175 + 0.0135 * random.uniform(5, m);
  }
  std::vector<colour::HairLab> labs(kMembers);
  tress_labs(members, labs);
  for (std::size_t m = 0; m < kMembers; ++m) {
    Base base = kLiftedBase;
    base.flat_per_cm *= members.base_share[m];
    base.blue_per_cm *= members.base_share[m];
    const auto one =
        tress_lab({members.eumelanin_percent[m], 0, members.pheo_like_percent[m],
                   Micrometres{members.radius_cm[m] * 2e4}, members.surface_term[m], base});
    EXPECT_NEAR(labs[m].l, one.l, 1e-9);
    EXPECT_NEAR(labs[m].a, one.a, 1e-9);
    EXPECT_NEAR(labs[m].b, one.b, 1e-9);
  }
}

TEST(TressMembers, white_strands_mix_by_reflectance) {
  TressMembers members;
  members.resize(1);
  members.eumelanin_percent[0] = 1.5;
  members.radius_cm[0] = 35e-4;
  members.white_share = 0.3;
  std::vector<colour::HairLab> lab(1);
  tress_labs(members, lab);
  const auto dark = tress_reflectance(absorption({.eumelanin_percent = 1.5}), kUsual, kSurfaceTerm);
  const auto white = tress_reflectance(base_absorption(kWhiteBase), kUsual, kSurfaceTerm);
  colour::Spectrum mixed{};
  for (std::size_t i = 0; i < colour::kBands; ++i) mixed[i] = 0.7 * dark[i] + 0.3 * white[i];
  const auto expected = colour::lab_of(mixed);
  EXPECT_NEAR(lab[0].l, expected.l, 1e-9);
  EXPECT_NEAR(lab[0].b, expected.b, 1e-9);
}

TEST(TressMembers, a_dye_darkens_dark_and_white_strands) {
  const auto dye = old_colour_absorption("neutral");
  TressMembers members;
  members.resize(1);
  members.eumelanin_percent[0] = 0.4;
  members.radius_cm[0] = 35e-4;
  members.white_share = 0.5;
  members.dyes = {{dye, {0}}};
  double before = 100;
  for (const double amount : {0.0, 5.0, 20.0, 80.0}) {
    members.dyes[0].amount = {amount};
    std::vector<colour::HairLab> lab(1);
    tress_labs(members, lab);
    EXPECT_LT(lab[0].l, before);
    before = lab[0].l;
  }
}

TEST(TressLightness, of_few_bands_is_that_of_all) {
  constexpr std::size_t kMembers = 150;
  const Draws random(6);
  double worst = 0;
  for (const double white_share : {0.0, 0.4}) {
    TressMembers members;
    members.resize(kMembers);
    members.white_share = white_share;
    members.dyes = {{old_colour_absorption("red"), std::vector<double>(kMembers)},
                    {dye_absorption({{470, 2500, 1}}), std::vector<double>(kMembers)}};
    for (std::size_t m = 0; m < kMembers; ++m) {
      members.eumelanin_percent[m] = 2 * random.uniform(1, m);
      members.pheo_like_percent[m] = 0.5 * random.uniform(2, m);
      members.base_share[m] = random.uniform(3, m);
      members.radius_cm[m] = (25 + 35 * random.uniform(4, m)) * 1e-4;
      members.dyes[0].amount[m] = 60 * random.uniform(5, m);
      members.dyes[1].amount[m] = 150 * random.uniform(6, m);
    }
    std::vector<colour::HairLab> labs(kMembers);
    std::vector<double> lstar(kMembers);
    tress_labs(members, labs);
    tress_lightness(members, lstar);
    for (std::size_t m = 0; m < kMembers; ++m) {
      worst = std::max(worst, std::abs(lstar[m] - labs[m].l));
    }
  }
  EXPECT_LE(worst, 0.01);  // L*, tress.h
  EXPECT_GT(worst, 1e-9) << "it is the cheaper sum that is looked at";
}

TEST(MoistureShift, wet_hair_looks_darker_and_wiped_less_so) {
  EXPECT_EQ(moisture_shift(Moisture::dry).lstar, 0);
  EXPECT_EQ(moisture_shift(Moisture::dry).sd, 0);
  const auto wet = moisture_shift(Moisture::wet);
  const auto wiped = moisture_shift(Moisture::wiped);
  EXPECT_LT(wet.lstar, wiped.lstar);
  EXPECT_LT(wiped.lstar, 0);
  EXPECT_GT(wet.sd, wiped.sd);
  EXPECT_LE(std::abs(wiped.lstar), std::abs(wet.lstar) + wet.sd);
}

TEST(TressSpectrum, is_what_the_colour_is_computed_from) {
  TressMembers members;
  members.resize(3);
  members.eumelanin_percent = {1.1, 0.1, 0.02};
  members.pheo_like_percent = {0.06, 0.15, 0.01};
  members.base_share = {0, 0.7, 0.2};
  members.radius_cm = {35e-4, 40e-4, 30e-4};
  DyeLayer dye;
  for (std::size_t i = 0; i < colour::kBands; ++i) dye.absorption[i] = i < 30 ? 40 : 2;
  dye.amount = {0, 1, 0.3};
  members.dyes = {dye};
  for (const double white : {0.0, 0.4}) {
    members.white_share = white;
    std::vector<colour::HairLab> labs(3);
    tress_labs(members, labs);
    for (std::size_t m = 0; m < 3; ++m) {
      const colour::HairLab lab = colour::lab_of(tress_spectrum(members, m));
      EXPECT_NEAR(lab.l, labs[m].l, 1e-9) << white << m;
      EXPECT_NEAR(lab.a, labs[m].a, 1e-9) << white << m;
      EXPECT_NEAR(lab.b, labs[m].b, 1e-9) << white << m;
    }
  }
}

}  // namespace
}  // namespace hw::hair
