#include <limits>

#include "huewright/colour/spectrum.h"

namespace hw::colour {
namespace {

std::size_t band_at(double nm) {
  return static_cast<std::size_t>(std::lround((nm - kFirstNm) / kStepNm));
}

TEST(ColourSpectrum, passes_samples_on_the_grid_through_unchanged) {
  std::vector<double> values;
  for (std::size_t i = 0; i < kBands; ++i) {
    values.push_back(0.1 + 0.001 * static_cast<double>(i * i % 37));
  }
  const auto out = resample(380, 5, values);
  ASSERT_TRUE(out);
  for (std::size_t i = 0; i < kBands; ++i) EXPECT_EQ((*out)[i], values[i]);
}

TEST(ColourSpectrum, takes_every_fifth_of_one_nanometre_data) {
  std::vector<double> values;
  for (int nm = 300; nm <= 830; ++nm) values.push_back(std::sin(nm * 1.7));
  const auto out = resample(300, 1, values);
  ASSERT_TRUE(out);
  for (std::size_t i = 0; i < kBands; ++i) {
    EXPECT_EQ((*out)[i], values[static_cast<std::size_t>(wavelength_nm(i)) - 300]);
  }
}

TEST(ColourSpectrum, worked_number_of_the_header) {
  const std::vector<double> values = {0.1, 0.2, 0.4, 0.5};
  const auto out = resample(380, 10, values);
  ASSERT_TRUE(out);
  EXPECT_NEAR((*out)[band_at(395)], 0.3, 1e-15);
}

TEST(ColourSpectrum, holds_the_end_values_outside_the_data) {
  const std::vector<double> values = {0.3, 0.2, 0.6, 0.4};
  const auto out = resample(500, 20, values);
  ASSERT_TRUE(out);
  EXPECT_EQ(out->front(), 0.3);
  EXPECT_EQ((*out)[band_at(495)], 0.3);
  EXPECT_EQ((*out)[band_at(560)], 0.4);
  EXPECT_EQ(out->back(), 0.4);
}

// Polynomials a method must reproduce: a line from two samples, a parabola from three, and a cubic
// inside (not in the end intervals) from more.
TEST(ColourSpectrum, reproduces_the_polynomial_its_samples_allow) {
  const auto cubic = [](double nm) {
    const double t = (nm - 580) / 100;
    return 0.4 + 0.2 * t - 0.05 * t * t + 0.03 * t * t * t;
  };
  std::vector<double> samples;
  for (int nm = 360; nm <= 800; nm += 20) samples.push_back(cubic(nm));
  const auto out = resample(360, 20, samples);
  ASSERT_TRUE(out);
  for (std::size_t i = 0; i < kBands; ++i) EXPECT_NEAR((*out)[i], cubic(wavelength_nm(i)), 1e-13);

  const auto line = resample(380, 400, std::vector<double>{0.1, 0.5});
  ASSERT_TRUE(line);
  EXPECT_NEAR((*line)[band_at(480)], 0.2, 1e-15);
  const auto parabola = resample(380, 200, std::vector<double>{0, 1, 4});
  ASSERT_TRUE(parabola);
  EXPECT_NEAR((*parabola)[band_at(480)], 0.25, 1e-15);
  EXPECT_NEAR((*parabola)[band_at(680)], 2.25, 1e-14);
}

TEST(ColourSpectrum, accepts_steps_that_binary_numbers_cannot_hold) {
  // 380 to 780 by 40/3 nm: every third sample falls on the grid but for the last bits.
  std::vector<double> values;
  for (int i = 0; i <= 30; ++i) values.push_back(i % 7);
  const auto out = resample(380, 40.0 / 3, values);
  ASSERT_TRUE(out);
  EXPECT_EQ((*out)[band_at(420)], values[3]);
  EXPECT_EQ(out->back(), values[30]);
}

struct Bad {
  double start_nm;
  double step_nm;
  std::vector<double> values;
  ErrorCode code;
  std::string where;
};

TEST(ColourSpectrum, refuses_what_is_not_a_spectrum) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinity = std::numeric_limits<double>::infinity();
  const Bad cases[] = {
      {380, 5, {}, ErrorCode::missing, "values"},
      {380, 5, {0.5}, ErrorCode::missing, "values"},
      {380, 0, {0.1, 0.2}, ErrorCode::out_of_range, "step_nm"},
      {380, -5, {0.1, 0.2}, ErrorCode::out_of_range, "step_nm"},
      {380, nan, {0.1, 0.2}, ErrorCode::out_of_range, "step_nm"},
      {380, infinity, {0.1, 0.2}, ErrorCode::out_of_range, "step_nm"},
      {nan, 5, {0.1, 0.2}, ErrorCode::out_of_range, "start_nm"},
      {-infinity, 5, {0.1, 0.2}, ErrorCode::out_of_range, "start_nm"},
      {380, 5, {0.1, nan}, ErrorCode::out_of_range, "values[1]"},
      {380, 5, {0.1, 0.2, infinity}, ErrorCode::out_of_range, "values[2]"},
      {1000, 5, {0.1, 0.2}, ErrorCode::out_of_range, "start_nm"},
      {0.38, 0.005, {0.1, 0.2}, ErrorCode::out_of_range, "start_nm"},
  };
  for (const Bad& bad : cases) {
    const auto out = resample(bad.start_nm, bad.step_nm, bad.values);
    ASSERT_FALSE(out) << bad.start_nm << ' ' << bad.step_nm;
    EXPECT_EQ(out.error().code, bad.code);
    EXPECT_EQ(out.error().where, bad.where);
    EXPECT_FALSE(out.error().hint.empty());
    EXPECT_EQ(one_line(out.error()).find('\n'), std::string::npos);
  }
}

TEST(ColourSpectrum, survives_extreme_but_finite_grids) {
  const std::vector<double> values = {0.1, 0.9};
  EXPECT_TRUE(resample(380, 1e300, values));
  EXPECT_TRUE(resample(400, 1e-300, values));
  EXPECT_TRUE(resample(-1e15, 2e15, values));
}

}  // namespace
}  // namespace hw::colour
