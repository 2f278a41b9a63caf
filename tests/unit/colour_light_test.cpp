#include <algorithm>
#include <limits>
#include <set>
#include <thread>

#include "huewright/colour/adaptation.h"
#include "huewright/colour/difference.h"
#include "huewright/colour/few_bands.h"

namespace hw::colour {
namespace {

TEST(ColourLight, every_listed_name_is_found_and_named_back) {
  std::set<std::string_view> seen;
  for (const auto name : illuminant_names()) {
    const auto light = illuminant_named(name);
    ASSERT_TRUE(light) << name;
    EXPECT_EQ(name_of(*light), name);
    EXPECT_TRUE(illuminant(name));
    seen.insert(name);
  }
  for (const auto* wanted : {"A", "D50", "D55", "D65", "D75", "FL2", "FL11", "LED-B1", "LED-B2",
                             "LED-B3", "LED-B4", "LED-B5", "LED-V1", "LED-V2"}) {
    EXPECT_TRUE(seen.contains(wanted)) << wanted;
  }
}

TEST(FewBands, keep_the_white_and_the_colour_of_a_smooth_surface) {
  for (const FewBands* bands : {&daylight_10nm(), &daylight_20nm()}) {
    const auto sum = [&](const std::vector<double>& weight, auto reflectance) {
      double all = 0;
      for (std::size_t i = 0; i < weight.size(); ++i)
        all += weight[i] * reflectance(bands->band(i));
      return all;
    };
    const Viewing& all = daylight_10deg();
    const auto one = [](std::size_t) { return 1.0; };
    EXPECT_NEAR(sum(bands->x, one), all.white.x, 1e-9);
    EXPECT_NEAR(sum(bands->z, one), all.white.z, 1e-9);
    for (const double weight : bands->y) EXPECT_GE(weight, 0);
    // A band of absorption as wide as a hair dye's.
    const auto dyed = [](std::size_t band) {
      const double off = (static_cast<double>(band) - 20) / 10;
      return std::exp(-2 * std::exp(-off * off));
    };
    double y = 0;
    for (std::size_t band = 0; band < kBands; ++band) y += all.y[band] * dyed(band);
    EXPECT_NEAR(sum(bands->y, dyed), y, bands->stride == 2 ? 0.01 : 0.05);
  }
}

TEST(ColourLight, an_unknown_name_is_refused_with_the_list) {
  const auto light = illuminant("F99");
  ASSERT_FALSE(light);
  EXPECT_EQ(light.error().code, ErrorCode::unknown_name);
  EXPECT_NE(light.error().hint.find("LED-B3"), std::string::npos);
}

TEST(ColourLight, daylight_has_a_range) {
  EXPECT_FALSE(daylight(3999));
  EXPECT_FALSE(daylight(25001));
  EXPECT_FALSE(daylight(std::numeric_limits<double>::quiet_NaN()));
  EXPECT_TRUE(daylight(4000));
  EXPECT_TRUE(daylight(25000));
  EXPECT_EQ(*daylight(6500 * 1.4388 / 1.4380), illuminant(Illuminant::d65));
}

TEST(ColourLight, bluer_daylight_has_more_power_at_the_short_end) {
  double before = 0;
  for (const double kelvin : {4000.0, 5003.0, 6504.0, 7504.0, 12000.0, 25000.0}) {
    const auto light = daylight(kelvin);
    ASSERT_TRUE(light);
    EXPECT_NEAR((*light)[36], 100, 1e-12);  // 560 nm
    EXPECT_GT(light->front(), before);
    before = light->front();
  }
}

TEST(ColourLight, a_light_without_power_or_with_negative_power_is_refused) {
  Spectrum dark{};
  EXPECT_EQ(viewing(dark, Observer::deg10).error().code, ErrorCode::out_of_range);
  Spectrum broken = illuminant(Illuminant::a);
  broken[10] = std::numeric_limits<double>::quiet_NaN();
  ASSERT_FALSE(viewing(broken, Observer::deg2));
  EXPECT_NE(viewing(broken, Observer::deg10).error().message.find("430"), std::string::npos);
  Spectrum beyond{};
  beyond.fill(std::numeric_limits<double>::max());
  EXPECT_FALSE(viewing(beyond, Observer::deg2));
}

TEST(ColourLight, samples_of_a_lamp_are_powers) {
  const auto negative = light_from_samples(400, 10, std::vector<double>{1, 2, -0.5, 1});
  ASSERT_FALSE(negative);
  EXPECT_EQ(negative.error().where, "values[2]");
  EXPECT_FALSE(light_from_samples(400, 10, std::vector<double>{1}));
  // A single line between dark samples undershoots beside it; the lamp is still a lamp.
  const auto line = light_from_samples(400, 10, std::vector<double>{0, 0, 1, 0, 0, 0});
  ASSERT_TRUE(line);
  EXPECT_LT(*std::min_element(line->begin(), line->end()), 0);
  EXPECT_TRUE(viewing(*line, Observer::deg10));
}

// A named lamp given back as a table, by 5 nm and by 10 nm: the same colour to the printed digits.
TEST(ColourLight, a_lamp_given_as_a_table_is_the_lamp_of_that_name) {
  const Spectrum power = illuminant(Illuminant::led_b3);
  const auto same = light_from_samples(380, 5, power);
  ASSERT_TRUE(same);
  EXPECT_EQ(viewing(*same, Observer::deg10)->white,
            viewing(Illuminant::led_b3, Observer::deg10).white);
  std::vector<double> coarse;
  for (std::size_t i = 0; i < kBands; i += 2) coarse.push_back(power[i]);
  const auto near = light_from_samples(380, 10, coarse);
  ASSERT_TRUE(near);
  EXPECT_NEAR(viewing(*near, Observer::deg10)->white.x,
              viewing(Illuminant::led_b3, Observer::deg10).white.x, 0.05);
}

TEST(ColourLight, the_scale_of_a_light_does_not_matter) {
  Spectrum bright = illuminant(Illuminant::fl11);
  for (double& power : bright) power *= 1024;
  const auto seen = viewing(bright, Observer::deg10);
  ASSERT_TRUE(seen);
  EXPECT_EQ(seen->x, viewing(Illuminant::fl11, Observer::deg10).x);
}

TEST(ColourLight, shared_viewings_are_one_object_from_any_thread) {
  const Viewing* from_thread = nullptr;
  std::thread([&] { from_thread = &daylight_10deg(); }).join();
  EXPECT_EQ(from_thread, &daylight_10deg());
  EXPECT_EQ(daylight_10deg().observer, Observer::deg10);
}

// A table mix-up of the two observers would pass every neutral; a saturated surface tells them.
TEST(ColourLight, the_two_observers_see_a_blue_surface_differently) {
  Spectrum blue{};
  for (std::size_t i = 0; i < 20; ++i) blue[i] = 0.8;
  const auto small = xyz_under<D65, Deg2>(blue);
  const auto large = xyz_under<D65, Deg10>(blue);
  EXPECT_LT(small.y, large.y);  // the 10 degree observer is more sensitive to blue
  EXPECT_GT(large.y / small.y, 1.3);
}

TEST(ColourLab, an_equal_reflectance_is_neutral) {
  Spectrum grey{};
  grey.fill(0.18);
  const HairLab lab = lab_of(grey);
  EXPECT_NEAR(lab.l, 49.496, 5e-4);  // 116·0.18^(1/3) − 16
  EXPECT_NEAR(lab.a, 0, 1e-12);
  EXPECT_NEAR(lab.b, 0, 1e-12);
  grey.fill(0);
  EXPECT_NEAR(lab_of(grey).l, 0, 1e-12);
}

TEST(ColourLab, run_time_and_tagged_colours_agree) {
  Spectrum warm{};
  for (std::size_t i = 0; i < kBands; ++i) warm[i] = 0.01 * static_cast<double>(i);
  const HairLab tagged = lab_of(warm);
  const ViewedLab viewed = lab_under(warm, daylight_10deg());
  EXPECT_EQ(tagged.l, viewed.l);
  EXPECT_EQ(tagged.a, viewed.a);
  EXPECT_EQ(tagged.b, viewed.b);
  EXPECT_EQ(viewed.white, (white_of<D65, Deg10>()));
}

TEST(ColourLab, hue_of_a_neutral_is_zero_and_quadrants_are_right) {
  EXPECT_EQ(lab_to_lch(HairLab{50, 0, 0}).h, 0);
  EXPECT_NEAR(lab_to_lch(HairLab{50, 0, 10}).h, 90, 1e-12);
  EXPECT_NEAR(lab_to_lch(HairLab{50, -10, 0}).h, 180, 1e-12);
  EXPECT_NEAR(lab_to_lch(HairLab{50, 0, -10}).h, 270, 1e-12);
  EXPECT_NEAR(lab_to_lch(HairLab{50, 3, 4}).c, 5, 1e-12);
}

TEST(ColourDifference, colours_under_different_lights_are_not_compared) {
  Spectrum grey{};
  grey.fill(0.4);
  const ViewedLab lamp = lab_under(grey, viewing(Illuminant::a, Observer::deg10));
  const ViewedLab day = lab_under(grey, daylight_10deg());
  const ViewedLab small = lab_under(grey, viewing(Illuminant::d65, Observer::deg2));
  EXPECT_EQ(delta_e_2000(lamp, day).error().code, ErrorCode::conflict);
  EXPECT_EQ(delta_e_76(day, small).error().code, ErrorCode::conflict);
  ViewedLab darker = day;
  darker.l -= 3;
  EXPECT_NEAR(delta_e_76(day, darker).value(), 3, 1e-12);
  EXPECT_GT(delta_e_2000(day, darker).value(), 2);
}

TEST(ColourDifference, opposite_hues_give_one_of_the_two_values_of_the_tie) {
  const HairLab one{50, -0.001, 2.49};
  const HairLab two{50, 0.001, -2.49};
  const double got = delta_e_2000(one, two);
  EXPECT_TRUE(std::abs(got - 4.8045) < 5e-5 || std::abs(got - 4.7461) < 5e-5) << got;
}

TEST(ColourAdaptation, whites_map_to_whites) {
  for (const auto name : illuminant_names()) {
    const Viewing& seen = viewing(*illuminant_named(name), Observer::deg10);
    const auto daylight_look = looks_in_daylight({100, 0, 0, seen.white, Observer::deg10});
    ASSERT_TRUE(daylight_look) << name;
    EXPECT_NEAR(daylight_look->l, 100, 1e-9) << name;
    EXPECT_NEAR(daylight_look->a, 0, 1e-9) << name;
    EXPECT_NEAR(daylight_look->b, 0, 1e-9) << name;
  }
  const auto other_eye = looks_in_daylight({50, 0, 0, {95, 100, 108}, Observer::deg2});
  ASSERT_FALSE(other_eye);
  EXPECT_EQ(other_eye.error().code, ErrorCode::conflict);
}

TEST(ColourMatrix, without_an_inverse_is_refused) {
  EXPECT_FALSE(inverse(Matrix3{{{1, 2, 3}, {2, 4, 6}, {0, 1, 0}}}));
  const auto back = inverse(diagonal({2, 4, 8}));
  ASSERT_TRUE(back);
  EXPECT_EQ((*back)[2][2], 0.125);
}

}  // namespace
}  // namespace hw::colour
