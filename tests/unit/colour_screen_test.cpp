#include "huewright/colour/screen.h"

namespace hw::colour {
namespace {

TEST(ColourScreen, white_is_white_black_is_black_and_greys_are_grey) {
  for (const auto space : {ScreenSpace::srgb, ScreenSpace::display_p3}) {
    const ScreenColour white = to_screen({100, 0, 0}, space);
    EXPECT_NEAR(white.r, 1, 1e-12);
    EXPECT_NEAR(white.g, 1, 1e-12);
    EXPECT_NEAR(white.b, 1, 1e-12);
    EXPECT_TRUE(white.in_gamut);
    const ScreenColour black = to_screen({0, 0, 0}, space);
    EXPECT_NEAR(black.r, 0, 1e-12);
    EXPECT_TRUE(black.in_gamut);
    for (double l = 0; l <= 100; l += 0.5) {
      const ScreenColour grey = to_screen({l, 0, 0}, space);
      EXPECT_NEAR(grey.r, grey.g, 1e-12);
      EXPECT_NEAR(grey.g, grey.b, 1e-12);
      EXPECT_TRUE(grey.in_gamut) << l;
    }
  }
}

// L 50 is Y = 0.184187 (CIELAB), encoded by the sRGB curve: worked by hand.
TEST(ColourScreen, worked_number_of_the_header) {
  const ScreenColour grey = to_screen({50, 0, 0}, ScreenSpace::srgb);
  EXPECT_NEAR(grey.r, 1.055 * std::pow(0.18418651851244416, 1 / 2.4) - 0.055, 1e-12);
  EXPECT_NEAR(grey.r, 0.46633, 5e-6);
}

TEST(ColourScreen, primaries_of_the_screen_are_inside_and_strong_colours_are_not) {
  const auto red = xyz_to_lab(rgb_to_xyz(LinearRgb<Srgb>{1, 0, 0}));
  const ScreenColour shown = to_screen({red.l, red.a, red.b}, ScreenSpace::srgb);
  EXPECT_TRUE(shown.in_gamut);
  EXPECT_NEAR(shown.r, 1, 1e-7);
  EXPECT_NEAR(shown.g, 0, 1e-7);
  // The same red is well inside Display P3, and P3 red is outside sRGB.
  EXPECT_TRUE(to_screen({red.l, red.a, red.b}, ScreenSpace::display_p3).in_gamut);
  const auto p3_red = xyz_to_lab(rgb_to_xyz(LinearRgb<DisplayP3>{1, 0, 0}));
  EXPECT_FALSE(to_screen({p3_red.l, p3_red.a, p3_red.b}, ScreenSpace::srgb).in_gamut);
}

TEST(ColourScreen, beyond_white_and_black_the_map_gives_white_and_black) {
  const ScreenColour white = to_screen({120, 0, 0}, ScreenSpace::srgb);
  EXPECT_FALSE(white.in_gamut);
  EXPECT_NEAR(white.r, 1, 1e-12);
  EXPECT_NEAR(white.b, 1, 1e-12);
  const ScreenColour black = to_screen({-5, 0, 0}, ScreenSpace::srgb);
  EXPECT_FALSE(black.in_gamut);
  EXPECT_EQ(black.g, 0);
}

TEST(ColourScreen, mapping_keeps_lightness_and_hue_within_the_local_clip) {
  for (double hue = 0; hue < 360; hue += 15) {
    for (const double l : {0.3, 0.5, 0.7, 0.9}) {
      const OkLch wanted{l, 0.37, hue};
      const ScreenColour out =
          map_to_gamut(oklab_to_xyz(oklch_to_oklab(wanted)), ScreenSpace::srgb);
      EXPECT_FALSE(out.in_gamut);
      const OkLch got =
          oklab_to_oklch(xyz_to_oklab(rgb_to_xyz(decode(EncodedRgb<Srgb>{out.r, out.g, out.b}))));
      // Chroma was reduced until clipping moved the colour by less than 0.02.
      EXPECT_LT(got.c, wanted.c);
      EXPECT_NEAR(got.l, wanted.l, 0.0201) << hue;
      const OkLab on_line = oklch_to_oklab({wanted.l, got.c, wanted.h});
      EXPECT_LT(delta_e_ok(on_line, oklch_to_oklab(got)), 0.0202) << hue << ' ' << l;
    }
  }
}

TEST(ColourScreen, names_of_spaces) {
  EXPECT_EQ(screen_space_named("srgb").value(), ScreenSpace::srgb);
  EXPECT_EQ(screen_space_named("display-p3").value(), ScreenSpace::display_p3);
  const auto bad = screen_space_named("cmyk");
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error().code, ErrorCode::unknown_name);
  EXPECT_EQ(bad.error().where, "space");
}

TEST(ColourScreen, terminal_channels_are_whole_and_rounded) {
  const auto bytes = eight_bit({0, 0.5, 1, true});
  EXPECT_EQ(bytes[0], 0);
  EXPECT_EQ(bytes[1], 128);
  EXPECT_EQ(bytes[2], 255);
  EXPECT_EQ(eight_bit({0.4999 / 255, 254.51 / 255, 2, true}),
            (std::array<std::uint8_t, 3>{0, 255, 255}));
}

TEST(ColourRgb, encoding_is_odd_and_meets_itself_at_the_knee) {
  const Transfer t;
  EXPECT_EQ(encode(-0.2, t), -encode(0.2, t));
  EXPECT_EQ(decode(-0.2, t), -decode(0.2, t));
  EXPECT_NEAR(encode(0.5, t), 0.735357, 5e-7);  // header's worked number
  EXPECT_NEAR(encode(0.0031308, t), encode(0.00313081, t), 2e-7);
}

TEST(ColourRgb, primaries_in_one_line_make_no_space) {
  const auto flat = make_rgb_space("flat", {0.2, 0.2, 0.3, 0.3, 0.4, 0.4}, ScreenD65::kWhite, {});
  EXPECT_FALSE(flat);
}

}  // namespace
}  // namespace hw::colour
