// Laws that hold for every colour, tried on many drawn ones (seeded: the same on every run).
#include "huewright/base/random.h"
#include "huewright/colour/difference.h"
#include "huewright/colour/screen.h"

namespace hw::colour {
namespace {

constexpr std::uint64_t kTries = 2000;

double between(const Draws& draws, std::uint64_t stream, std::uint64_t i, double low, double high) {
  return low + (high - low) * draws.uniform(stream, i);
}

HairLab draw_lab(const Draws& draws, std::uint64_t i, std::uint64_t stream = 0) {
  return {between(draws, stream, i, 0, 100), between(draws, stream + 1, i, -120, 120),
          between(draws, stream + 2, i, -120, 120)};
}

template <class White, class Obs>
void expect_lab_round_trip() {
  const Draws draws(11);
  for (std::uint64_t i = 0; i < kTries; ++i) {
    const HairLab drawn = draw_lab(draws, i);
    const Lab<White, Obs> lab{drawn.l, drawn.a, drawn.b};
    const auto back = xyz_to_lab(lab_to_xyz(lab));
    EXPECT_NEAR(back.l, lab.l, 1e-10);
    EXPECT_NEAR(back.a, lab.a, 1e-10);
    EXPECT_NEAR(back.b, lab.b, 1e-10);
    const auto polar = lch_to_lab(lab_to_lch(lab));
    EXPECT_NEAR(polar.a, lab.a, 1e-12);
    EXPECT_NEAR(polar.b, lab.b, 1e-12);
  }
}

TEST(ColourProperty, lab_and_xyz_undo_each_other) {
  expect_lab_round_trip<D65, Deg10>();
  expect_lab_round_trip<A, Deg2>();
  expect_lab_round_trip<Fl11, Deg10>();
  expect_lab_round_trip<ScreenD65, Deg2>();
}

template <class Space>
void expect_rgb_round_trip() {
  const Draws draws(12);
  for (std::uint64_t i = 0; i < kTries; ++i) {
    const LinearRgb<Space> rgb{between(draws, 0, i, -0.5, 1.5), between(draws, 1, i, -0.5, 1.5),
                               between(draws, 2, i, 0, 0.005)};
    // At the knee the standard's rounded constants leave a step of 1e-8 in light.
    const auto back = decode(encode(rgb));
    EXPECT_NEAR(back.r, rgb.r, 1e-12);
    EXPECT_NEAR(back.g, rgb.g, 1e-12);
    EXPECT_NEAR(back.b, rgb.b, 3e-8);
    const auto around = xyz_to_rgb<Space>(rgb_to_xyz(rgb));
    EXPECT_NEAR(around.r, rgb.r, 1e-13);
    EXPECT_NEAR(around.g, rgb.g, 1e-13);
    EXPECT_NEAR(around.b, rgb.b, 1e-13);
  }
}

TEST(ColourProperty, rgb_encoding_and_matrices_undo_each_other) {
  expect_rgb_round_trip<Srgb>();
  expect_rgb_round_trip<DisplayP3>();
}

TEST(ColourProperty, oklab_undoes_itself) {
  const Draws draws(13);
  for (std::uint64_t i = 0; i < kTries; ++i) {
    // Colours a screen can show: where a cone response is 0 the cube root has no slope.
    const OkLab lab = xyz_to_oklab(rgb_to_xyz(
        LinearRgb<DisplayP3>{between(draws, 0, i, 0.001, 1), between(draws, 1, i, 0.001, 1),
                             between(draws, 2, i, 0.001, 1)}));
    EXPECT_LT(delta_e_ok(xyz_to_oklab(oklab_to_xyz(lab)), lab), 1e-12);
    EXPECT_LT(delta_e_ok(oklch_to_oklab(oklab_to_oklch(lab)), lab), 1e-14);
  }
}

TEST(ColourProperty, differences_are_zero_to_self_positive_and_symmetric_where_they_should_be) {
  const Draws draws(14);
  for (std::uint64_t i = 0; i < kTries; ++i) {
    const HairLab one = draw_lab(draws, i, 0);
    const HairLab two = draw_lab(draws, i, 3);
    EXPECT_NEAR(delta_e_2000(one, two), delta_e_2000(two, one), 1e-10);
    EXPECT_EQ(delta_e_76(one, two), delta_e_76(two, one));
    EXPECT_GT(delta_e_2000(one, two), 0);
    EXPECT_EQ(delta_e_2000(one, one), 0);
    EXPECT_EQ(delta_e_76(one, one), 0);
    EXPECT_EQ(delta_e_94(one, one), 0);
    EXPECT_EQ(delta_e_cmc(one, one), 0);
  }
  // CIE94 and CMC weigh by the reference alone, so the order matters.
  const HairLab vivid{50, 40, 40};
  const HairLab grey{50, 0, 0};
  EXPECT_GT(delta_e_94(grey, vivid), delta_e_94(vivid, grey) * 1.5);
  EXPECT_GT(delta_e_cmc(grey, vivid), delta_e_cmc(vivid, grey) * 1.5);
}

TEST(ColourProperty, a_perfect_diffuser_is_white_and_lab_rises_with_reflectance) {
  for (const auto name : illuminant_names()) {
    for (const auto eye : {Observer::deg2, Observer::deg10}) {
      const Viewing& seen = viewing(*illuminant_named(name), eye);
      Spectrum level{};
      double before = -1;
      for (int step = 0; step <= 20; ++step) {
        level.fill(step / 20.0);
        const ViewedLab lab = lab_under(level, seen);
        EXPECT_GT(lab.l, before) << name;
        EXPECT_NEAR(lab.a, 0, 1e-11) << name;
        EXPECT_NEAR(lab.b, 0, 1e-11) << name;
        before = lab.l;
      }
      EXPECT_NEAR(before, 100, 1e-12) << name;
    }
  }
}

TEST(ColourProperty, tristimulus_values_add) {
  const Draws draws(15);
  for (std::uint64_t i = 0; i < 200; ++i) {
    Spectrum one{};
    Spectrum two{};
    Spectrum mean{};
    for (std::size_t band = 0; band < kBands; ++band) {
      one[band] = draws.uniform(2 * i, band);
      two[band] = draws.uniform(2 * i + 1, band);
      mean[band] = (one[band] + two[band]) / 2;
    }
    const auto a = xyz_under<D65, Deg10>(one);
    const auto b = xyz_under<D65, Deg10>(two);
    const auto m = xyz_under<D65, Deg10>(mean);
    EXPECT_NEAR(m.x, (a.x + b.x) / 2, 1e-12);
    EXPECT_NEAR(m.y, (a.y + b.y) / 2, 1e-12);
    EXPECT_NEAR(m.z, (a.z + b.z) / 2, 1e-12);
  }
}

TEST(ColourProperty, adaptation_there_and_back_is_nothing) {
  const Draws draws(16);
  for (std::uint64_t i = 0; i < kTries; ++i) {
    const HairXyz xyz = lab_to_xyz(draw_lab(draws, i));
    for (const auto by : {Adaptation::bradford, Adaptation::von_kries, Adaptation::xyz_scaling,
                          Adaptation::cat02}) {
      const HairXyz back = adapt<D65>(adapt<A>(xyz, by), by);
      EXPECT_NEAR(back.x, xyz.x, 1e-9);
      EXPECT_NEAR(back.y, xyz.y, 1e-9);
      EXPECT_NEAR(back.z, xyz.z, 1e-9);
    }
  }
}

TEST(ColourProperty, gamut_mapping_stays_inside_and_leaves_inside_colours_alone) {
  const Draws draws(17);
  int outside = 0;
  for (std::uint64_t i = 0; i < kTries; ++i) {
    const HairLab lab = draw_lab(draws, i);
    for (const auto space : {ScreenSpace::srgb, ScreenSpace::display_p3}) {
      const ScreenColour out = to_screen(lab, space);
      for (const double v : {out.r, out.g, out.b}) {
        EXPECT_GE(v, 0);
        EXPECT_LE(v, 1);
      }
      if (!out.in_gamut) ++outside;
    }
    const EncodedRgb<Srgb> rgb{draws.uniform(20, i), draws.uniform(21, i), draws.uniform(22, i)};
    const ScreenColour same = map_to_gamut(rgb_to_xyz(decode(rgb)), ScreenSpace::srgb);
    EXPECT_TRUE(same.in_gamut);
    // The standard's knee leaves a step of 1e-8 in light, 4e-7 encoded.
    EXPECT_NEAR(same.r, rgb.r, 5e-7);
    EXPECT_NEAR(same.g, rgb.g, 5e-7);
    EXPECT_NEAR(same.b, rgb.b, 5e-7);
  }
  EXPECT_GT(outside, 100);
}

}  // namespace
}  // namespace hw::colour
