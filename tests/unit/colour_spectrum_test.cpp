#include <limits>

#include "huewright/colour/difference.h"
#include "huewright/colour/lab.h"

namespace hw::colour {
namespace {

TEST(ColourSpectrum, passes_samples_on_the_grid_through_unchanged) {
  std::vector<double> values;
  for (std::size_t i = 0; i < kBands; ++i) values.push_back(0.1 + 0.001 * static_cast<double>(i * i % 37));
  const auto out = resample(380, 5, values);
  ASSERT_TRUE(out);
  for (std::size_t i = 0; i < kBands; ++i) EXPECT_EQ((*out)[i], values[i]);
}

TEST(ColourSpectrum, perfect_diffuser_is_white_under_every_light) {
  Spectrum one{};
  one.fill(1);
  for (const auto name : illuminant_names()) {
    const auto light = illuminant_named(name);
    ASSERT_TRUE(light);
    for (const auto eye : {Observer::deg2, Observer::deg10}) {
      const auto lab = lab_under(one, viewing(*light, eye));
      EXPECT_NEAR(lab.l, 100, 1e-12) << name;
      EXPECT_NEAR(lab.a, 0, 1e-12) << name;
      EXPECT_NEAR(lab.b, 0, 1e-12) << name;
    }
  }
}

}  // namespace
}  // namespace hw::colour
